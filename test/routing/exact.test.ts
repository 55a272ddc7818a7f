// Takes its time: goes through many cases.

import { describe, expect, it } from 'vitest';
import { parallelPathsAnyCrowns } from '../../core/analysis/anyCrownPaths.ts';
import { route } from '../../core/routing/route.ts';
import { tries } from '../support/tries.ts';
import { type MachineRequest, machine } from '../winding/windings.ts';
import { type ExactMachine, exactAnswer, existsWith } from './exactSearch.ts';

/** Machines that every run tries; with more tries all whose first phase has at most 16 bars, to 24 slots. */
const few: readonly Tried[] = [
  { request: { slots: 12, poles: 2, layers: 2, span: 6 }, paths: [1, 2, 4] },
  { request: { slots: 12, poles: 4, layers: 2, span: 3 }, paths: [1, 2, 3, 4] },
  { request: { slots: 12, poles: 2, layers: 2, span: 5 }, paths: [2] },
  { request: { slots: 9, poles: 2, layers: 2, span: 4 }, paths: [1, 3] },
  { request: { slots: 18, poles: 6, layers: 2, span: 3 }, paths: [2, 3] },
  { request: { slots: 6, poles: 2, layers: 4, span: 3 }, paths: [2, 4] },
  { request: { slots: 12, poles: 2, layers: 1, span: 6 }, paths: [1, 2] },
  { request: { slots: 24, poles: 4, layers: 1, span: 6 }, paths: [2, 4] },
];

interface Tried {
  readonly request: MachineRequest;
  readonly paths: readonly number[];
}

const places = ['joined', 'crowns', 'either'] as const;

/** What is wrong with what the router says of a machine, by trying every order of its bars; empty for nothing. */
function disagreements({ request, paths }: Tried): readonly string[] {
  const winding = machine(request);
  const span = request.span!;
  const tooth = span === 1 && (2 * request.slots) % request.poles !== 0;
  return paths.flatMap((count) =>
    places.flatMap((specials) => {
      const exact: ExactMachine = { winding, layout: { span, tooth }, paths: count, specials };
      const least = exactAnswer(exact);
      const result = route(winding, { paths: count, specials, nodeBudget: 20_000 });
      const isSaid = parallelPathsAnyCrowns(winding).includes(count);
      const wrong = (words: string) => [`${JSON.stringify(request)} ${count} paths ${specials}: ${words}`];
      // In a layer without a partner only written paths have other crowns than those of its coils.
      const any = winding.layers % 2 === 1 ? exactAnswer({ ...exact, written: true }) : least;
      if (specials === 'either' && isSaid !== any.pieces < Number.POSITIVE_INFINITY)
        return wrong(`said to be ${isSaid ? '' : 'im'}possible with special crowns`);
      if (!result.ok)
        return result.reason.kind !== 'none-met' && least.pieces < Number.POSITIVE_INFINITY
          ? wrong(`called impossible (${result.reason.kind}), and is possible with ${least.pieces} pieces`)
          : [];
      const { measure, proved } = result.explanation;
      const { jumpers, specialJoints, jointShapes } = measure;
      const found = `found ${jumpers} pieces, ${specialJoints} special joints, ${jointShapes} shapes`;
      const below = jumpers < least.pieces || specialJoints < least.specialJoints;
      return [
        ...(below ? wrong(`${found}, and at least ${JSON.stringify(least)} are needed`) : []),
        ...(proved.includes('jumpers') && jumpers > least.pieces
          ? wrong(`proved ${jumpers} pieces, and ${least.pieces} do`)
          : []),
        ...(proved.includes('special-joints') && specialJoints > least.specialJoints
          ? wrong(`proved ${specialJoints} special joints, and ${least.specialJoints} do`)
          : []),
        ...(proved.includes('joint-shapes') && existsWith(exact, jumpers, jointShapes - 1)
          ? wrong(`proved ${jointShapes} shapes, and fewer do`)
          : []),
      ];
    }),
  );
}

/** All machines of at most 16 bars a phase and 24 slots, with all numbers of paths that divide them. */
function allSmall(): readonly Tried[] {
  const all: Tried[] = [];
  for (let slots = 3; slots <= 24; slots += 3)
    for (const layers of [1, 2, 4])
      for (let poles = 2; poles <= Math.min(slots, 24); poles += 2)
        for (const shorter of [0, 1]) {
          const bars = (slots * layers) / 3;
          const span = Math.max(1, Math.floor(slots / poles) - shorter);
          if (bars > 16 || (shorter > 0 && span === Math.floor(slots / poles))) continue;
          const request = { slots, poles, layers, span };
          try {
            machine(request);
          } catch {
            continue;
          }
          const paths = Array.from({ length: bars / 2 }, (_, index) => index + 1).filter(
            (each) => bars % each === 0,
          );
          all.push({ request, paths });
        }
  return all;
}

describe('every order of bars, both sides free: what is called impossible is, and what is proved is not beaten', () => {
  for (const tried of tries(1) > 1 ? allSmall() : few)
    it(`${JSON.stringify(tried.request)}`, () => {
      expect(disagreements(tried)).toEqual([]);
    }, 600_000);
});

it('the search tells what can be had from what cannot: two hairpin layers, two poles, two paths', () => {
  // Two loops run forwards and two backwards; two forward ones make a path with one special joint.
  const winding = machine({ slots: 12, poles: 2, layers: 2, span: 6 });
  const exact: ExactMachine = { winding, layout: { span: 6, tooth: false }, paths: 2, specials: 'joined' };
  expect(exactAnswer(exact)).toEqual({ pieces: 0, specialJoints: 2 });
  expect(existsWith(exact, 0, 1)).toBe(true);
  expect(existsWith(exact, 0, 0)).toBe(false);
  expect(exactAnswer({ ...exact, paths: 4 }).pieces).toBe(Number.POSITIVE_INFINITY);
});
