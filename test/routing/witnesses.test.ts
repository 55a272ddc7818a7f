// Takes its time: searches connections.

import { describe, expect, it } from 'vitest';
import type { RouteOptions } from '../../core/routing/route.ts';
import { route } from '../../core/routing/route.ts';
import type { Winding } from '../../core/winding/model.ts';
import { study } from '../support/study.ts';
import { tries } from '../support/tries.ts';
import type { MachineRequest } from '../winding/windings.ts';
import { machine } from '../winding/windings.ts';
import { refereeProblems } from './checkRouting.ts';
import { leastVoltage, tipsAlone, type Witness, witnesses } from './routingCases.ts';

/** A tenth of what is searched by default finds all of them too; with more tries all of it is. */
const nodeBudget = tries(1) > 1 ? 400_000 : 40_000;

type Options = Omit<RouteOptions, 'paths'>;

function found(request: MachineRequest, paths: number, options: Options = {}) {
  const winding = machine(request);
  const result = route(winding, { paths, nodeBudget, ...options });
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.reason)}`);
  const span = request.span ?? Math.max(1, Math.floor(request.slots / request.poles));
  const tooth = span === 1 && (2 * request.slots) % request.poles !== 0;
  const { specials } = result.explanation;
  expect(refereeProblems(winding, { span, tooth }, result.paths, specials)).toEqual([]);
  return result.explanation;
}

/** What a text says of its written paths: errors, counts of a phase, the most voltage in a slot. */
function asWritten({
  machine: { slots, poles, layers, span },
  options,
  written,
}: Pick<Witness, 'machine' | 'options'> & { readonly written: NonNullable<Witness['written']> }) {
  const [v, w] = written.shifts;
  const { facts, findings } = study(`winding "Tide mill"
machine { slots ${slots} poles ${poles} phases 3 }
layout { layers ${layers} span ${span} }
connect { star
${options.specials ? `specials ${options.specials}` : ''}
${written.paths.map((path, index) => `path U ${index + 1} from U1 ${path} to N`).join('\n')}
repeat U as V shift ${v}
repeat U as W shift ${w} }`);
  const { connection } = facts!;
  if (connection.kind !== 'connected') throw new Error(connection.kind);
  return {
    errors: findings.filter(({ severity }) => severity === 'error').map(({ code }) => code),
    counts: connection.facts.counts(),
    inSlot: connection.facts.gaps()!.inSlot!.value,
  };
}

describe('connections found by hand', () => {
  for (const known of witnesses) {
    const { machine: request, paths, options, pieces, shapes, joints, written } = known;
    const { slots, poles, layers } = request;
    const title = `${slots} slots, ${poles} poles, ${layers} layers, ${paths} paths ${options.specials ?? ''}`;
    it(`${title}: reached or beaten`, () => {
      const { measure } = found(request, paths, options);
      const got = [measure.jumpers, measure.jointShapes, measure.specialJoints];
      const wanted = [pieces, shapes, joints];
      const first = got.findIndex((value, index) => value !== wanted[index]);
      expect(first < 0 || got[first]! < wanted[first]!, `${got} against ${wanted}`).toBe(true);
    });
    if (written)
      it(`${title}: has these counts as it was written`, () => {
        const { errors, counts } = asWritten({ ...known, written });
        expect(errors).toEqual([]);
        expect(counts).toMatchObject({ jumpers: pieces, specialShapes: shapes, special: joints });
      });
  }

  it('30 slots, 8 poles: few pieces without a whole period', () => {
    expect(found({ slots: 30, poles: 8, layers: 2 }, 1).measure.jumpers).toBe(2);
  });

  it('24 slots, 22 poles: pieces over one slot only, side by side', () => {
    const { measure } = found({ slots: 24, poles: 22, layers: 2 }, 2);
    expect([measure.jumpers, measure.levels]).toEqual([6, 1]);
    // Coils of one slot's span, and six pieces over one slot each.
    expect(measure.reach).toBeLessThanOrEqual(14);
  });

  it('least voltage: no piece and 68.9 % of the phase voltage in a slot, legs left out of account', () => {
    // The one by hand crosses no legs either, but leaves its star ends no place; the search meets others, which do.
    const byHand = asWritten({ ...leastVoltage, options: {} });
    expect(byHand.errors).toEqual([]);
    expect(byHand.counts.jumpers).toBe(0);
    expect(byHand.inSlot).toBeCloseTo(leastVoltage.share, 3);
    const options = { wishes: ['pieces', 'voltage'], tipSizes: tipsAlone(4), nodeBudget: 400_000 } as const;
    const { measure } = found(leastVoltage.machine, leastVoltage.paths, options);
    expect(measure.jumpers).toBe(0);
    expect(measure.voltageInSlot).toBeLessThan(byHand.inSlot + 1e-9);
  });

  it('least voltage: the same where no sizes tell whether legs cross', () => {
    const { measure } = found(leastVoltage.machine, leastVoltage.paths, { wishes: ['pieces', 'voltage'] });
    expect(measure).toMatchObject({ jumpers: 0, crossings: 0 });
    expect(measure.voltageInSlot).toBeLessThan(leastVoltage.share + 1e-3);
  });

  it('special crowns leave every leg with its ring', () => {
    expect(found({ slots: 48, poles: 8, layers: 4 }, 2, { specials: 'crowns' }).measure.legsBentApart).toBe(
      0,
    );
  });

  // As few pieces as with special joints: one reversal a path at most, and none where paths have mirrored twins.
  it.each([
    { slots: 48, poles: 8, layers: 6, paths: 1, pieces: 1 },
    { slots: 36, poles: 6, layers: 4, paths: 3, pieces: 3 },
    { slots: 54, poles: 6, layers: 6, paths: 3, pieces: 3 },
    { slots: 90, poles: 10, layers: 6, paths: 3, pieces: 3 },
    { slots: 72, poles: 8, layers: 6, paths: 6, pieces: 0 },
    { slots: 24, poles: 2, layers: 4, paths: 4, pieces: 0 },
    { slots: 27, poles: 6, layers: 4, paths: 1, pieces: 1 },
    { slots: 60, poles: 8, layers: 4, paths: 2, pieces: 2 },
  ])('special crowns need no more pieces than special joints: %o', ({ paths, pieces, ...request }) => {
    const options: Options = { specials: 'crowns', nodeBudget: 10_000 };
    const span = Math.floor(request.slots / request.poles);
    const { measure } = found({ ...request, span }, paths, options);
    expect(measure.jumpers).toBeLessThanOrEqual(pieces);
    expect(measure.legsBentApart).toBe(0);
  });
});

describe('where special spans lie', () => {
  it('is said where regular crowns do not do and nothing is stated', () => {
    const request = { slots: 36, poles: 6, layers: 2 };
    expect(found(request, 4, { nodeBudget: 5000 })).toMatchObject({ specials: 'either', crownsNeeded: true });
    expect(route(machine(request), { paths: 4, specials: 'joined' })).toMatchObject({
      ok: false,
      reason: { kind: 'paths-do-not-divide' },
    });
  });
});

/** Two layers of a winding, and above them the single layer of another. */
function threeLayers(below: Winding, above: Winding): Winding {
  const cells = new Int8Array(below.table.cells.length + above.table.cells.length);
  cells.set(below.table.cells);
  cells.set(above.table.cells, below.table.cells.length);
  const layers = below.layers + above.layers;
  return {
    ...below,
    layers,
    lean: Array.from({ length: layers }, () => 0),
    table: { slots: below.slots, layers, cells },
    origin: { kind: 'rows' },
  };
}

describe('an odd number of layers', () => {
  it('is routed with connecting pieces to the layer without a partner', () => {
    const winding = threeLayers(
      machine({ slots: 12, poles: 4, layers: 2 }),
      machine({ slots: 12, poles: 4, layers: 1, span: 3 }),
    );
    for (const paths of [1, 2]) {
      const result = route(winding, { paths, nodeBudget: 20_000 });
      if (!result.ok) throw new Error(JSON.stringify(result.reason));
      expect(result.paths.flatMap(({ bars }) => bars)).toHaveLength(36);
      const [first] = result.paths;
      for (const path of result.paths) {
        const layersOf = (bars: typeof path.bars) =>
          bars
            .map(({ layer }) => layer)
            .sort()
            .join();
        expect(layersOf(path.bars)).toBe(layersOf(first!.bars));
      }
      // Every joint of the odd layer but its coils' own is a piece.
      expect(result.explanation.measure.jumpers).toBeGreaterThan(0);
    }
  });
});

it('the common stator needs few steps with any number of paths: nothing is exchanged that is as good as it gets', () => {
  for (const paths of [1, 2, 4]) {
    const { tried } = found({ slots: 48, poles: 8, layers: 4 }, paths);
    expect(tried.map(({ method }) => method)).not.toContain('exchange');
    expect(tried.reduce((sum, { nodes }) => sum + nodes, 0)).toBeLessThan(20_000);
  }
});
