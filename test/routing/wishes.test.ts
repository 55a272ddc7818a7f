// Takes its time: searches connections.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { parallelPathsAnyCrowns } from '../../core/analysis/anyCrownPaths.ts';
import { type RouteWish, route, routeWishes, type SpecialsPlace } from '../../core/routing/route.ts';
import { connectionsOf } from '../../core/winding/joints/joints.ts';
import { tries } from '../support/tries.ts';
import { type MachineRequest, machine } from '../winding/windings.ts';
import { refereeProblems } from './checkRouting.ts';

const anyRequest = fc
  .record({
    q: fc.constantFrom(1, 2, 3, 1.5, 2.5, 0.5, 0.4, 1.25),
    pairs: fc.integer({ min: 1, max: 4 }),
    layers: fc.constantFrom(1, 2, 2, 4, 4, 6),
    shorter: fc.integer({ min: 0, max: 2 }),
    stagger: fc.constantFrom(0, 0, 0, 1),
    choice: fc.nat(),
    wishes: fc.uniqueArray(fc.constantFrom<RouteWish>(...routeWishes), { maxLength: 3 }),
    specials: fc.constantFrom<SpecialsPlace | undefined>(undefined, 'joined', 'crowns', 'either'),
  })
  .map(({ q, pairs, layers, shorter, stagger, choice, ...asked }) => {
    const slots = Math.round(6 * q * pairs);
    const span = Math.max(1, Math.floor(slots / (2 * pairs)) - shorter);
    const request: MachineRequest = {
      slots,
      poles: 2 * pairs,
      layers,
      span,
      stagger: layers > 2 ? stagger : 0,
    };
    try {
      const winding = machine(request);
      const possible = parallelPathsAnyCrowns(winding);
      return { request, winding, span, paths: possible[choice % possible.length] ?? 0, ...asked };
    } catch {
      return null;
    }
  })
  .filter((found) => found !== null)
  .filter(({ paths, request }) => paths > 0 && request.slots * request.layers <= (tries(1) > 1 ? 300 : 150));

it('whatever is wished for, a connection passes the referee and reads back with the same kinds', () => {
  fc.assert(
    fc.property(anyRequest, ({ request, winding, span, paths, wishes, specials }) => {
      const options = { paths, wishes, nodeBudget: 3000, ...(specials ? { specials } : {}) };
      const result = route(winding, options);
      if (!result.ok) {
        // Only regular crowns refuse what can be balanced; else the few steps did not suffice.
        expect(['paths-do-not-divide', 'no-constant-span', 'none-met']).toContain(result.reason.kind);
        return;
      }
      const tooth = span === 1 && (2 * request.slots) % request.poles !== 0;
      const { explanation } = result;
      expect(refereeProblems(winding, { span, tooth }, result.paths, explanation.specials)).toEqual([]);
      expect(connectionsOf(winding, result.paths).bends).toEqual(result.bends);
      expect(route(winding, options)).toEqual(result);
    }),
    { seed: 41, numRuns: tries(15) },
  );
});
