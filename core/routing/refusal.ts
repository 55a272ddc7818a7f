import { parallelPathsAnyCrowns } from '../analysis/anyCrownPaths.ts';
import { possibleShares } from '../analysis/unitShares.ts';
import { type Bends, regularBends } from '../winding/joints/bends.ts';
import type { Winding } from '../winding/model.ts';
import { needsStrictBalance } from '../winding/strictBalance.ts';
import type { SpecialsPlace } from './bars/jointTable.ts';
import type { Content, DivisorCondition, Unit } from './units/units.ts';
import { contentOf, divisorConditions, unitsOfPhase } from './units/units.ts';

/** Why no routing was made. All but the last two are said of regular crowns. */
export type RouteRefusal =
  | { readonly kind: 'no-constant-span'; readonly layers: readonly [number, number] | readonly [number] }
  | { readonly kind: 'phase-without-bars'; readonly phase: number }
  | {
      readonly kind: 'paths-do-not-divide';
      readonly paths: number;
      readonly strict: boolean;
      /** Empty where every count divides, and the units can still not be dealt out as far as is known. */
      readonly failing: readonly DivisorCondition[];
      /** All numbers of parallel paths that can be balanced, rising. */
      readonly possible: readonly number[];
      /** The possible numbers next below and above the one asked for. */
      readonly nearest: readonly number[];
    }
  | {
      /** No number of bars divides so, with whatever crowns and pieces. */
      readonly kind: 'bars-do-not-divide';
      readonly paths: number;
      readonly possible: readonly number[];
    }
  | {
      /** Possible, as far as is known, but not met within the steps of the search. */
      readonly kind: 'none-met';
      readonly specials: SpecialsPlace;
    };

/** A phase as units of regular crowns. */
export interface PhaseTask {
  readonly units: readonly Unit[];
  readonly content: Content;
}

/** Why a winding has no units of regular crowns; null where it may have them. */
export function layoutRefusal(winding: Winding, bends: Bends): RouteRefusal | null {
  const paired = 2 * bends.far.length;
  const pair = bends.far.indexOf(0);
  if (pair >= 0) return { kind: 'no-constant-span', layers: [2 * pair, 2 * pair + 1] };
  return winding.layers > paired && !bends.unpairedSpan
    ? { kind: 'no-constant-span', layers: [paired] }
    : null;
}

/** The units of a phase, or why there are none. */
export function phaseTask(
  winding: Winding,
  bends: Bends,
  phase: number,
  strict: boolean,
): PhaseTask | RouteRefusal {
  const units = unitsOfPhase(winding, phase, bends);
  if (!units) return { kind: 'no-constant-span', layers: bends.base === 'single' ? [0] : [0, 1] };
  if (units.length === 0) return { kind: 'phase-without-bars', phase };
  return { units, content: contentOf(winding, units, strict) };
}

/** Why paths cannot be balanced by units; null where they can. */
export function dividesRefusal(
  tasks: readonly PhaseTask[],
  paths: number,
  strict: boolean,
): RouteRefusal | null {
  const possible = possibleOf(tasks, strict);
  if (possible.includes(paths)) return null;
  const failing = tasks
    .flatMap((task) => divisorConditions(task.content))
    .filter((condition) => condition.count % paths !== 0);
  const distinct = failing.filter(
    (condition, index) =>
      failing.findIndex((other) => other.what === condition.what && other.count === condition.count) ===
      index,
  );
  const below = possible.filter((count) => count < paths).at(-1);
  const above = possible.find((count) => count > paths);
  const nearest = [below, above].filter((count) => count !== undefined);
  return { kind: 'paths-do-not-divide', paths, strict, failing: distinct, possible, nearest };
}

/** Why bars cannot be balanced with whatever crowns; null where they can, as far as is known. */
export function anyCrownsRefusal(winding: Winding, paths: number): RouteRefusal | null {
  const possible = parallelPathsAnyCrowns(winding);
  return possible.includes(paths) ? null : { kind: 'bars-do-not-divide', paths, possible };
}

/** All numbers of paths for which the units of every phase can be shared out, rising. */
function possibleOf(tasks: readonly PhaseTask[], strict: boolean): number[] {
  return possibleShares(
    tasks.map(({ content }) => content.like),
    strict,
  );
}

/** Numbers of parallel paths for which balanced paths with regular crowns exist, rising; empty where none do. */
export function possibleParallelPaths(winding: Winding): number[] {
  const bends = regularBends(winding);
  if (layoutRefusal(winding, bends)) return [];
  const strict = needsStrictBalance(winding);
  const phases = winding.phases.names.map((_, phase) => phaseTask(winding, bends, phase, strict));
  const tasks = phases.filter((task) => 'units' in task);
  return tasks.length === phases.length ? possibleOf(tasks, strict) : [];
}
