import type { RouteOptions } from '../../core/routing/route.ts';
import { type TipSizes, withoutSizes } from '../../core/winding/joints/tips.ts';
import type { MachineRequest } from '../winding/windings.ts';

/**
 * Legs that pass above all joints, as the study of the cases below had it: it knew the places of joint tips,
 * not that legs run through the joints beside them.
 */
export function tipsAlone(layers: number): Readonly<Record<'connection' | 'far', TipSizes>> {
  const heights = Array.from({ length: layers }, () => ({ rise: 1, straight: 0 }));
  return { connection: { ...withoutSizes, heights }, far: { ...withoutSizes, heights } };
}

/** Special joints / jumpers / special connection-side shapes of one phase. */
export type Counts = readonly [special: number, jumpers: number, shapes: number];

export interface RoutingCase {
  readonly machine: MachineRequest;
  readonly paths: number;
  /** Counts of the constructed climbing layout, or null where it does not exist. */
  readonly helix: Counts | null;
  /** Counts found by searches for the fewest special joints (alternatives); empty: the helix itself. */
  readonly fewest: readonly Counts[];
}

function cases(
  machine: MachineRequest,
  helix: Record<number, Counts>,
  fewest: Record<number, readonly Counts[]> = {},
): RoutingCase[] {
  const counts = new Set([...Object.keys(helix), ...Object.keys(fewest)].map(Number));
  return [...counts].map((paths) => ({
    machine,
    paths,
    helix: helix[paths] ?? null,
    fewest: fewest[paths] ?? [],
  }));
}

/**
 * Results of a separate study of routings (own derivation, each solution re-checked by a referee
 * program other than the searcher). "Unstrict" plans of windings with two phases in a slot are left out:
 * they are not balanced, as slot leakage tells their paths apart.
 */
export const routingCases: readonly RoutingCase[] = [
  ...cases({ slots: 48, poles: 8, layers: 2 }, { 1: [3, 1, 2], 2: [2, 0, 1], 4: [4, 0, 1] }),
  ...cases(
    { slots: 48, poles: 8, layers: 4 },
    { 1: [7, 1, 4], 2: [6, 0, 3], 4: [12, 0, 3] },
    { 4: [[4, 0, 2]] },
  ),
  ...cases({ slots: 48, poles: 8, layers: 2, span: 5 }, { 1: [3, 1, 2], 2: [2, 0, 1], 4: [4, 0, 1] }),
  ...cases({ slots: 48, poles: 8, layers: 4, span: 5 }, { 1: [7, 1, 4], 2: [6, 0, 3], 4: [12, 0, 3] }),
  ...cases({ slots: 48, poles: 8, layers: 4, stagger: 1 }, { 1: [7, 1, 4], 2: [6, 0, 3], 4: [12, 0, 3] }),
  ...cases({ slots: 48, poles: 8, layers: 8, stagger: 1 }, { 1: [15, 1, 8], 2: [14, 0, 7], 4: [28, 0, 7] }),
  ...cases(
    { slots: 72, poles: 8, layers: 4 },
    { 1: [11, 1, 4], 2: [10, 0, 3], 4: [20, 0, 3] },
    { 4: [[12, 0, 4]] },
  ),
  ...cases(
    { slots: 72, poles: 8, layers: 6 },
    { 1: [17, 1, 6], 2: [16, 0, 5], 4: [32, 0, 5] },
    { 4: [[20, 0, 7]], 6: [[12, 0, 4]] },
  ),
  ...cases(
    { slots: 54, poles: 6, layers: 4 },
    { 1: [11, 1, 4], 3: [33, 3, 4] },
    {
      3: [
        [17, 1, 5],
        [15, 3, 5],
      ],
    },
  ),
  ...cases(
    { slots: 96, poles: 16, layers: 4 },
    { 2: [6, 0, 3], 4: [12, 0, 3], 8: [24, 0, 3] },
    { 4: [[4, 0, 2]], 8: [[8, 0, 2]] },
  ),
  ...cases({ slots: 36, poles: 4, layers: 2 }, { 1: [5, 1, 2], 2: [4, 0, 1], 4: [8, 0, 1] }),
  ...cases(
    { slots: 36, poles: 4, layers: 4 },
    { 1: [11, 1, 4], 2: [10, 0, 3], 4: [20, 0, 3] },
    { 4: [[12, 0, 4]] },
  ),
  ...cases(
    { slots: 36, poles: 4, layers: 6 },
    {},
    {
      3: [
        [15, 1, 6],
        [15, 3, 5],
      ],
    },
  ),
  ...cases({ slots: 60, poles: 8, layers: 2 }, { 1: [4, 1, 2], 2: [8, 2, 2], 4: [16, 4, 2] }),
  ...cases({ slots: 45, poles: 6, layers: 2 }, { 1: [4, 1, 2], 3: [12, 3, 2] }),
  ...cases({ slots: 12, poles: 10, layers: 2 }, {}, { 1: [[3, 3, 2]], 2: [[2, 2, 1]] }),
  ...cases(
    { slots: 72, poles: 6, phases: 6, layers: 4 },
    { 1: [7, 1, 4], 2: [6, 0, 3], 3: [21, 3, 4], 6: [18, 0, 3] },
    { 3: [[9, 3, 5]], 4: [[4, 0, 2]], 6: [[10, 0, 5]] },
  ),
  ...cases(
    { slots: 40, poles: 4, phases: 5, layers: 4 },
    { 1: [7, 1, 4], 2: [6, 0, 3], 4: [12, 0, 3] },
    { 4: [[4, 0, 2]] },
  ),
];

/** The same of the same study, with other layers and spans. */
export const moreRoutingCases: readonly RoutingCase[] = [
  ...cases(
    { slots: 48, poles: 8, layers: 6 },
    { 1: [11, 1, 6], 2: [10, 0, 5], 4: [20, 0, 5] },
    { 4: [[12, 0, 4]] },
  ),
  ...cases(
    { slots: 48, poles: 8, layers: 8 },
    { 1: [15, 1, 8], 2: [14, 0, 7], 4: [28, 0, 7] },
    { 4: [[12, 0, 4]] },
  ),
  ...cases({ slots: 48, poles: 8, layers: 2, span: 7 }, { 1: [3, 1, 2], 2: [2, 0, 1], 4: [4, 0, 1] }),
  ...cases({ slots: 48, poles: 8, layers: 4, span: 7 }, { 1: [7, 1, 4], 2: [6, 0, 3], 4: [12, 0, 3] }),
  ...cases(
    { slots: 72, poles: 8, layers: 8 },
    { 1: [23, 1, 8], 2: [22, 0, 7], 4: [44, 0, 7] },
    { 4: [[28, 0, 8]] },
  ),
  ...cases(
    { slots: 54, poles: 6, layers: 8 },
    { 1: [23, 1, 8], 3: [69, 3, 8] },
    {
      3: [
        [33, 3, 7],
        [27, 1, 9],
      ],
    },
  ),
  ...cases({ slots: 60, poles: 8, layers: 4 }, { 1: [9, 1, 4], 2: [18, 2, 4], 4: [36, 4, 4] }),
  ...cases({ slots: 45, poles: 6, layers: 4 }, { 1: [9, 1, 4], 3: [27, 3, 4] }),
  ...cases(
    { slots: 72, poles: 6, phases: 6, layers: 2 },
    { 1: [3, 1, 2], 2: [2, 0, 1], 3: [9, 3, 2], 6: [6, 0, 1] },
    { 3: [[5, 1, 3]] },
  ),
];

/** Tooth coils in four layers: only the number of special joints is known, from subset programming. */
export const toothCoilCases: readonly (readonly [paths: number, special: number])[] = [
  [1, 3],
  [2, 2],
  [4, 4],
];

/** A connection known from elsewhere, with where its special spans may lie and what was wished for. */
export interface Witness {
  readonly machine: MachineRequest & { readonly span: number };
  readonly paths: number;
  readonly options: Pick<RouteOptions, 'specials' | 'wishes'>;
  /** Of the first phase. */
  readonly pieces: number;
  readonly shapes: number;
  readonly joints: number;
  /** Its paths as they were written by hand, with the slots by which the other phases lie on; null where only counts are known. */
  readonly written: { readonly paths: readonly string[]; readonly shifts: readonly [number, number] } | null;
}

type Given = Pick<Witness, 'written'> & { readonly options?: Witness['options'] };

function witness(
  machine: Witness['machine'],
  paths: number,
  [pieces, shapes, joints]: readonly [pieces: number, shapes: number, joints: number],
  { written, options = {} }: Given = { written: null },
): Witness {
  return { machine, paths, options, pieces, shapes, joints, written };
}

const crowns = { specials: 'crowns' } as const;

/**
 * Connections found by hand or by exact search outside this project, which an independent check accepted. Written are
 * first phases; the others are the same some slots on.
 */
export const witnesses: readonly Witness[] = [
  witness({ slots: 18, poles: 6, layers: 4, span: 3 }, 3, [2, 3, 5], {
    written: {
      paths: [
        '13a +3b +3a +3b +3c +3d | -3d -3c',
        '13b -3a | -3a +3b +3c +3d +3c +3d',
        '1d -3c -3d -3c -3b -3a -3b -3a',
      ],
      shifts: [2, 4],
    },
  }),
  // An exact search outside this project has as few pieces, with 3 shapes and 5 special joints.
  witness({ slots: 63, poles: 12, layers: 2, span: 5 }, 1, [3, 4, 11], {
    written: {
      paths: [
        '1a +5b +6a +5b +5a +5b +6a +5b +5a +5b +6a +5b +6a +5b +6a +5b +5a +5b +6a +5b +5a +5b +6a +5b | -16b -5a | -17b -5a -5b -5a -6b -5a -5b -5a -6b -5a -5b -5a -5b -5a | -16b -5a',
      ],
      shifts: [14, 7],
    },
  }),
  witness({ slots: 24, poles: 22, layers: 2, span: 1 }, 2, [6, 2, 6], {
    written: {
      paths: ['1a +1b | -1b -1a | -1a +1b | -1b -1a', '14b -1a | -1a +1b | -1b -1a | -1a +1b'],
      shifts: [16, 8],
    },
  }),
  witness({ slots: 36, poles: 6, layers: 2, span: 6 }, 4, [0, 2, 4], {
    written: {
      paths: [
        '14a +6b +6a +5b +6a +6b',
        '13b -6a -6b -5a -6b -6a',
        '13a +6b +6a +7b +6a +6b',
        '14b -6a -6b -7a -6b -6a',
      ],
      shifts: [4, 8],
    },
  }),
  witness({ slots: 36, poles: 6, layers: 2, span: 6 }, 4, [0, 2, 4], { written: null, options: crowns }),
  witness({ slots: 48, poles: 8, layers: 2, span: 6 }, 2, [0, 2, 4], { written: null, options: crowns }),
  witness({ slots: 48, poles: 8, layers: 4, span: 6 }, 2, [0, 5, 10], {
    options: crowns,
    written: {
      paths: [
        '1a (+6b +6a)*3 +7b +6a (+6b +6a)*3 +5b +6c (+6d +6c)*3 +7d +6c (+6d +6c)*3 +5d',
        '1d (-6c -6d)*3 -5c -6d (-6c -6d)*3 -7c -6b (-6a -6b)*3 -5a -6b (-6a -6b)*3 -7a',
      ],
      shifts: [4, 8],
    },
  }),
  witness({ slots: 72, poles: 8, layers: 6, span: 9 }, 3, [3, 9, 27], {
    options: crowns,
    written: {
      paths: [
        '1a (+9b +9a)*3 +9b +9c +10d (+9c +9d)*3 +9e +10f (+9e +9f)*3 | +9f -9e (-9f -9e)*3 -9d -10c (-9d -9c)*3 -9b -10a (-9b -9a)*3',
        '2a (+9b +9a)*3 +9b +9c +10d (+9c +9d)*3 +9e +7f (+9e +9f)*3 | +9f -9e (-9f -9e)*3 -9d -7c (-9d -9c)*3 -9b -10a (-9b -9a)*3',
        '3a (+9b +9a)*3 +9b +9c +7d (+9c +9d)*3 +9e +10f (+9e +9f)*3 | +9f -9e (-9f -9e)*3 -9d -10c (-9d -9c)*3 -9b -7a (-9b -9a)*3',
      ],
      shifts: [6, 12],
    },
  }),
  witness({ slots: 36, poles: 4, layers: 2, span: 9 }, 2, [0, 2, 6], { written: null, options: crowns }),
  witness({ slots: 18, poles: 4, layers: 2, span: 4 }, 2, [2, 3, 6], { written: null, options: crowns }),
  witness({ slots: 24, poles: 2, layers: 2, span: 12 }, 4, [4, 4, 12], { written: null, options: crowns }),
  witness({ slots: 24, poles: 2, layers: 2, span: 12 }, 4, [0, 3, 12], {
    written: null,
    options: { specials: 'either' },
  }),
];

/** The most voltage in a slot of a connection by hand without pieces, of the phase voltage; its star ends find no place. */
export const leastVoltage = {
  machine: { slots: 48, poles: 8, layers: 4, span: 6 },
  paths: 2,
  share: 0.689,
  written: {
    paths: [
      '1a (+6b +6a)*3 +6b +7a (+6b +6a)*3 +6b +5c (+6d +6c)*3 +6d +7c (+6d +6c)*3 +6d',
      '1d (-6c -6d)*3 -6c -5d (-6c -6d)*3 -6c -7b (-6a -6b)*3 -6a -5b (-6a -6b)*3 -6a',
    ],
    shifts: [4, 8],
  },
} as const;
