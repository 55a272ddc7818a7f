import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { accessOrder } from '../../core/balance/accessOrder.ts';
import { jumperLevels } from '../../core/balance/pieceLevels.ts';
import { terminalPlaces } from '../../core/balance/terminals.ts';
import { route } from '../../core/routing/route.ts';
import { connectionsOf } from '../../core/winding/joints/joints.ts';
import type { Bar, Path, Winding } from '../../core/winding/model.ts';
import type { MachineRequest } from '../winding/windings.ts';
import { machine } from '../winding/windings.ts';

function routed(request: MachineRequest, paths: number): { winding: Winding; paths: readonly Path[] } {
  const winding = machine(request);
  const result = route(winding, { paths });
  if (!result.ok) throw new Error(JSON.stringify(result.reason));
  return { winding, paths: result.paths };
}

/** A path of connection-side joints alone: every second joint is the regular crown. */
function pieces(number: number, bars: readonly Bar[], spans: readonly number[]): Path {
  return {
    phase: 0,
    number,
    bars,
    spans,
    pieces: spans.map((_, index) => index % 2 === 1),
    from: 'U1',
    to: 'N',
    startsFar: false,
    endsFar: false,
  };
}

describe('jumpers', () => {
  const winding = machine({ slots: 48, poles: 8, layers: 4 });
  const folded = (slot: number) => ((slot + 47) % 48) + 1;
  const turn = (number: number, slot: number, span: number) =>
    pieces(
      number,
      [
        { slot: folded(slot - 6), layer: 2 },
        { slot, layer: 3 },
        { slot: folded(slot + span), layer: 3 },
      ],
      [6, span],
    );

  it('lie one above another where they overlap, else on one level', () => {
    const levels = (...paths: Path[]) => {
      const { highest, overlap } = jumperLevels(winding, connectionsOf(winding, paths));
      return [highest, overlap];
    };
    expect(levels(turn(1, 10, 6), turn(2, 20, 6))).toEqual([1, 1]);
    expect(levels(turn(1, 10, 6), turn(2, 13, 6))).toEqual([2, 2]);
    expect(levels(turn(1, 10, 9), turn(2, 13, 9), turn(3, 15, 9), turn(4, 30, 3))).toEqual([3, 3]);
    expect(levels(turn(1, 10, 6))).toEqual([1, 1]);
  });

  it('levels of random turns: none meets another of its level, overlap as counted slot by slot', () => {
    const turns = fc.array(fc.tuple(fc.integer({ min: 1, max: 48 }), fc.integer({ min: 1, max: 47 })), {
      minLength: 1,
      maxLength: 12,
    });
    fc.assert(
      fc.property(turns, (list) => {
        const paths = list.map(([slot, span], index) => turn(index + 1, slot, span));
        const connections = connectionsOf(winding, paths);
        const { levels, highest, overlap } = jumperLevels(winding, connections);
        const jumpers = connections.joints.filter((joint) => joint.kind === 'jumper');
        expect(jumpers).toHaveLength(list.length);
        const arcs = jumpers.map(({ number, from, span }) => ({
          slots: new Set(Array.from({ length: span + 1 }, (_, step) => (from.slot + step - 1) % 48)),
          start: from.slot - 1,
          level: levels.get(number)!,
        }));
        for (const arc of arcs) {
          const meeting = arcs.filter((other) => [...arc.slots].some((slot) => other.slots.has(slot)));
          expect(meeting.filter((other) => other.level === arc.level)).toEqual([arc]);
        }
        expect(highest).toBe(Math.max(...arcs.map((arc) => arc.level)));
        expect(overlap).toBe(
          Math.max(...arcs.map(({ start }) => arcs.filter((arc) => arc.slots.has(start)).length)),
        );
      }),
      { seed: 20260501 },
    );
  });

  it('a bridge comes after what it hides; pieces at the free radius hide nothing', () => {
    const bridge = pieces(
      1,
      [
        { slot: 1, layer: 2 },
        { slot: 7, layer: 3 },
        { slot: 13, layer: 0 },
      ],
      [6, 6],
    );
    const hidden = pieces(
      2,
      [
        { slot: 4, layer: 0 },
        { slot: 10, layer: 1 },
        { slot: 16, layer: 2 },
      ],
      [6, 6],
    );
    const connections = connectionsOf(winding, [bridge, { ...hidden, pieces: [false, false] }]);
    const { order, ring } = accessOrder(winding, connections);
    expect(ring).toBeNull();
    const number = (path: number) =>
      connections.joints.find((joint) => joint.path === path && joint.side === 'connection')!.number;
    expect(order.indexOf(number(0))).toBeGreaterThan(order.indexOf(number(1)));
    expect([...order].sort((a, b) => a - b)).toEqual(connections.joints.map((joint) => joint.number));
  });

  it('two crossing pieces of one inner layer hide each other', () => {
    const inner = (number: number, slot: number) =>
      pieces(
        number,
        [
          { slot: slot - 6, layer: 0 },
          { slot, layer: 1 },
          { slot: slot + 6, layer: 1 },
        ],
        [6, 6],
      );
    const crossing = connectionsOf(winding, [inner(1, 10), inner(2, 13)]);
    const { ring } = accessOrder(winding, crossing);
    expect(ring?.length).toBe(2);
    const apart = connectionsOf(winding, [inner(1, 10), inner(2, 20)]);
    expect(accessOrder(winding, apart).ring).toBeNull();
  });
});

describe('terminals', () => {
  it('of two mirrored paths start within one pole pair', () => {
    const { winding, paths } = routed({ slots: 48, poles: 8, layers: 4 }, 2);
    const places = terminalPlaces(winding, paths);
    expect(places.startWindow).toEqual({ slots: 8, angle: 60 });
    expect(places.window.slots).toBeGreaterThanOrEqual(8);
    // Forward paths start in layer a, their twins in layer d.
    expect(places.problems).toEqual(
      [0, 1, 2].map((phase) => ({ kind: 'starts-at-mixed-radius', phase, layers: [0, 3] })),
    );
  });

  it('in an inner layer is named with path and end', () => {
    const winding = machine({ slots: 48, poles: 8, layers: 4 });
    const path = pieces(
      1,
      [
        { slot: 1, layer: 2 },
        { slot: 7, layer: 3 },
      ],
      [6],
    );
    expect(terminalPlaces(winding, [path]).problems).toEqual([
      { kind: 'lead-in-inner-layer', path: 0, end: 'start', layer: 2 },
    ]);
  });
});
