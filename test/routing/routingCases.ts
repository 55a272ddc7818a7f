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
