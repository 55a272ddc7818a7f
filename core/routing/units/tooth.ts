import type { Steps } from '../../figures/steps.ts';
import { greatestCommonDivisor, modulo } from '../../winding/integers.ts';
import type { Bends } from '../../winding/joints/bends.ts';
import type { Winding } from '../../winding/model.ts';
import { nodesOfMisfit } from '../tips.ts';
import { coverCost, exactCover } from './cover.ts';
import type { CoverTask, GraphPath, Link } from './links.ts';
import { linkCost, linkGraph, linksOfShapes } from './links.ts';
import type { Content, Strand, Unit } from './units.ts';
import { foldSlot } from './units.ts';

/** The units of one phase to be routed. */
export interface CoverRequest {
  readonly winding: Winding;
  readonly bends: Bends;
  readonly units: readonly Unit[];
  readonly content: Content;
  /** Parallel paths of the phase. */
  readonly paths: number;
  /** Whether strands can be built: their joint tips lie apart. */
  readonly fits: (strands: readonly Strand[]) => boolean;
  /** Search nodes allowed. */
  readonly nodeBudget: number;
}

export interface CoverResult {
  /** Null when nothing was found within the node budget. */
  readonly strands: readonly Strand[] | null;
  /** Steps that were taken. */
  readonly nodes: number;
  /** No routing has fewer jumpers (then special joints), by exhaustive search. */
  readonly exact: boolean;
}

const mostExactUnits = 16;
// Links grow with the square of the units, and the search goes one call deeper with each.
const mostLinkedUnits = 1000;

/**
 * Routes units that no wave base orders: tooth coils, one layer, fractional pole-pair periods. The
 * machine is folded by its rotational symmetry; up to 16 units are solved exactly for the fewest
 * jumpers, then the fewest shapes are sought among palettes of few shapes. Yields between searches.
 */
export function* coverUnits(request: CoverRequest): Steps<CoverResult> {
  const { winding, bends, units, content, paths, nodeBudget } = request;
  const repeats = foldable(winding, units, content, paths);
  if (units.length / repeats > mostLinkedUnits) return { strands: null, nodes: 0, exact: false };
  const graph = yield* linkGraph(winding, bends, units, content, repeats);
  const together = greatestCommonDivisor(paths, repeats);
  const task: CoverTask = {
    graph,
    paths: paths / together,
    chained: repeats / together,
    classQuota: content.classCounts.map((count) => count / repeats / (paths / together)),
    pairQuota: content.pairCounts.map((count) => count / repeats / (paths / together)),
  };
  const small = graph.units.length <= mostExactUnits;
  const exact = small ? yield* exactCover(task) : null;
  const limit = exact ? coverCost(exact) : Number.POSITIVE_INFINITY;
  const fits = (found: readonly GraphPath[]) => request.fits(liftPaths(winding, task, found));
  const palette = yield* paletteCover(task, limit, fits, nodeBudget);
  const chosen = palette.paths ?? exact;
  const strands = chosen && liftPaths(winding, task, chosen);
  return {
    strands,
    nodes: palette.nodes,
    exact: exact !== null && task.chained === 1 && isOnlyDeal(winding, content),
  };
}

/** Whether balanced paths hold these units in these numbers and no others; in one layer that changes no count. */
function isOnlyDeal({ layers }: Winding, { forced }: Content): boolean {
  // Coils of a layer without a partner can be paired otherwise, as a ring round the bore.
  return layers === 1 || (forced && layers % 2 === 0);
}

/** How often the machine repeats, if the routing may be folded by it, else 1. */
function foldable(winding: Winding, units: readonly Unit[], content: Content, paths: number): number {
  let repeats = greatestCommonDivisor(winding.slots, winding.polePairs);
  for (; repeats > 1; repeats--) {
    if (winding.slots % repeats !== 0 || winding.polePairs % repeats !== 0) continue;
    const perRepeat = paths / greatestCommonDivisor(paths, repeats);
    const divides = [...content.classCounts, ...content.pairCounts].every(
      (count) => count % (repeats * perRepeat) === 0,
    );
    if (divides && repeatsBy(units, winding.slots, winding.slots / repeats)) return repeats;
  }
  return 1;
}

function repeatsBy(units: readonly Unit[], slots: number, move: number): boolean {
  const goes = new Set(units.map((unit) => unit.go.layer * slots + unit.go.slot));
  return units.every(({ go }) => goes.has(go.layer * slots + foldSlot(go.slot + move, slots)));
}

/** Searches palettes of 0, 1, 2, 3 special shapes in turn for a cover within the jumper limit. */
function* paletteCover(
  task: CoverTask,
  costLimit: number,
  fits: (found: readonly GraphPath[]) => boolean,
  nodeBudget: number,
): Steps<{ paths: GraphPath[] | null; nodes: number }> {
  const shapes = task.graph.byShape.length;
  let nodes = 0;
  for (let size = 0; size <= Math.min(3, shapes); size++) {
    for (const palette of combinations(shapes, size)) {
      const found = coverWith(task, palette, costLimit, fits);
      nodes += found.nodes;
      if (found.paths) return { paths: found.paths, nodes };
      if (nodes >= nodeBudget) return { paths: null, nodes };
      yield;
    }
  }
  return { paths: null, nodes };
}

function* combinations(count: number, size: number, from = 0): Generator<number[]> {
  if (size === 0) {
    yield [];
    return;
  }
  for (let first = from; first <= count - size; first++) {
    for (const rest of combinations(count, size - 1, first + 1)) yield [first, ...rest];
  }
}

const paletteNodeCap = 3000;

function coverWith(
  task: CoverTask,
  palette: readonly number[],
  costLimit: number,
  fits: (found: readonly GraphPath[]) => boolean,
): { paths: GraphPath[] | null; nodes: number } {
  const { graph, classQuota, pairQuota } = task;
  const count = graph.units.length;
  const perPath = classQuota.reduce((sum, quota) => sum + quota, 0);
  const usable = linksOfShapes(graph, palette);
  const used = new Uint8Array(count);
  const classLeft = [...classQuota];
  const pairLeft = [...pairQuota];
  const done: GraphPath[] = [];
  const units: number[] = [];
  const links: Link[] = [];
  let nodes = 1;
  let cost = 0;

  const isOpen = (unit: number) =>
    used[unit] === 0 && classLeft[graph.classes[unit]!]! > 0 && pairLeft[graph.units[unit]!.pair]! > 0;

  const take = (unit: number, change: 1 | -1) => {
    used[unit] = change === 1 ? 1 : 0;
    classLeft[graph.classes[unit]!]! -= change;
    pairLeft[graph.units[unit]!.pair]! -= change;
  };

  function startPath(after: number): boolean {
    if (done.length === task.paths) {
      if (fits(done)) return true;
      nodes += nodesOfMisfit;
      return false;
    }
    for (let unit = after + 1; unit < count; unit++) {
      if (!isOpen(unit)) continue;
      take(unit, 1);
      units.push(unit);
      if (goOn()) return true;
      units.pop();
      take(unit, -1);
      if (nodes > paletteNodeCap) return false;
    }
    return false;
  }

  function goOn(): boolean {
    if (++nodes > paletteNodeCap) return false;
    if (units.length === perPath) return finishPath();
    for (const link of usable[units.at(-1)!]!) {
      if (!isOpen(link.to) || cost + linkCost(link) > costLimit) continue;
      take(link.to, 1);
      units.push(link.to);
      links.push(link);
      cost += linkCost(link);
      if (goOn()) return true;
      cost -= linkCost(link);
      links.pop();
      units.pop();
      take(link.to, -1);
    }
    return false;
  }

  function finishPath(): boolean {
    const closing = task.chained === 1 ? null : closingLink(task, usable, units, links);
    if (closing === undefined) return false;
    const savedUnits = units.splice(0);
    const savedLinks = links.splice(0);
    const savedClasses = classLeft.map((left, index) => {
      classLeft[index] = classQuota[index]!;
      return left;
    });
    const savedPairs = pairLeft.map((left, index) => {
      pairLeft[index] = pairQuota[index]!;
      return left;
    });
    done.push({ units: savedUnits, links: savedLinks, closing });
    if (startPath(savedUnits[0]!)) return true;
    done.pop();
    units.push(...savedUnits);
    links.push(...savedLinks);
    savedClasses.forEach((left, index) => {
      classLeft[index] = left;
    });
    savedPairs.forEach((left, index) => {
      pairLeft[index] = left;
    });
    return false;
  }

  return { paths: startPath(-1) ? done : null, nodes };
}

/** The link on to the path's own next repeat; undefined where none leads through all repeats. */
function closingLink(
  task: CoverTask,
  usable: readonly (readonly Link[])[],
  units: readonly number[],
  links: readonly Link[],
): Link | undefined {
  const { repeats } = task.graph;
  const turned = links.reduce((sum, link) => sum + link.turns, 0);
  return usable[units.at(-1)!]!.find(
    (link) =>
      link.to === units[0] &&
      greatestCommonDivisor(modulo(turned + link.turns, repeats), repeats) === repeats / task.chained,
  );
}

function liftPaths(winding: Winding, task: CoverTask, found: readonly GraphPath[]): Strand[] {
  const { slots } = winding;
  const { graph, chained } = task;
  const move = slots / graph.repeats;
  const lifts = graph.repeats / chained;
  return found.flatMap((path) =>
    Array.from({ length: lifts }, (_, lift): Strand => {
      const bars: { slot: number; layer: number }[] = [];
      const spans: number[] = [];
      let turns = lift;
      for (let round = 0; round < chained; round++) {
        path.units.forEach((index, position) => {
          const unit = graph.units[index]!;
          bars.push({ ...unit.go, slot: foldSlot(unit.go.slot + turns * move, slots) });
          spans.push(unit.span);
          bars.push({ ...unit.back, slot: foldSlot(unit.back.slot + turns * move, slots) });
          const link = path.links[position] ?? (round < chained - 1 ? path.closing : null);
          if (!link) return;
          spans.push(link.span);
          turns += link.turns;
        });
      }
      return { bars, spans };
    }),
  );
}
