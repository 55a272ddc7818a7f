import { type Figure, orNull } from '../analysis/figure.ts';
import { type EndBends, slopeHeight } from '../copper/endGeometry.ts';
import { endShape } from '../copper/lengths.ts';
import { layerRadii } from '../copper/slotRows.ts';
import type { ConnectionFacts } from '../findings/connection.ts';
import type { Facts } from '../findings/facts.ts';
import { isPiece, type JointShape, lowerBar, upperBar, type WindingJoint } from '../winding/joints.ts';
import type { BarShape } from '../winding/jointsBars.ts';
import { type Bar, barName, type EndSide, type Winding } from '../winding/model.ts';

/** Shortest and longest of alike things, m. */
export interface Lengths {
  readonly shortest: number;
  readonly longest: number;
}

/** What the sketches of a winding's bars are dimensioned with, SI units; null where the text does not give it. */
export interface ShapeSizes {
  /** Length within the stack, one a layer. */
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

/** Letters that stand for sizes the text does not give: slot part, straight part, bend height, joint part. */
export type SizeLetter = 'L' | 'E' | 'H' | 'J' | 'B';

/** One end of a bar as bent: where the other bar of its joint is. */
export interface BentEnd {
  /** Slots from this bar to the other, true span: leaning bars shift it; null: a straight end. */
  readonly span: number | null;
  /** The same from bar to bar. */
  readonly slots: number | null;
  /** Layer of the other bar. */
  readonly otherLayer: number | null;
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

/** Connecting pieces of one joint shape. */
export interface PieceShape {
  readonly shape: JointShape;
  readonly joints: readonly WindingJoint[];
  readonly lengths: Lengths | null;
  /** Height of the risers, m. */
  readonly riser: number | null;
  /** Arc between the two bars at their mean radius, m. */
  readonly arc: number | null;
  /** Levels above the end winding, from 1. */
  readonly levels: readonly number[];
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
  return {
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
  const ends = bentEnds(connection);
  const lengthOf = (bar: Bar) => byPlace?.[bar.layer * winding.slots + bar.slot - 1] ?? Number.NaN;
  return connection.barShapes().map((shape): ShapeRow => {
    const perPiece = shape.form === 'hairpin' ? 2 : 1;
    const lengths: number[] = [];
    for (let index = 0; index + perPiece <= shape.bars.length; index += perPiece)
      lengths.push(shape.bars.slice(index, index + perPiece).reduce((sum, bar) => sum + lengthOf(bar), 0));
    const legs = shape.bars.slice(0, perPiece).map((bar): Leg => ({ bar, ...ends(bar) }));
    // The crown leads from the first leg to the second: towards higher slots or back.
    const backwards = perPiece === 2 && (legs[0]!.far.slots ?? 0) < 0;
    return { shape, legs: backwards ? [legs[1]!, legs[0]!] : legs, lengths: lengthsOf(lengths) };
  });
}

function lengthsOf(lengths: readonly number[]): Lengths | null {
  if (lengths.length === 0 || lengths.some(Number.isNaN)) return null;
  let [shortest, longest] = [lengths[0]!, lengths[0]!];
  for (const length of lengths) {
    shortest = Math.min(shortest, length);
    longest = Math.max(longest, length);
  }
  return { shortest, longest };
}

const straightEnd: BentEnd = { span: null, slots: null, otherLayer: null };

/** How the ends of a bar are bent; ends under a separate piece, at leads and star points are straight. */
function bentEnds(connection: ConnectionFacts): (bar: Bar) => Pick<Leg, 'connection' | 'far'> {
  const found = new Map<string, BentEnd>();
  const key = (bar: Bar, side: EndSide) => `${barName(bar)} ${side}`;
  for (const joint of connection.joints().joints) {
    if (isPiece(joint)) continue;
    const { from, to, side, span, trueSpan } = joint;
    found.set(key(from, side), { span: trueSpan, slots: span, otherLayer: to.layer });
    found.set(key(to, side), { span: -trueSpan, slots: -span, otherLayer: from.layer });
  }
  const end = (bar: Bar, side: EndSide) => found.get(key(bar, side)) ?? straightEnd;
  return (bar) => ({ connection: end(bar, 'connection'), far: end(bar, 'far') });
}

/** Every shape of connecting pieces. */
export function pieceShapes(facts: Facts, connection: ConnectionFacts): readonly PieceShape[] {
  const { winding } = facts;
  const { length, radii } = facts.copper();
  const pieceLengths = new Map(length.pieces.map((piece) => [piece.joint, piece.length]));
  const { levels } = connection.levels();
  const { joints, shapes } = connection.joints();
  return shapes
    .map((shape) => ({
      shape,
      joints: joints.filter((joint) => joint.shape === shape.number && isPiece(joint)),
    }))
    .filter((each) => each.joints.length > 0)
    .map(({ shape, joints: own }): PieceShape => {
      const sizes = own.map((joint) => pieceSizes(winding, radii, joint, pieceLengths.get(joint.number)));
      return {
        shape,
        joints: own,
        lengths: lengthsOf(own.map(({ number }) => pieceLengths.get(number) ?? Number.NaN)),
        riser: sizes[0]!.riser,
        arc: sizes[0]!.arc,
        levels: [...new Set(own.flatMap(({ number }) => levels.get(number) ?? []))].sort((a, b) => a - b),
      };
    });
}

/** The length of a piece is its arc, its step between the layers, and two risers. */
function pieceSizes(
  { slots }: Winding,
  radii: readonly number[] | null,
  joint: WindingJoint,
  length: number | undefined,
): { readonly arc: number | null; readonly riser: number | null } {
  if (radii === null) return { arc: null, riser: null };
  const [inner, outer] = [radii[lowerBar(joint).layer]!, radii[upperBar(joint).layer]!];
  const arc = ((Math.abs(joint.trueSpan) * 2 * Math.PI) / slots) * ((inner + outer) / 2);
  const riser = length === undefined ? null : (length - arc - Math.abs(outer - inner)) / 2;
  return { arc, riser };
}
