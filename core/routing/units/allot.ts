import { dividesUnits, unitShares } from '../../analysis/unitShares.ts';
import type { Steps } from '../../figures/steps.ts';
import type { Bends } from '../../winding/joints/bends.ts';
import type { Bar, Winding } from '../../winding/model.ts';
import { routedKind } from '../jointKind.ts';
import type { Content, Strand, Unit } from './units.ts';
import { shortestSpan } from './units.ts';

/** Units linked in the given order, each the shorter way round the bore. */
function strandOfUnits(units: readonly Unit[], slots: number): Strand {
  const bars = units.flatMap((unit) => [unit.go, unit.back]);
  const spans = units.flatMap((unit, index) => {
    const next = units[index + 1];
    return next ? [unit.span, shortestSpan(unit.back.slot, next.go.slot, slots)] : [unit.span];
  });
  return { bars, spans };
}

/** Steps of the search for shares where units cannot be dealt class by class. */
const dealSteps = 200_000;

/**
 * A balanced routing that always exists where the units can be shared out: units are allotted to paths, then each
 * path is linked by the nearest next unit. Where the paths divide every class, by integer flows between classes and
 * layer pairs, else by a search for equal shares. Null only where there are none. Yields after every few units.
 */
export function* allottedStrands(
  winding: Winding,
  bends: Bends,
  units: readonly Unit[],
  content: Content,
  paths: number,
): Steps<Strand[] | null> {
  const pairs = content.pairCounts.length;
  const cells: Unit[][][] = content.classCounts.map(() => Array.from({ length: pairs }, () => []));
  units.forEach((unit, index) => {
    cells[content.classes[index]!]![unit.pair]!.push(unit);
  });
  const { like, likeClasses, strict } = content;
  const even = dividesUnits(like, paths, strict);
  const dealt = even ? null : unitShares(like, paths, strict, { steps: dealSteps });
  if (!even && !dealt) return null;
  const strands: Strand[] = [];
  for (let path = 0; path < paths; path++) {
    const mine: Unit[] = [];
    if (dealt) {
      like.forEach(({ pair }, kind) => {
        mine.push(...cells[likeClasses[kind]!]![pair]!.splice(0, dealt[path]![kind]!));
      });
    } else {
      const shares = yield* transport(
        cells.map((row) => row.map((cell) => cell.length)),
        content.classCounts.map((count) => count / paths),
        content.pairCounts.map((count) => count / paths),
      );
      if (!shares) return null;
      shares.forEach((row, kind) => {
        row.forEach((share, pair) => {
          mine.push(...cells[kind]![pair]!.splice(0, share));
        });
      });
    }
    strands.push(yield* linkNearest(winding, bends, mine));
  }
  return strands;
}

/** An integer matrix within `limits` with the given row and column sums, or null. Yields after each row. */
function* transport(
  limits: readonly (readonly number[])[],
  rowSums: readonly number[],
  columnSums: readonly number[],
): Steps<number[][] | null> {
  if (![...rowSums, ...columnSums].every(Number.isInteger)) return null;
  const flow = limits.map((row) => row.map(() => 0));
  const rowLeft = [...rowSums];
  const columnLeft = [...columnSums];
  for (let row = 0; row < limits.length; row++) {
    while (rowLeft[row]! > 0) {
      if (!augment(limits, flow, columnLeft, row)) return null;
      rowLeft[row]!--;
    }
    yield;
  }
  return columnLeft.every((left) => left === 0) ? flow : null;
}

/** One more unit of flow out of a row, over alternating rows and columns. */
function augment(
  limits: readonly (readonly number[])[],
  flow: number[][],
  columnLeft: number[],
  start: number,
): boolean {
  const cameFrom = new Map<number, number>();
  const rowVia = new Map<number, number>();
  const queue = [start];
  for (const row of queue) {
    for (let column = 0; column < columnLeft.length; column++) {
      if (cameFrom.has(column) || flow[row]![column]! >= limits[row]![column]!) continue;
      cameFrom.set(column, row);
      if (columnLeft[column]! > 0) {
        columnLeft[column]!--;
        for (let end: number | undefined = column; end !== undefined; ) {
          const via: number = cameFrom.get(end)!;
          flow[via]![end]!++;
          const back: number | undefined = rowVia.get(via);
          if (back !== undefined) flow[via]![back]!--;
          end = back;
        }
        return true;
      }
      for (let other = 0; other < limits.length; other++) {
        if (other === start || rowVia.has(other) || flow[other]![column]! === 0) continue;
        rowVia.set(other, column);
        queue.push(other);
      }
    }
  }
  return false;
}

/** Units in an order in which each is the nearest to link to; the first of equally near ones. */
function* linkNearest(winding: Winding, bends: Bends, units: readonly Unit[]): Steps<Strand> {
  const left = [...units];
  const ordered = left.splice(0, 1);
  while (left.length > 0) {
    const { back } = ordered.at(-1)!;
    let nearest = 0;
    let least = Number.POSITIVE_INFINITY;
    left.forEach((unit, index) => {
      const cost = linkingCost(winding, bends, back, unit.go);
      if (cost >= least) return;
      least = cost;
      nearest = index;
    });
    ordered.push(...left.splice(nearest, 1));
    yield;
  }
  return strandOfUnits(ordered, winding.slots);
}

/** Jumpers cost most, regular joints least; then slots count. */
function linkingCost(winding: Winding, bends: Bends, from: Bar, to: Bar): number {
  const { slots } = winding;
  const span = shortestSpan(from.slot, to.slot, slots);
  const kind = routedKind(winding, bends, { side: 'connection', from, to, span });
  return (kind === 'jumper' ? 2 : kind === 'regular' ? 0 : 1) * slots + Math.abs(span);
}
