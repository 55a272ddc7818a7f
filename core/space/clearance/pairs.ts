import { modulo } from '../../winding/integers.ts';
import { boxesMeet } from './box.ts';
import type { Standing } from './standing.ts';

/** Two bodies that may come near each other; all such pairs of the same makes and slots between them are alike. */
export interface Pair {
  readonly first: Standing;
  readonly second: Standing;
  /** How many pairs are like it; counted up while they are looked for. */
  count: number;
  /** Radians from the second to the first, and the shorter way between them. */
  readonly turn: number;
  readonly apart: number;
}

/**
 * One pair of each kind of those that come within `reach` m of each other by the boxes around them, those
 * that stand side by side first. Bodies of one joint, and a piece or ring with the bars it stands on, are
 * left out: they touch by intent. With `counts` only pairs of which one counts.
 */
export function nearPairs(
  slots: number,
  standing: readonly Standing[],
  reach: number,
  counts: (standing: Standing) => boolean = () => true,
): readonly Pair[] {
  // Null for pairs that do not come near each other.
  const known = new Map<number, Pair | null>();
  const makes = standing.reduce((most, { make }) => Math.max(most, make.index + 1), 0);
  const add = (a: Standing, b: Standing) => {
    const isFirst = a.make.index < b.make.index;
    const first = isFirst ? a : b;
    const second = isFirst ? b : a;
    const apart = modulo(first.slot - second.slot, slots);
    // Of two of one make either is the first.
    const swapped = first.make === second.make && 2 * apart > slots;
    const key = (first.make.index * makes + second.make.index) * slots + (swapped ? slots - apart : apart);
    const alike = known.get(key);
    if (alike === null || together(a, b)) return;
    if (alike) {
      alike.count++;
      return;
    }
    const one = swapped ? second : first;
    const other = swapped ? first : second;
    const turn = one.turn - other.turn;
    const meet = boxesMeet(one.make.body.box, 0, other.make.body.box, 0, turn, reach);
    const shorter = Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn)));
    known.set(key, meet ? { first: one, second: other, count: 1, turn, apart: shorter } : null);
  };
  for (const side of ['connection', 'far'] as const) {
    const own = standing.filter(({ make }) => make.side === side);
    const bars = own.filter(({ make }) => !make.link);
    const links = own.filter(({ make }) => make.link);
    eachNear(slots, bars, widestWindow(slots, bars, reach), counts, add);
    links.forEach((link, index) => {
      for (const other of counts(link) ? bars : bars.filter(counts)) add(link, other);
      for (const other of links.slice(index + 1)) if (counts(link) || counts(other)) add(link, other);
    });
  }
  const pairs = [...known.values()].filter((pair) => pair !== null);
  return pairs.sort((a, b) => a.apart - b.apart);
}

/** Visits every two bodies of bars within a window of slots once, if one of them counts. */
function eachNear(
  slots: number,
  bars: readonly Standing[],
  window: number,
  counts: (standing: Standing) => boolean,
  visit: (a: Standing, b: Standing) => void,
): void {
  const all = Array.from({ length: slots }, (): Standing[] => []);
  const counted = Array.from({ length: slots }, (): Standing[] => []);
  for (const bar of bars) {
    all[bar.slot]!.push(bar);
    if (counts(bar)) counted[bar.slot]!.push(bar);
  }
  const steps = Math.min(Math.floor(slots / 2), window);
  all.forEach((here, slot) => {
    here.forEach((bar, index) => {
      const others = counts(bar) ? all : counted;
      for (let other = index + 1; other < here.length; other++)
        if (others === all || counts(here[other]!)) visit(bar, here[other]!);
      for (let step = 1; step <= steps; step++) {
        // Half a turn away each would be met from both sides.
        if (2 * step === slots && slot >= slots / 2) continue;
        for (const other of others[(slot + step) % slots]!) visit(bar, other);
      }
    });
  });
}

/** Bodies of one joint, parts of one bar, and links with what they stand on, all of one side. */
function together(a: Standing, b: Standing): boolean {
  if (a.joint >= 0 && a.joint === b.joint) return true;
  return a.places.some((place) => b.places.includes(place));
}

/** Slots within which bars may come near each other. */
function widestWindow(slots: number, bars: readonly Standing[], reach: number): number {
  const makes = new Set(bars.map(({ make }) => make));
  let most = 0;
  for (const { body } of makes) {
    const [, , radius, radiusHalf, angle, angleHalf] = body.box;
    const farthest = Math.abs(angle!) + angleHalf!;
    most = Math.max(most, farthest + (1.05 * reach) / Math.max(radius! - radiusHalf!, reach));
  }
  return Math.ceil((2 * most * slots) / (2 * Math.PI));
}
