// Takes its time: searches connections.

import { describe, expect, it } from 'vitest';
import type { RouteOptions } from '../../core/routing/route.ts';
import { route } from '../../core/routing/route.ts';
import type { Winding } from '../../core/winding/model.ts';
import { tries } from '../support/tries.ts';
import type { MachineRequest } from '../winding/windings.ts';
import { machine } from '../winding/windings.ts';
import { refereeProblems } from './checkRouting.ts';
import { tipsAlone } from './routingCases.ts';

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

/**
 * Connections found by hand or by exact search outside this project, which the router reaches or beats:
 * pieces, then shapes, then special joints of a phase.
 */
describe('connections found by hand', () => {
  const witnesses: [MachineRequest, number, Options, pieces: number, shapes: number, joints: number][] = [
    [{ slots: 18, poles: 6, layers: 4 }, 3, {}, 2, 3, 5],
    [{ slots: 36, poles: 6, layers: 2 }, 4, {}, 0, 2, 4],
    [{ slots: 36, poles: 6, layers: 2 }, 4, { specials: 'crowns' }, 0, 2, 4],
    [{ slots: 48, poles: 8, layers: 2 }, 2, { specials: 'crowns' }, 0, 2, 4],
    [{ slots: 48, poles: 8, layers: 4 }, 2, { specials: 'crowns' }, 0, 5, 10],
    [{ slots: 36, poles: 4, layers: 2 }, 2, { specials: 'crowns' }, 0, 2, 6],
    [{ slots: 18, poles: 4, layers: 2 }, 2, { specials: 'crowns' }, 2, 3, 6],
    [{ slots: 24, poles: 2, layers: 2 }, 4, { specials: 'crowns' }, 4, 4, 12],
    [{ slots: 24, poles: 2, layers: 2 }, 4, { specials: 'either' }, 0, 3, 12],
  ];
  for (const [request, paths, options, pieces, shapes, joints] of witnesses) {
    const { slots, poles, layers } = request;
    it(`${slots} slots, ${poles} poles, ${layers} layers, ${paths} paths ${options.specials ?? ''}`, () => {
      const { measure } = found(request, paths, options);
      const got = [measure.jumpers, measure.jointShapes, measure.specialJoints];
      const wanted = [pieces, shapes, joints];
      const first = got.findIndex((value, index) => value !== wanted[index]);
      expect(first < 0 || got[first]! < wanted[first]!, `${got} against ${wanted}`).toBe(true);
    });
  }

  it('63 slots, 12 poles and 30 slots, 8 poles: few pieces without a whole period', () => {
    expect(found({ slots: 63, poles: 12, layers: 2 }, 1).measure.jumpers).toBe(3);
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
    const options = { wishes: ['pieces', 'voltage'], tipSizes: tipsAlone(4), nodeBudget: 400_000 } as const;
    const { measure } = found({ slots: 48, poles: 8, layers: 4 }, 2, options);
    expect(measure.jumpers).toBe(0);
    expect(measure.voltageInSlot).toBeLessThan(0.69);
  });

  it('least voltage: the same where no sizes tell whether legs cross', () => {
    const { measure } = found({ slots: 48, poles: 8, layers: 4 }, 2, { wishes: ['pieces', 'voltage'] });
    expect(measure).toMatchObject({ jumpers: 0, crossings: 0 });
    expect(measure.voltageInSlot).toBeLessThan(0.69);
  });

  it('special crowns leave every leg with its ring', () => {
    expect(found({ slots: 48, poles: 8, layers: 4 }, 2, { specials: 'crowns' }).measure.legsBentApart).toBe(
      0,
    );
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
