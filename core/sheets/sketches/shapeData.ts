import type { ConnectionFacts } from '../../facts/connection.ts';
import type { Facts } from '../../facts/facts.ts';
import { shopNames } from '../../facts/shop.ts';
import { orNull } from '../../figures/figure.ts';
import { layerRadii } from '../../sizes/slotRows.ts';
import type { EndUse } from '../../space/ends/endForms.ts';
import type { BarEnd, BendRadii, Space } from '../../space/space.ts';
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
  /** From the stack's face to the first bend, along the bar. */
  readonly endStraight: number | null;
  /** From the last bend to the tip, along the axis. */
  readonly jointStraight: number | null;
  /** Bared of its coating, from the tip. */
  readonly bareEnd: number | null;
  /** Inner radii of bends; null while the bars do not stand in space. */
  readonly bends: BendRadii | null;
  /** Mean radius, one a layer. */
  readonly radii: readonly number[] | null;
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
}

/** How an end is bent, m; of sharp corners, which the bend radius rounds. */
export interface EndSizes {
  /** From the end of its straight part to its tip, round the axis at the layer's mean radius: positive towards higher slots. */
  readonly offset: number;
  /** The same along the axis, of a crown to its rounded apex; not signed. */
  readonly rise: number;
  /** Axial part at the tip. */
  readonly joint: number;
  /** What goes on along the axis beyond it. */
  readonly lead: number;
  /** How the lead steps aside before it turns to its ring: round the axis at the layer's mean radius, signed. */
  readonly aside: number;
  /** From there to the side of its ring along the radius, signed. */
  readonly toRing: number;
  /** Along the radius, at the end of the slope, of a crown to its other leg; not signed. */
  readonly step: number;
}

/** Pieces of a shape whose end is bent alike. */
export interface EndKind {
  /** What the bend list calls them, rising. */
  readonly names: readonly string[];
  readonly use: EndUse;
  readonly sizes: EndSizes;
}

/** One end of a bar as bent. */
export interface BentEnd {
  /** What most pieces' ends are for; null for free ends of bars that do not stand in space. */
  readonly use: EndUse | null;
  /** Which way it is bent: 1 towards higher slots; 0 straight out of the slot, as far as is known. */
  readonly sense: -1 | 0 | 1;
  /** Slots to the bar it is joined to; null: a free end. */
  readonly slots: number | null;
  /** Every layer that pieces of the shape are joined to, most first; empty: a free end. */
  readonly targets: readonly Target[];
  /** The ways in which the pieces' ends are bent, most first; empty while the bars do not stand in space. */
  readonly kinds: readonly EndKind[];
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
  /** Its pieces by how they are bent, in the order of their names; all of them while they do not stand in space. */
  readonly kinds: readonly PieceKind[];
}

/** Pieces of a shape that are bent alike. */
export interface PieceKind {
  /** What the bend list calls them. */
  readonly name: string;
  readonly count: number;
  /** Bars of the first one. */
  readonly first: readonly Bar[];
  /** Developed lengths, m; null where they are not known. */
  readonly lengths: Lengths | null;
}

/** The sizes of the bars, as the copper's figures use them. */
export function shapeSizes({ specification, winding, copper, space }: Facts): ShapeSizes {
  const { bar, machine } = specification;
  const needs = new Map<SizeLetter, readonly string[]>();
  const given = (letter: SizeLetter, value: number | undefined, need: string): number | null => {
    if (value === undefined) needs.set(letter, [need]);
    return value ?? null;
  };
  const radii = layerRadii(specification, winding);
  const figure = space().space;
  const own = ['bar end-straight', 'bar joint-straight', 'machine stack'];
  const lacking = !figure.known ? figure.needs.filter((need) => !own.includes(need)) : [];
  if (lacking.length > 0) needs.set('H', lacking);
  const { active } = copper().length;
  if (!active.known) needs.set('L', active.needs);
  const leaning = winding.lean.some((lean) => lean !== 0);
  return {
    stack: leaning ? given('S', machine?.stack?.value, 'machine stack') : (machine?.stack?.value ?? null),
    active: orNull(active),
    endStraight: given('E', bar?.endStraight?.value, 'bar end-straight'),
    jointStraight: given('J', bar?.jointStraight?.value, 'bar joint-straight'),
    bareEnd: given('B', bar?.bareEnd?.value, 'bar bare-end'),
    bends: figure.known ? figure.value.bends : null,
    radii: orNull(radii),
    needs,
  };
}

/** How most pieces' ends are bent; null while the bars do not stand in space. */
export function mainSizes({ kinds }: BentEnd): EndSizes | null {
  return kinds[0]?.sizes ?? null;
}

/** Slot pitch at a layer's mean radius, m; null without the sizes. */
export function slotPitch({ radii }: ShapeSizes, { slots }: Winding, layer: number): number | null {
  return radii === null ? null : (2 * Math.PI * radii[layer]!) / slots;
}

/** Every shape of the bar list. */
export function shapeRows(facts: Facts, connection: ConnectionFacts): readonly ShapeRow[] {
  const { winding } = facts;
  const byPlace = orNull(facts.copper().length.byPlace);
  const figure = facts.space().space;
  const space = figure.known ? figure.value : null;
  const names = shopNames(facts);
  const ends = barEnds(connection, space, names);
  const lengthOf = (bar: Bar) => byPlace?.[bar.layer * winding.slots + bar.slot - 1] ?? Number.NaN;
  return connection.barShapes().map((shape): ShapeRow => {
    const perPiece = shape.form === 'hairpin' ? 2 : 1;
    const pieces: (readonly Bar[])[] = [];
    const kinds = new Map<string, (readonly Bar[])[]>();
    for (let index = 0; index + perPiece <= shape.bars.length; index += perPiece) {
      const bars = shape.bars.slice(index, index + perPiece);
      const name = names.get(barName(bars[0]!))!;
      const alike = kinds.get(name);
      if (alike) alike.push(bars);
      else kinds.set(name, [bars]);
      // The crown leads from the first leg to the second towards higher slots, whichever way its path runs.
      pieces.push(perPiece === 2 && (ends(bars[0]!).far?.slots ?? 0) < 0 ? [bars[1]!, bars[0]!] : bars);
    }
    const legs = (pieces[0] ?? []).map((bar, leg): Leg => {
      const own = pieces.map((bars) => ends(bars[leg]!));
      return {
        bar,
        connection: bentEnd(
          own.map(({ connection: end }) => end),
          space,
        ),
        far: bentEnd(
          own.map(({ far }) => far),
          space,
        ),
      };
    });
    return {
      shape,
      legs,
      kinds: [...kinds].sort(byName).map(
        ([name, own]): PieceKind => ({
          name,
          count: own.length,
          first: own[0]!,
          lengths: lengthsOf(own.map((bars) => bars.reduce((sum, bar) => sum + lengthOf(bar), 0))),
        }),
      ),
    };
  });
}

/** Kinds of a shape, `5-A` to `5-Z`, then `5-AA`. */
function byName([one]: readonly [string, unknown], [other]: readonly [string, unknown]): number {
  return one.length - other.length || (one < other ? -1 : 1);
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

/** One end of one bar: the joint it is part of, and how it is bent. */
interface OneEnd {
  /** What the bend list calls its bar. */
  readonly name: string;
  readonly slots: number | null;
  readonly otherLayer: number | null;
  readonly bent: BarEnd | null;
}

type BothEnds = Readonly<Record<EndSide, OneEnd>>;

/** The ends of each bar. */
function barEnds(
  connection: ConnectionFacts,
  space: Space | null,
  names: ReadonlyMap<string, string>,
): (bar: Bar) => BothEnds {
  const found = new Map<string, Pick<OneEnd, 'slots' | 'otherLayer'>>();
  const key = (bar: Bar, side: EndSide) => `${barName(bar)} ${side}`;
  for (const joint of connection.joints().joints) {
    if (isPiece(joint)) continue;
    const { from, to, side, span } = joint;
    found.set(key(from, side), { slots: span, otherLayer: to.layer });
    found.set(key(to, side), { slots: -span, otherLayer: from.layer });
  }
  return (bar) => {
    const standing = space?.bars[bar.layer * space.slots + bar.slot - 1] ?? null;
    const end = (side: EndSide): OneEnd => ({
      ...(found.get(key(bar, side)) ?? { slots: null, otherLayer: null }),
      bent: standing?.[side] ?? null,
      name: names.get(barName(bar)) ?? '',
    });
    return { connection: end('connection'), far: end('far') };
  };
}

/** The same end of all pieces of a shape, which are joined over the same number of slots. */
function bentEnd(ends: readonly OneEnd[], space: Space | null): BentEnd {
  const bent = counted(ends.flatMap((end) => (end.bent ? [end.bent] : [])));
  const kinds = bent.map(([end]): EndKind => {
    const names = ends.filter((each) => each.bent === end).map(({ name }) => name);
    return { names: [...new Set(names)].sort(), use: end.use, sizes: endSizesOf(space!, end) };
  });
  const use = kinds[0]?.use ?? (ends[0]?.slots == null ? null : 'joint');
  // Straight bars whose joints would cross are joined by pieces all the same.
  const joined = use === 'joint' || use === 'crown' ? ends : [];
  const targets = counted(joined.flatMap(({ otherLayer }) => (otherLayer === null ? [] : [otherLayer])));
  const slots = joined[0]?.slots ?? null;
  return {
    use,
    sense: Math.sign(kinds[0]?.sizes.offset ?? slots ?? 0) as -1 | 0 | 1,
    slots,
    targets: targets.map(([layer, count]) => ({ layer, count })),
    kinds,
  };
}

/** How often each of some things is there, most first, then as they come. */
function counted<T>(things: readonly T[]): readonly (readonly [T, number])[] {
  const counts = new Map<T, number>();
  for (const thing of things) counts.set(thing, (counts.get(thing) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1]);
}

function endSizesOf({ layers, slopes, endStraight }: Space, end: BarEnd): EndSizes {
  const { radius } = layers[end.layer]!;
  const turn = end.turn ?? 0;
  const slope = Math.abs(turn) * slopes[end.side][end.layer]!.rise;
  // A crown is dimensioned to its rounded apex.
  const rise = end.use === 'crown' ? end.top - endStraight : slope;
  const other = end.crownLayer === null ? radius : layers[end.crownLayer]!.radius;
  return {
    offset: turn * radius,
    rise,
    joint: end.use === 'crown' ? 0 : end.plane - endStraight - slope,
    lead: end.use === 'crown' ? 0 : end.top - end.plane,
    aside: (end.reach?.round ?? 0) * radius,
    toRing: end.reach?.along ?? 0,
    step: end.use === 'crown' ? Math.abs(other - radius) : Math.abs(end.shift),
  };
}
