import type { ConnectionFacts } from '../../facts/connection.ts';
import type { Facts } from '../../facts/facts.ts';
import {
  isPiece,
  type JointShape,
  lowerBar,
  upperBar,
  type WindingJoint,
} from '../../winding/joints/joints.ts';
import { layerLetter } from '../../winding/model.ts';
import type { SheetTable } from '../page/table.ts';
import { lengthRange, signed } from '../tables.ts';
import { type Lengths, lengthsOf } from './shapeData.ts';

/** Connecting pieces of one joint shape that run at one level: the shop makes them alike. */
export interface PieceLevel {
  /** Above the end winding, from 1; null where it is not known. */
  readonly level: number | null;
  readonly joints: readonly WindingJoint[];
  /** Developed lengths, m. */
  readonly lengths: Lengths | null;
  /** Heights of the risers, m. */
  readonly risers: Lengths | null;
}

/** Connecting pieces of one joint shape. */
export interface PieceShape {
  readonly shape: JointShape;
  readonly count: number;
  /** Arc between the two bars at their mean radius, m. */
  readonly arc: number | null;
  /** From the one layer to the other, m. */
  readonly step: number | null;
  /** By level, the lowest first. */
  readonly levels: readonly PieceLevel[];
}

/** Every shape of connecting pieces, each piece with its own length. */
export function pieceShapes(facts: Facts, connection: ConnectionFacts): readonly PieceShape[] {
  const { length, radii } = facts.copper();
  const byJoint = new Map(length.pieces.map((piece) => [piece.joint, piece]));
  const { levels } = connection.levels();
  const { joints, shapes } = connection.joints();
  const pieces = joints.filter(isPiece);
  return shapes.flatMap((shape): PieceShape[] => {
    const own = pieces.filter((joint) => joint.shape === shape.number);
    const [first] = own;
    if (first === undefined) return [];
    const sizes = radii === null ? null : spread(facts.winding.slots, radii, first);
    return [
      {
        shape,
        count: own.length,
        arc: sizes?.arc ?? null,
        step: sizes?.step ?? null,
        levels: byLevel(own, levels).map(({ level, joints: alike }): PieceLevel => {
          const sized = alike.map(({ number }) => byJoint.get(number));
          return {
            level,
            joints: alike,
            lengths: lengthsOf(sized.map((piece) => piece?.length ?? Number.NaN)),
            risers: lengthsOf(sized.map((piece) => piece?.riser ?? Number.NaN)),
          };
        }),
      },
    ];
  });
}

/** Across: the arc at the mean radius, and the step between the layers. */
function spread(
  slots: number,
  radii: readonly number[],
  joint: WindingJoint,
): { readonly arc: number; readonly step: number } {
  const [lower, upper] = [radii[lowerBar(joint).layer]!, radii[upperBar(joint).layer]!];
  const arc = ((Math.abs(joint.trueSpan) * 2 * Math.PI) / slots) * ((lower + upper) / 2);
  return { arc, step: Math.abs(upper - lower) };
}

function byLevel(
  joints: readonly WindingJoint[],
  levels: ReadonlyMap<number, number>,
): readonly { readonly level: number | null; readonly joints: readonly WindingJoint[] }[] {
  const found = new Map<number, WindingJoint[]>();
  for (const joint of joints) {
    const level = levels.get(joint.number) ?? 0;
    found.set(level, [...(found.get(level) ?? []), joint]);
  }
  return [...found]
    .sort(([one], [other]) => one - other)
    .map(([level, alike]) => ({ level: level === 0 ? null : level, joints: alike }));
}

/** The separate connecting pieces, one row for each level of each shape. */
export function pieceTable(pieces: readonly PieceShape[], section: string): SheetTable {
  const total = pieces.reduce((sum, { count }) => sum + count, 0);
  return {
    id: 'piece-list',
    section,
    heading: 'Connecting pieces',
    remarks: ['Riser: height of both legs; each level of pieces above the end winding has its own.'],
    columns: [
      { name: 'joint shape', align: 'end' },
      { name: 'side' },
      { name: 'layers' },
      { name: 'span', align: 'end' },
      { name: 'level', align: 'end' },
      { name: 'riser mm', align: 'end' },
      { name: 'length mm', align: 'end' },
      { name: 'quantity', align: 'end' },
    ],
    rows: [
      ...pieces.flatMap(({ shape, levels }) =>
        levels.map(({ level, joints, lengths, risers }) => [
          String(shape.number),
          shape.side,
          layersWords(shape),
          shape.lowerLayer === shape.upperLayer ? String(Math.abs(shape.offset)) : signed(shape.offset),
          level === null ? '\u2013' : String(level),
          risers === null ? '\u2013' : lengthRange(risers),
          lengths === null ? '\u2013' : lengthRange(lengths),
          String(joints.length),
        ]),
      ),
      ['', 'all', '', '', '', '', '', String(total)],
    ],
  };
}

function layersWords({ lowerLayer, upperLayer }: JointShape): string {
  return `${layerLetter(lowerLayer)} ${layerLetter(upperLayer)}`;
}
