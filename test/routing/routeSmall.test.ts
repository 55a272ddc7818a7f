// Takes its time: searches connections.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { possibleParallelPaths, route } from '../../core/routing/route.ts';
import { connectionsOf } from '../../core/winding/joints/joints.ts';
import { tries } from '../support/tries.ts';
import type { MachineRequest } from '../winding/windings.ts';
import { machine } from '../winding/windings.ts';
import { refereeProblems } from './checkRouting.ts';
import { subsetAnswer } from './subsetReferee.ts';

/** A small part of what is searched by default; with more tries all of it. */
const nodeBudget = tries(1) > 1 ? 400_000 : 15_000;

/** Machines with at most 12 coils a phase: small enough for every order of every subset. */
const smallMachines: readonly MachineRequest[] = [
  { slots: 12, poles: 4, layers: 2 },
  { slots: 12, poles: 4, layers: 4 },
  { slots: 12, poles: 4, layers: 6 },
  { slots: 6, poles: 2, layers: 4 },
  { slots: 18, poles: 6, layers: 2 },
  { slots: 18, poles: 6, layers: 4 },
  { slots: 12, poles: 2, layers: 2 },
  { slots: 12, poles: 2, layers: 4 },
  { slots: 12, poles: 2, layers: 2, span: 5 },
  { slots: 12, poles: 2, layers: 4, span: 5 },
  { slots: 12, poles: 2, layers: 4, stagger: 1 },
  { slots: 18, poles: 2, layers: 4 },
  { slots: 18, poles: 2, layers: 4, span: 8 },
  { slots: 24, poles: 4, layers: 2 },
  { slots: 36, poles: 6, layers: 2 },
  { slots: 36, poles: 6, layers: 2, span: 5 },
  { slots: 9, poles: 2, layers: 2 },
  { slots: 9, poles: 2, layers: 4 },
  { slots: 18, poles: 4, layers: 2 },
  { slots: 18, poles: 4, layers: 4 },
  { slots: 15, poles: 2, layers: 2 },
  { slots: 30, poles: 4, layers: 2 },
  { slots: 20, poles: 4, phases: 5, layers: 4 },
  { slots: 20, poles: 2, phases: 5, layers: 4 },
  { slots: 24, poles: 4, phases: 6, layers: 4 },
  { slots: 12, poles: 10, layers: 2 },
  { slots: 12, poles: 10, layers: 4 },
  { slots: 12, poles: 8, layers: 2 },
  { slots: 9, poles: 8, layers: 2 },
  { slots: 9, poles: 8, layers: 4 },
  { slots: 24, poles: 20, layers: 2 },
];

describe('small machines against every order of every subset', () => {
  for (const request of smallMachines) {
    const { slots, poles, phases = 3, layers, span, stagger } = request;
    const title = `${slots} slots, ${poles} poles, ${phases} phases, ${layers} layers, ${span ?? stagger ?? 'full'}`;
    it(title, () => {
      const winding = machine(request);
      const wound = span ?? Math.max(1, Math.floor(slots / poles));
      const tooth = wound === 1 && (2 * slots) % poles !== 0;
      const layout = { span: wound, tooth };
      const units = (slots * layers) / (2 * phases);
      expect(units).toBeLessThanOrEqual(12);
      const possible = possibleParallelPaths(winding);
      for (let paths = 1; paths <= units; paths++) {
        const answer = subsetAnswer(winding, layout, paths);
        expect(possible.includes(paths), `${paths} paths`).toBe(answer !== null);
        if (!answer) continue;
        const fewestJumpers = route(winding, { paths, nodeBudget });
        const fewestJoints = route(winding, { paths, wishes: ['joints'], nodeBudget });
        if (!fewestJumpers.ok || !fewestJoints.ok) throw new Error('refused');
        expect(refereeProblems(winding, layout, fewestJumpers.paths)).toEqual([]);
        expect(refereeProblems(winding, layout, fewestJoints.paths)).toEqual([]);
        const least = fewestJumpers.explanation;
        const few = fewestJoints.explanation;
        expect(least.measure.jumpers).toBeGreaterThanOrEqual(answer.jumpers);
        expect(few.measure.specialJoints).toBeGreaterThanOrEqual(answer.special);
        if (least.bounds) expect(least.bounds.jumpers).toBeLessThanOrEqual(answer.jumpers);
        if (few.bounds) expect(few.bounds.specialJoints).toBeLessThanOrEqual(answer.special);
        if (least.proved.includes('jumpers')) expect(least.measure.jumpers).toBe(answer.jumpers);
        if (few.proved.includes('special-joints')) expect(few.measure.specialJoints).toBe(answer.special);
      }
    });
  }
});

describe('machines without a whole number of slots in a pole pair, and one layer', () => {
  const anyFraction = fc
    .record({
      slots: fc.integer({ min: 2, max: tries(1) > 1 ? 20 : 12 }).map((n) => 3 * n),
      pairs: fc.integer({ min: 1, max: 12 }),
      layers: fc.constantFrom(1, 2, 2, 4),
      shorter: fc.integer({ min: 0, max: 1 }),
      choice: fc.nat(),
    })
    .map(({ slots, pairs, layers, shorter, choice }) => {
      const poles = 2 * pairs;
      const span = Math.max(1, Math.floor(slots / poles) - shorter);
      const request: MachineRequest = { slots, poles, layers, span };
      try {
        const winding = machine(request);
        const possible = possibleParallelPaths(winding);
        return { request, winding, span, paths: possible[choice % possible.length] ?? 0 };
      } catch {
        return null;
      }
    })
    .filter((found) => found !== null)
    .filter((found) => found.paths > 0);

  it('every routing passes the referee, and reads back with the same kinds', () => {
    fc.assert(
      fc.property(anyFraction, ({ request, winding, span, paths }) => {
        const result = route(winding, { paths, nodeBudget: 5_000 });
        if (!result.ok) throw new Error(JSON.stringify(result.reason));
        const tooth = span === 1 && (2 * request.slots) % request.poles !== 0;
        expect(refereeProblems(winding, { span, tooth }, result.paths)).toEqual([]);
        expect(connectionsOf(winding, result.paths).bends).toEqual(result.bends);
      }),
      { seed: 23, numRuns: tries(10) },
    );
  });
});
