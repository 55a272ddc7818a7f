import { type EndBends, slopeHeight } from '../../copper/endGeometry.ts';
import { endShape } from '../../copper/lengths.ts';
import type { ConnectionFacts } from '../../facts/connection.ts';
import type { Facts } from '../../facts/facts.ts';
import { type Figure, orNull } from '../../figures/figure.ts';
import { layerRadii } from '../../sizes/slotRows.ts';
import type { BarShape } from '../../winding/joints/bars.ts';
import { isPiece } from '../../winding/joints/joints.ts';
import { type Bar, barName, type EndSide, type Winding } from '../../winding/model.ts';

/** Shortest and longest of alike things, m. */
export interface Lengths {
  readonly shortest: number;
  readonly longest: number;
}

/** What the sketches of a winding's bars are dimensioned with, SI units; null where the text does not give it. */
export interface ShapeSizes {
  /** Length of the stack, along the axis. */
  readonly stack: number | null;
  /** Length within the stack along the bar, one a layer: more than the stack where bars lean. */
  readonly active: readonly number[] | null;
  readonly endStraight: number | null;
  readonly jointStraight: number | null;
  readonly bareEnd: number | null;
  readonly bendRadius: number | null;
  /** Mean radius, one a layer. */
  readonly radii: readonly number[] | null;
  /** How bars bend, one a layer. */
  readonly bends: readonly EndBends[] | null;
  /** Statements that would give what is missing, by the letter that stands for it. */
  readonly needs: ReadonlyMap<SizeLetter, readonly string[]>;
}

/**
 * Letters that stand for sizes the text does not give: slot part (of leaning bars: along the bar),
 * stack length, straight part, bend height, joint part, bared end.
 */
export type SizeLetter = 'L' | 'S' | 'E' | 'H' | 'J' | 'B';

/** Bars of one shape whose end is joined to bars of one layer. */
export interface Target {
  /** Layer of the other bars. */
  readonly layer: number;
  /** How many pieces. */
  readonly count: number;
  /** Slots from this bar to the other, true span: leaning bars shift it. */
  readonly span: number;
}

/** One end of a bar as bent: where the other bar of its joint is. */
export interface BentEnd {
  /** True span to the layer that most pieces of the shape are joined to; null: a straight end. */
  readonly span: number | null;
  /** The same from bar to bar. */
  readonly slots: number | null;
  /** Every layer that pieces of the shape are joined to, most first; empty: a straight end. */
  readonly targets: readonly Target[];
}

/** A leg of a piece: a bar with both its ends. */
export interface Leg {
  readonly bar: Bar;
  readonly connection: BentEnd;
  readonly far: BentEnd;
}

/** A shape of the bar list with what its sketch shows. */
export interface ShapeRow {
  readonly shape: BarShape;
  /** The legs of one piece from left to right as developed: two of a hairpin, else one. */
  readonly legs: readonly Leg[];
  /** Developed lengths of its pieces, m. */
  readonly lengths: Lengths | null;
}

/** The sizes of the bars, as the copper's figures use them. */
export function shapeSizes({ specification, winding, copper }: Facts): ShapeSizes {
  const { bar, machine } = specification;
  const needs = new Map<SizeLetter, readonly string[]>();
  const given = (letter: SizeLetter, value: number | undefined, need: string): number | null => {
    if (value === undefined) needs.set(letter, [need]);
    return value ?? null;
  };
  const radii = layerRadii(specification, winding);
  const shape: Figure<{ bends: readonly EndBends[] }> = endShape(specification, winding, radii);
  const own = ['bar end-straight', 'bar joint-straight'];
  if (!shape.known)
    needs.set(
      'H',
      shape.needs.filter((need) => !own.includes(need)),
    );
  if (needs.get('H')?.length === 0) needs.delete('H');
  const { active } = copper().length;
  if (active === null) needs.set('L', machine?.stack ? (radii.known ? [] : radii.needs) : ['machine stack']);
  const leaning = winding.lean.some((lean) => lean !== 0);
  return {
    stack: leaning ? given('S', machine?.stack?.value, 'machine stack') : (machine?.stack?.value ?? null),
    active,
    endStraight: given('E', bar?.endStraight?.value, 'bar end-straight'),
    jointStraight: given('J', bar?.jointStraight?.value, 'bar joint-straight'),
    bareEnd: given('B', bar?.bareEnd?.value, 'bar bare-end'),
    bendRadius: bar?.bendRadius?.value ?? null,
    radii: orNull(radii),
    bends: shape.known ? shape.value.bends : null,
    needs,
  };
}

/** Height of a bend of a layer with a true span, m; null without the sizes. */
export function bendHeight({ bends }: ShapeSizes, layer: number, span: number | null): number | null {
  return bends === null || span === null ? null : slopeHeight(bends[layer]!, span);
}

/** Slot pitch at a layer's mean radius, m; null without the sizes. */
export function slotPitch({ radii }: ShapeSizes, { slots }: Winding, layer: number): number | null {
  return radii === null ? null : (2 * Math.PI * radii[layer]!) / slots;
}

/** Every shape of the bar list. */
export function shapeRows(facts: Facts, connection: ConnectionFacts): readonly ShapeRow[] {
  const { winding } = facts;
  const { byPlace } = facts.copper().length;
  const ends = barEnds(connection);
  const lengthOf = (bar: Bar) => byPlace?.[bar.layer * winding.slots + bar.slot - 1] ?? Number.NaN;
  return connection.barShapes().map((shape): ShapeRow => {
    const perPiece = shape.form === 'hairpin' ? 2 : 1;
    const lengths: number[] = [];
    const pieces: (readonly Bar[])[] = [];
    for (let index = 0; index + perPiece <= shape.bars.length; index += perPiece) {
      const bars = shape.bars.slice(index, index + perPiece);
      lengths.push(bars.reduce((sum, bar) => sum + lengthOf(bar), 0));
      // The crown leads from the first leg to the second towards higher slots, whichever way its path runs.
      pieces.push(perPiece === 2 && (ends(bars[0]!).far?.slots ?? 0) < 0 ? [bars[1]!, bars[0]!] : bars);
    }
    const legs = (pieces[0] ?? []).map((bar, leg): Leg => {
      const own = pieces.map((bars) => ends(bars[leg]!));
      return {
        bar,
        connection: bentEnd(own.map(({ connection: end }) => end)),
        far: bentEnd(own.map(({ far }) => far)),
      };
    });
    return { shape, legs, lengths: lengthsOf(lengths) };
  });
}

/** The range of some lengths; null where one is not known. */
export function lengthsOf(lengths: readonly number[]): Lengths | null {
  if (lengths.length === 0 || lengths.some(Number.isNaN)) return null;
  let [shortest, longest] = [lengths[0]!, lengths[0]!];
  for (const length of lengths) {
    shortest = Math.min(shortest, length);
    longest = Math.max(longest, length);
  }
  return { shortest, longest };
}

/** One end of one bar: spans to the other bar of its joint. */
interface OneEnd {
  readonly span: number;
  readonly slots: number;
  readonly otherLayer: number;
}

type BothEnds = Readonly<Record<EndSide, OneEnd | undefined>>;

/** How the ends of a bar are bent; ends under a separate piece, at leads and star points are straight. */
function barEnds(connection: ConnectionFacts): (bar: Bar) => BothEnds {
  const found = new Map<string, OneEnd>();
  const key = (bar: Bar, side: EndSide) => `${barName(bar)} ${side}`;
  for (const joint of connection.joints().joints) {
    if (isPiece(joint)) continue;
    const { from, to, side, span, trueSpan } = joint;
    found.set(key(from, side), { span: trueSpan, slots: span, otherLayer: to.layer });
    found.set(key(to, side), { span: -trueSpan, slots: -span, otherLayer: from.layer });
  }
  return (bar) => ({ connection: found.get(key(bar, 'connection')), far: found.get(key(bar, 'far')) });
}

/** The same end of all pieces of a shape, which are bent by the same number of slots. */
function bentEnd(ends: readonly (OneEnd | undefined)[]): BentEnd {
  const byLayer = new Map<number, { layer: number; count: number; span: number }>();
  for (const end of ends) {
    if (end === undefined) continue;
    const known = byLayer.get(end.otherLayer);
    if (known) known.count++;
    else byLayer.set(end.otherLayer, { layer: end.otherLayer, count: 1, span: end.span });
  }
  const targets = [...byLayer.values()].sort((a, b) => b.count - a.count || a.layer - b.layer);
  return { span: targets[0]?.span ?? null, slots: ends[0]?.slots ?? null, targets };
}
