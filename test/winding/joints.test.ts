import { describe, expect, it } from 'vitest';
import { route } from '../../core/routing/route.ts';
import { barShapes, legsBentApart } from '../../core/winding/joints/bars.ts';
import { leanOf, regularBends } from '../../core/winding/joints/bends.ts';
import { connectionsOf, countJoints, isPiece } from '../../core/winding/joints/joints.ts';
import type { Bar, Path, Winding } from '../../core/winding/model.ts';
import { machine } from './windings.ts';

/** A path from its first bar and hops [span, layer]. */
function pathOf(
  winding: Winding,
  first: Bar,
  hops: readonly (readonly [number, number])[],
  rest: Partial<Path> = {},
): Path {
  const bars = [first];
  for (const [span, layer] of hops) {
    const slot = ((((bars.at(-1)!.slot - 1 + span) % winding.slots) + winding.slots) % winding.slots) + 1;
    bars.push({ slot, layer });
  }
  return {
    phase: 0,
    number: 1,
    bars,
    spans: hops.map(([span]) => span),
    pieces: hops.map(() => false),
    from: 'U1',
    to: 'N',
    startsFar: false,
    endsFar: false,
    ...rest,
  };
}

const a = 0;
const b = 1;
const c = 2;
const d = 3;
const ferry = machine({ slots: 48, poles: 8, layers: 4 });

describe('what is regular', () => {
  it('full pitch wave: bars lean one way on one side and the other way on the other', () => {
    const bends = regularBends(ferry);
    expect(bends).toMatchObject({ base: 'wave', direction: 1, far: [6, 6], connection: [-6, -6] });
    expect([0, 1, 2, 3].map((layer) => leanOf(bends, 'far', layer))).toEqual([1, -1, 1, -1]);
    expect([0, 1, 2, 3].map((layer) => leanOf(bends, 'connection', layer))).toEqual([-1, 1, -1, 1]);
  });

  it('short pitch: the connection side takes the rest of the pole pair', () => {
    const bends = regularBends(machine({ slots: 48, poles: 8, layers: 2, span: 5 }));
    expect([bends.far, bends.connection]).toEqual([[5], [-7]]);
  });

  it('is read from a written table too, the shortest way', () => {
    const rows: Winding = {
      ...machine({ slots: 48, poles: 8, layers: 2, span: 7 }),
      origin: { kind: 'rows' },
    };
    // 7 slots one way or 5 the other: the same bars.
    expect(regularBends(rows)).toMatchObject({ direction: -1, far: [-5], connection: [7] });
  });

  it('tooth coils lean the same way on both sides, and only coil stacks are regular', () => {
    const bends = regularBends(machine({ slots: 12, poles: 10, layers: 4 }));
    expect(bends).toMatchObject({ base: 'lap', far: [1, 1], connection: [null, null], betweenPairs: -1 });
  });

  it('a lap winding written by hand makes its own joints regular', () => {
    const winding = machine({ slots: 48, poles: 8, layers: 2, span: 5 });
    const lap = pathOf(winding, { slot: 1, layer: a }, [
      [5, b],
      [-4, a],
      [5, b],
    ]);
    const { bends, joints } = connectionsOf(winding, [lap]);
    expect(bends).toMatchObject({ base: 'lap', connection: [4] });
    expect(joints.map((joint) => joint.kind)).toEqual(['regular', 'regular', 'regular']);
  });
});

describe('kinds of joints', () => {
  const kinds = (hops: readonly (readonly [number, number])[], first: Bar = { slot: 1, layer: a }) => {
    const { joints } = connectionsOf(ferry, [pathOf(ferry, first, hops)]);
    return [...joints].sort((x, y) => x.position - y.position).map((joint) => [joint.kind, joint.reason]);
  };

  it('regular, other span, layer step', () => {
    expect(
      kinds([
        [6, b],
        [6, a],
        [6, b],
        [7, a],
        [6, b],
        [5, c],
        [6, d],
      ]),
    ).toEqual([
      ['regular', 'regular'],
      ['regular', 'regular'],
      ['regular', 'regular'],
      ['other-span', 'other-span'],
      ['regular', 'regular'],
      ['layer-step', 'layer-step'],
      ['regular', 'regular'],
    ]);
  });

  it('jumpers: bridge, turn in the outermost and in an inner layer, wrong way, same parity', () => {
    expect(
      kinds([
        [6, d],
        [6, a],
      ])[1],
    ).toEqual(['jumper', 'bridge']);
    expect(
      kinds([
        [6, d],
        [6, d],
      ])[1],
    ).toEqual(['jumper', 'turn-outer']);
    expect(
      kinds([
        [6, b],
        [6, b],
      ])[1],
    ).toEqual(['jumper', 'turn-inner']);
    expect(
      kinds([
        [6, b],
        [-6, a],
      ])[1],
    ).toEqual(['jumper', 'against-lean']);
    expect(
      kinds([
        [6, b],
        [6, d],
      ])[1],
    ).toEqual(['jumper', 'against-lean']);
  });

  it('a joint written as a separate piece is a jumper whatever it spans', () => {
    const path = pathOf(
      ferry,
      { slot: 1, layer: a },
      [
        [6, b],
        [6, a],
      ],
      { pieces: [false, true] },
    );
    const { joints } = connectionsOf(ferry, [path]);
    expect(joints.find((joint) => joint.side === 'connection')).toMatchObject({
      kind: 'jumper',
      reason: 'regular',
    });
  });

  it('one layer: only the coil itself is regular', () => {
    const single = machine({ slots: 24, poles: 4, layers: 1, span: 6 });
    const path = pathOf(single, { slot: 1, layer: a }, [
      [6, a],
      [6, a],
      [6, a],
    ]);
    const { joints } = connectionsOf(single, [path]);
    expect(joints.map(({ side, kind }) => [side, kind])).toEqual([
      ['connection', 'jumper'],
      ['far', 'regular'],
      ['far', 'regular'],
    ]);
  });

  it('spans that lead elsewhere and bars outside are a misuse', () => {
    const good = pathOf(ferry, { slot: 1, layer: a }, [[6, b]]);
    expect(() => connectionsOf(ferry, [{ ...good, spans: [5] }])).toThrow(RangeError);
    expect(() => connectionsOf(ferry, [{ ...good, spans: [54] }])).toThrow(/54/);
    expect(() => connectionsOf(ferry, [{ ...good, bars: [good.bars[0]!, { slot: 7, layer: 9 }] }])).toThrow(
      /9/,
    );
  });
});

describe('numbers, ends and spans', () => {
  it('connection side first, inner layers first; leads and star points after the joints', () => {
    const result = route(ferry, { paths: 2 });
    if (!result.ok) throw new Error('refused');
    const { joints, ends } = connectionsOf(ferry, result.paths);
    expect(joints.length).toBe(6 * 31);
    const firstFar = joints.findIndex((joint) => joint.side === 'far');
    expect(joints.slice(firstFar).every((joint) => joint.side === 'far')).toBe(true);
    expect(firstFar).toBe(6 * 15);
    expect(ends.map((end) => end.number)).toEqual(ends.map((_, index) => joints.length + index + 1));
    expect(ends.map((end) => end.kind)).toEqual([...Array(6).fill('lead'), ...Array(6).fill('star')]);
    // The order of the paths changes nothing but the paths' own indices.
    const again = connectionsOf(ferry, [...result.paths].reverse());
    const plain = (list: typeof joints) =>
      list.map(({ number, from, to, span }) => ({ number, from, to, span }));
    expect(plain(again.joints)).toEqual(plain(joints));
  });

  it('true spans of crossing bars: +-1 slot of lean each makes crowns two slots shorter', () => {
    // Bars a lean +1 slot, bars b -1 slot over the stack: at the far side a is half a slot on, b half back.
    const slot = (2 * Math.PI) / 48;
    const crossed = machine({ slots: 48, poles: 8, layers: 2, lean: [slot, -slot] });
    const { joints } = connectionsOf(crossed, [
      pathOf(crossed, { slot: 1, layer: a }, [
        [6, b],
        [6, a],
      ]),
    ]);
    const far = joints.find((joint) => joint.side === 'far')!;
    const near = joints.find((joint) => joint.side === 'connection')!;
    expect(far.trueSpan).toBeCloseTo(5, 12);
    // From b (half a slot on at the connection side) to a (half a slot back).
    expect(near.trueSpan).toBeCloseTo(5, 12);
  });

  it('shapes: both directions of one bend count once', () => {
    const result = route(ferry, { paths: 2 });
    if (!result.ok) throw new Error('refused');
    const { joints, shapes } = connectionsOf(ferry, result.paths);
    expect(shapes.reduce((sum, shape) => sum + shape.count, 0)).toBe(joints.length);
    const regular = shapes.filter((shape) => shape.kind === 'regular');
    expect(regular.map(({ side, lowerLayer, offset }) => [side, lowerLayer, offset])).toEqual([
      ['connection', 0, -6],
      ['connection', 2, -6],
      ['far', 0, 6],
      ['far', 2, 6],
    ]);
    expect(countJoints(joints)).toEqual({ special: 18, jumpers: 0, specialShapes: 3 });
  });
});

describe('shapes of bars', () => {
  it('two hairpins of one shape, and the leads', () => {
    const winding = machine({ slots: 48, poles: 8, layers: 2 });
    const path = pathOf(winding, { slot: 1, layer: a }, [
      [6, b],
      [6, a],
      [6, b],
      [6, a],
      [6, b],
    ]);
    const connections = connectionsOf(winding, [path]);
    const shapes = barShapes([path], connections, 'hairpin');
    expect(shapes.map(({ crown, ends, count }) => [crown, ends.map((end) => end.bend), count])).toEqual([
      [6, [null, 6], 1],
      [6, [-6, 6], 1],
      [6, [-6, null], 1],
    ]);
    const straight = barShapes([path], connections, 'straight');
    expect(straight.reduce((sum, shape) => sum + shape.count, 0)).toBe(6);
    expect(legsBentApart(connections)).toBe(0);
  });

  it('a far-side joint that no crown can make joins two single bars, marked as a piece or not', () => {
    const winding = machine({ slots: 48, poles: 8, layers: 2 });
    const path = pathOf(winding, { slot: 1, layer: a }, [
      [6, b],
      [6, a],
      [6, a],
    ]);
    const connections = connectionsOf(winding, [path]);
    const far = connections.joints.filter(({ side }) => side === 'far');
    expect(far.map((joint) => [joint.kind, isPiece(joint)])).toEqual([
      ['regular', false],
      ['jumper', true],
    ]);
    const shapes = barShapes([path], connections, 'hairpin');
    expect(shapes.map(({ form, ends }) => [form, ends.map((end) => end.bend)])).toEqual([
      ['hairpin', [null, 6]],
      ['single-bar', [-6, null]],
      ['single-bar', [null, null]],
    ]);
  });

  it('mirror images differ', () => {
    const winding = machine({ slots: 48, poles: 8, layers: 2 });
    const forward = pathOf(winding, { slot: 1, layer: a }, [
      [6, b],
      [6, a],
      [6, b],
      [6, a],
      [6, b],
      [6, a],
      [6, b],
    ]);
    const shapes = barShapes([forward], connectionsOf(winding, [forward]), 'hairpin');
    expect(shapes.map((shape) => shape.count)).toEqual([1, 2, 1]);
    // The same bends seen in a mirror: crown and legs the other way round.
    const mirrored = { ...winding, origin: { kind: 'paths' } as const };
    const backward = pathOf(winding, { slot: 1, layer: a }, [
      [-6, b],
      [-6, a],
      [-6, b],
    ]);
    const twins = barShapes([backward], connectionsOf(mirrored, [backward]), 'hairpin');
    const text = (shape: (typeof twins)[number]) => JSON.stringify([shape.crown, shape.ends]);
    expect(twins.map((shape) => [shape.crown, shape.ends.map((end) => end.bend)])).toEqual([
      [-6, [null, -6]],
      [-6, [6, null]],
    ]);
    expect(shapes.map(text).filter((one) => twins.map(text).includes(one))).toEqual([]);
  });

  it('every bar belongs to one piece, whatever the winding', () => {
    for (const request of [
      { slots: 48, poles: 8, layers: 4, span: 5 },
      { slots: 60, poles: 8, layers: 2 },
      { slots: 12, poles: 10, layers: 4 },
    ]) {
      const winding = machine(request);
      const result = route(winding, { paths: 2 });
      if (!result.ok) throw new Error('refused');
      const connections = connectionsOf(winding, result.paths);
      const bars = winding.slots * winding.layers;
      const hairpins = barShapes(result.paths, connections, 'hairpin');
      const straight = barShapes(result.paths, connections, 'straight');
      const count = (shapes: typeof hairpins) => shapes.reduce((sum, shape) => sum + shape.count, 0);
      expect(count(hairpins)).toBe(bars / 2 + hairpins.filter((s) => s.form === 'single-bar').length / 2);
      expect(count(straight)).toBe(bars);
    }
  });

  it('counts legs that leave their ring: two a joint of another span', () => {
    const winding = machine({ slots: 48, poles: 8, layers: 2 });
    const result = route(winding, { paths: 2 });
    if (!result.ok) throw new Error('refused');
    const connections = connectionsOf(winding, result.paths);
    const other = connections.joints.filter((joint) => joint.kind === 'other-span').length;
    expect(other).toBe(6);
    expect(legsBentApart(connections)).toBe(2 * other);
  });
});
