import type { Winding } from '../../core/winding/model.ts';
import { classOf, isPieceOf, type RefereeLayout } from './checkRouting.ts';

/**
 * Exact answers for the first phase of small machines, both sides free, by trying every order of bars: written apart
 * from the router, straight from the slot table.
 */
export interface ExactMachine {
  readonly winding: Winding;
  readonly layout: RefereeLayout;
  readonly paths: number;
  readonly specials: 'joined' | 'crowns' | 'either';
  /** With crowns of any span within a layer without a partner, which the router does not take and written paths may have. */
  readonly written?: boolean;
}

/** One way to make a joint between two bars. */
interface Way {
  readonly special: 0 | 1;
  readonly piece: 0 | 1;
  /** Its shape; null for a regular joint. */
  readonly shape: string | null;
}

interface Bar {
  readonly slot: number;
  readonly layer: number;
  /** Passed away from the connection side. */
  readonly away: boolean;
  /** What every path must hold equally many of. */
  readonly contents: readonly number[];
}

/** Least counts of balanced paths, each on its own; Infinity where there are none. */
export interface ExactAnswer {
  readonly pieces: number;
  readonly specialJoints: number;
}

/** The fewest pieces, and the fewest special joints. */
export function exactAnswer(machine: ExactMachine): ExactAnswer {
  const search = searchOf(machine);
  const pieces = search(({ piece }) => piece);
  return {
    pieces,
    specialJoints: pieces === Number.POSITIVE_INFINITY ? pieces : search(({ special }) => special),
  };
}

/** Whether balanced paths of at most so many pieces and so many shapes of special joints exist. */
export function existsWith(machine: ExactMachine, pieces: number, shapes: number): boolean {
  if (shapes < 0) return false;
  const search = searchOf(machine);
  const all = [...search.shapes].sort();
  const allowed: string[] = [];
  const among = (first: number): boolean => {
    if (
      search((way) =>
        way.shape === null || allowed.includes(way.shape) ? way.piece : Number.POSITIVE_INFINITY,
      ) <= pieces
    )
      return true;
    if (allowed.length === shapes) return false;
    for (let index = first; index < all.length; index++) {
      allowed.push(all[index]!);
      if (among(index + 1)) return true;
      allowed.pop();
    }
    return false;
  };
  return among(0);
}

/** Finds the least sum of what the ways cost, over all orders of the bars that give balanced paths. */
function searchOf(machine: ExactMachine) {
  const { winding, paths } = machine;
  const bars = barsOfFirstPhase(winding);
  const count = bars.length;
  const length = count / paths;
  const totals: number[] = [];
  for (const { contents } of bars) for (const each of contents) totals[each] = (totals[each] ?? 0) + 1;
  const possible = Number.isInteger(length / 2) && totals.every((total) => total % paths === 0);
  const quota = totals.map((total) => total / paths);
  const ways = bars.map((from) =>
    bars.map((to) => [waysOf(machine, 'F', from, to), waysOf(machine, 'C', from, to)]),
  );
  const shapes = new Set(ways.flat(2).flatMap((each) => each.flatMap(({ shape }) => shape ?? [])));

  const least = (costOf: (way: Way) => number): number => {
    if (!possible) return Number.POSITIVE_INFINITY;
    const costs = ways.map((row) =>
      row.map((sides) => sides.map((each) => Math.min(Number.POSITIVE_INFINITY, ...each.map(costOf)))),
    );
    // What is left of a path's shares follows from the bars used, because whole paths hold whole shares.
    const known = new Map<number, number>();
    const rest = (used: number, at: number, last: number, left: number[]): number => {
      if (at === length) return used === 2 ** count - 1 ? 0 : rest(used, 0, -1, [...quota]);
      const key = (used * (length + 1) + at) * (count + 1) + last + 1;
      const found = known.get(key);
      if (found !== undefined) return found;
      let best = Number.POSITIVE_INFINITY;
      for (let bar = 0; bar < count && best > 0; bar++) {
        const { away, contents } = bars[bar]!;
        if ((used >> bar) & 1 || away !== (at % 2 === 0) || contents.some((each) => left[each]! < 1))
          continue;
        const step = at === 0 ? 0 : costs[last]![bar]![at % 2 === 1 ? 0 : 1]!;
        if (step >= best) continue;
        for (const each of contents) left[each]!--;
        best = Math.min(best, step + rest(used | (1 << bar), at + 1, bar, left));
        for (const each of contents) left[each]!++;
      }
      known.set(key, best);
      return best;
    };
    return rest(0, 0, -1, [...quota]);
  };
  return Object.assign(least, { shapes });
}

/** Bars of the first phase; where a slot holds two phases, paths must agree place by place, else in angles and in layers. */
function barsOfFirstPhase({ slots, layers, polePairs, table }: Winding): readonly Bar[] {
  const cell = (slot: number, layer: number) => table.cells[layer * slots + slot - 1]!;
  const mixed = Array.from({ length: slots }, (_, index) => index + 1).some((slot) => {
    const phases = Array.from({ length: layers }, (_, layer) => Math.abs(cell(slot, layer))).filter(Boolean);
    return new Set(phases).size > 1;
  });
  const numbers = new Map<string, number>();
  const numberOf = (name: string) => {
    const number = numbers.get(name) ?? numbers.size;
    numbers.set(name, number);
    return number;
  };
  const bars: Bar[] = [];
  for (let layer = 0; layer < layers; layer++)
    for (let slot = 1; slot <= slots; slot++) {
      const sense = cell(slot, layer);
      if (Math.abs(sense) !== 1) continue;
      const angle = (2 * polePairs * slot + (sense < 0 ? slots : 0)) % (2 * slots);
      const names = mixed ? [`${angle} in ${layer}`] : [`angle ${angle}`, `layer ${layer}`];
      bars.push({ slot, layer, away: sense > 0, contents: names.map(numberOf) });
    }
  return bars;
}

/** All ways in which a joint may be made where special spans lie at `specials`. */
function waysOf(
  { winding, layout, specials, written }: ExactMachine,
  side: 'F' | 'C',
  from: Bar,
  to: Bar,
): Way[] {
  const { slots, polePairs } = winding;
  const ahead = (to.slot - from.slot + slots) % slots;
  return [ahead, ahead - slots]
    .filter((span) => Math.abs(span) < slots && (span !== 0 || from.layer !== to.layer))
    .flatMap((span): Way[] => {
      const letter = classOf(winding, layout, {
        side,
        fromSlot: from.slot,
        fromLayer: from.layer,
        toSlot: to.slot,
        toLayer: to.layer,
        span,
        path: 0,
      });
      if (letter === 'A') return [{ special: 0, piece: 0, shape: null }];
      const piece = isPieceOf(winding, letter, span);
      // Crowns are bent; a leg bent by another amount than its ring is what special crowns are there to avoid.
      const nominal = layout.tooth ? layout.span : slots / polePairs - layout.span;
      const apart = Math.abs(span) !== nominal;
      const alone = from.layer === to.layer && winding.layers % 2 === 1 && from.layer === winding.layers - 1;
      const refused = piece && !(written && alone);
      if (side === 'F' ? refused || specials === 'joined' : !piece && specials === 'crowns' && apart)
        return [];
      const rising = from.layer < to.layer || (from.layer === to.layer && span > 0);
      const layers = [from.layer, to.layer].sort((a, b) => a - b).join('-');
      return [{ special: 1, piece: piece ? 1 : 0, shape: `${side} ${layers} ${rising ? span : -span}` }];
    });
}
