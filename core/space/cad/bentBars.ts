import { deriveFigure, type Figure, known, missing } from '../../figures/figure.ts';
import type { BarShape } from '../../winding/joints/bars.ts';
import type { Bar } from '../../winding/model.ts';
import { bentAsWritten } from '../ends/bends.ts';
import type { BarEnd, Space, SpaceBar } from '../space.ts';

/** Bars of one shape whose ends are bent alike, within 0.05 mm: one product of the shop. */
export interface BentBar {
  /** Number of its shape in the bar list. */
  readonly shape: number;
  /** The shape's number, with a letter where its bars are not all bent alike: `3`, `3-A`, `3-B`; `3a` is a place. */
  readonly name: string;
  readonly form: BarShape['form'];
  /** Its first piece: one bar, or the two legs of a hairpin, from which the crown leads towards higher slots. */
  readonly legs: readonly SpaceBar[];
  /** The bars of every piece, legs in the same order. */
  readonly places: readonly (readonly Bar[])[];
}

/** Every kind of bar that the shop makes, as the text bends them. */
export function bentBars(space: Figure<Space>, shapes: readonly BarShape[]): Figure<readonly BentBar[]> {
  return deriveFigure({ space: bentAsWritten(space) }, (given) => {
    const bars = barKinds(given.space, shapes);
    const uneven = bars.some(({ legs }) => !alikeSections(given.space, legs));
    return uneven ? missing('bar width and height that both legs of a hairpin share') : known(bars);
  });
}

/** Every kind of bar as it stands in space, its bend radius written or assumed. */
export function barKinds(space: Space, shapes: readonly BarShape[]): readonly BentBar[] {
  return shapes.flatMap((shape) => barsOfShape(space, shape));
}

function alikeSections({ layers }: Space, [first, second]: readonly SpaceBar[]): boolean {
  if (!second) return true;
  const [one, other] = [layers[first!.bar.layer]!.section, layers[second.bar.layer]!.section];
  return one.width === other.width && one.height === other.height;
}

function barsOfShape(space: Space, shape: BarShape): readonly BentBar[] {
  const perPiece = shape.form === 'hairpin' ? 2 : 1;
  const alike = new Map<
    string,
    { readonly legs: readonly SpaceBar[]; readonly places: (readonly Bar[])[] }
  >();
  for (let index = 0; index + perPiece <= shape.bars.length; index += perPiece) {
    const found = shape.bars.slice(index, index + perPiece).map((bar) => standing(space, bar));
    const legs = perPiece === 2 && (found[0]!.far.turn ?? 0) < 0 ? [...found].reverse() : found;
    const key = legs.flatMap(({ connection, far }) => [keyOf(connection), keyOf(far)]).join(' ');
    const known = alike.get(key) ?? { legs, places: [] };
    known.places.push(legs.map(({ bar }) => bar));
    alike.set(key, known);
  }
  const kinds = [...alike.values()].sort((a, b) => b.places.length - a.places.length);
  return kinds.map(({ legs, places }, index) => ({
    shape: shape.number,
    name: kinds.length > 1 ? `${shape.number}-${kindLetters(index)}` : String(shape.number),
    form: shape.form,
    legs,
    places,
  }));
}

function kindLetters(index: number): string {
  return String.fromCharCode(65 + (index % 26)).repeat(1 + Math.floor(index / 26));
}

// Ends are one product where they differ by less than a shop could make out: 0.05 mm, and that at 100 mm.
const alikeLength = 5e-5;
const alikeAngle = 5e-4;

function keyOf({ use, turn, length, tip, reach }: BarEnd): string {
  const lengths = [length, tip.height, reach?.along ?? 0].map((size) => size / alikeLength);
  const sizes = [...lengths, (turn ?? 10) / alikeAngle, (reach?.round ?? 0) / alikeAngle];
  // What a free end is joined to later makes no other bar of it.
  return [use === 'star' ? 'lead' : use, ...sizes.map(Math.round)].join(',');
}

function standing({ bars, slots }: Space, { slot, layer }: Bar): SpaceBar {
  const bar = bars[layer * slots + slot - 1];
  if (!bar) throw new RangeError(`no bar stands in slot ${slot}, layer ${layer}`);
  return bar;
}
