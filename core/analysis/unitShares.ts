import { greatestCommonDivisor } from '../winding/integers.ts';
import { type Heap, shareHeaps } from './shareOut.ts';

/** Units (two bars that a regular crown joins) of one phase that hold the same and stand in one layer pair. */
export interface LikeUnits {
  /**
   * What their two bars hold, as numbers: their voltage, or where paths must agree place by place (strict) their
   * voltage in their layer. Both are one number where a crown of full pitch joins equal voltages.
   */
  readonly ends: readonly [number, number];
  /** Layer pair, from 0. */
  readonly pair: number;
  /** Units that are alike. */
  readonly count: number;
}

/** Steps of a search for shares: some milliseconds. */
const mostSteps = 40_000;

/**
 * Numbers of parallel paths that can be balanced with regular crowns, rising: those for which the units of every
 * phase can be shared out so that all paths hold equal bars. Units are the edges of a graph whose vertices are what
 * bars hold, so that a path is balanced when its units meet every vertex equally often, and every layer pair.
 *
 * - Where no even ring of edges exists (`isForced`), what a path holds of every edge follows from its bars: around
 *   a tree from its leaves inwards, around an odd ring from the alternating sum of its bars. Then the number has to
 *   divide the units of every edge and of every pair, and that is enough: the graph of edges and pairs is bipartite,
 *   and colors of such a graph can be dealt so that each comes equally often to every vertex whose edges it divides
 *   (de Werra, 1971). All generated layouts are so: crowns of full pitch are loops, and where slots hold two phases
 *   every place has one crown.
 * - Where a ring of edges is even, one path may hold more of every second edge and another fewer, so that only the
 *   bars of every vertex have to be divided. With one pair that is enough, by the same theorem: a graph whose rings
 *   are all even is bipartite itself.
 * - With several pairs pairs and vertices can stand against each other. There a number counts where shares are found
 *   within bounded steps.
 */
export function possibleShares(phases: readonly (readonly LikeUnits[])[], strict: boolean): number[] {
  const most = phases
    .flatMap((units) => [...barsHeld(units).values(), ...(strict ? [] : unitsInPairs(units).values())])
    .reduce(greatestCommonDivisor, 0);
  const distinct = [...new Map(phases.map((units) => [JSON.stringify(units), units])).values()];
  return Array.from({ length: most }, (_, index) => index + 1).filter(
    (paths) => most % paths === 0 && distinct.every((units) => canShareUnits(units, paths, strict)),
  );
}

/** Whether the units of a phase can be shared out to so many equal paths. */
function canShareUnits(units: readonly LikeUnits[], paths: number, strict: boolean): boolean {
  if (dividesUnits(units, paths, strict)) return true;
  const held = [...barsHeld(units).values(), ...(strict ? [] : unitsInPairs(units).values())];
  if (held.some((count) => count % paths !== 0)) return false;
  const parts = partsOf(units);
  if (parts.some((part) => isForcedPart(part) && !dividesKinds(part, paths))) return false;
  const onePair = strict || unitsInPairs(units).size === 1;
  if (onePair && parts.every((part) => isForcedPart(part) || isBipartite(part))) return true;
  return unitShares(units, paths, strict) !== null;
}

/** Whether a number divides the units of every kind and, unless places tell pairs apart (strict), of every pair. */
export function dividesUnits(units: readonly LikeUnits[], paths: number, strict: boolean): boolean {
  return (
    dividesKinds(units, paths) &&
    (strict || [...unitsInPairs(units).values()].every((count) => count % paths === 0))
  );
}

/** Whether a number divides the units of every kind. */
function dividesKinds(units: readonly LikeUnits[], paths: number): boolean {
  const kinds = new Map<string, number>();
  for (const { ends, count } of units) add(kinds, edgeOf(ends), count);
  return [...kinds.values()].every((count) => count % paths === 0);
}

/** Units of each kind for each path, in the order of `units`; null where the search finds no equal shares. */
export function unitShares(
  units: readonly LikeUnits[],
  paths: number,
  strict: boolean,
  effort: { steps: number } = { steps: mostSteps },
): readonly (readonly number[])[] | null {
  const vertices = 2 * (1 + Math.max(...units.flatMap(({ ends }) => ends)));
  const heaps = units.map(({ ends: [go, back], pair, count }): Heap => {
    const bars =
      go === back ? [{ group: 2 * go, each: 2 }] : [go, back].map((end) => ({ group: 2 * end, each: 1 }));
    // Strict units stand where their bars say.
    return { holds: strict ? bars : [...bars, { group: vertices + pair, each: 1 }], left: count };
  });
  return shareHeaps(heaps, paths, effort);
}

/** Whether what a balanced path holds of each kind of units follows from its bars. */
export function isForced(units: readonly LikeUnits[]): boolean {
  return partsOf(units).every(isForcedPart);
}

/** Bars of each voltage (strict: voltage in a layer). */
export function barsHeld(units: readonly LikeUnits[]): ReadonlyMap<number, number> {
  const held = new Map<number, number>();
  for (const { ends, count } of units) for (const end of ends) add(held, end, count);
  return held;
}

/** Units of each layer pair. */
function unitsInPairs(units: readonly LikeUnits[]): ReadonlyMap<number, number> {
  const pairs = new Map<number, number>();
  for (const { pair, count } of units) add(pairs, pair, count);
  return pairs;
}

function add<Key>(counts: Map<Key, number>, key: Key, count: number): void {
  counts.set(key, (counts.get(key) ?? 0) + count);
}

function edgeOf([go, back]: LikeUnits['ends']): string {
  return go < back ? `${go} ${back}` : `${back} ${go}`;
}

/** Units by the connected parts of their graph. */
function partsOf(units: readonly LikeUnits[]): readonly (readonly LikeUnits[])[] {
  const leader = new Map<number, number>();
  const find = (end: number): number => {
    let top = end;
    for (let next = leader.get(top); next !== undefined && next !== top; next = leader.get(top)) top = next;
    return top;
  };
  for (const { ends } of units) leader.set(find(ends[0]), find(ends[1]));
  const parts = new Map<number, LikeUnits[]>();
  for (const each of units) {
    const part = find(each.ends[0]);
    const known = parts.get(part);
    if (known) known.push(each);
    else parts.set(part, [each]);
  }
  return [...parts.values()];
}

/** A connected part without rings, or with one ring, which is odd (a loop is). */
function isForcedPart(part: readonly LikeUnits[]): boolean {
  const edges = new Set(part.map(({ ends }) => edgeOf(ends))).size;
  const vertices = barsHeld(part).size;
  return edges < vertices || (edges === vertices && !isBipartite(part));
}

/** Whether all rings of a connected part are even: its vertices can be told in two colors. */
function isBipartite(part: readonly LikeUnits[]): boolean {
  const color = new Map<number, boolean>([[part[0]!.ends[0], true]]);
  for (let known = 0; known < color.size; ) {
    known = color.size;
    for (const { ends } of part)
      for (const [own, other] of [ends, [ends[1], ends[0]] as const]) {
        const mine = color.get(own);
        if (mine === undefined) continue;
        if (color.get(other) === mine) return false;
        color.set(other, !mine);
      }
  }
  return true;
}
