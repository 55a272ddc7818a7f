import type { ConnectionFacts } from '../../facts/connection.ts';
import type { Facts } from '../../facts/facts.ts';
import { orNull } from '../../figures/figure.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import type { PieceLength } from '../../space/lengths.ts';
import { coatedHeight } from '../../space/section.ts';
import type { Space } from '../../space/space.ts';
import { isPiece, type JointShape, type WindingJoint } from '../../winding/joints/joints.ts';
import { abovePlane, sizeWords, undersideOf } from '../ends/endSizes.ts';
import { lengthRange, millimeterText, runsText, signed } from '../numbers.ts';
import type { SheetTable } from '../page/table.ts';
import { underRows } from '../page/text.ts';
import { type Lengths, lengthsOf } from './shapeData.ts';

/** Connecting pieces of one joint shape that run at one level and reach as far: the shop makes them alike. */
export interface PieceLevel {
  /** Above the end winding, from 1; null where it is not known. */
  readonly level: number | null;
  readonly joints: readonly WindingJoint[];
  /** From riser to riser round the axis, at their mean radius, m. */
  readonly across: number | null;
  /** How far its risers step along the radius, outwards positive, m. */
  readonly beside: number;
  /** Developed lengths, m. */
  readonly lengths: Lengths | null;
  /** Heights of the risers, m: first of the one from which the piece runs towards higher slots. */
  readonly risers: readonly [number, number] | null;
}

/** Connecting pieces of one joint shape. */
export interface PieceShape {
  readonly shape: JointShape;
  /** Pieces of the shape in the whole winding. */
  readonly count: number;
  /** From riser to riser round the axis, at their mean radius, m. */
  readonly across: Lengths | null;
  /** From the one layer to the other, m. */
  readonly step: number | null;
  /** By level, the lowest first. */
  readonly levels: readonly PieceLevel[];
}

/** Every shape of connecting pieces, each piece with its own length. */
export function pieceShapes(facts: Facts, connection: ConnectionFacts): readonly PieceShape[] {
  const lengths = orNull(facts.copper().length.pieces) ?? [];
  const byJoint = new Map(lengths.map((piece) => [piece.joint, piece]));
  const { levels } = connection.levels();
  // In space pieces lie where their tips are; without sizes their slots decide.
  const levelOf = ({ number }: WindingJoint) => byJoint.get(number)?.level ?? levels.get(number) ?? 0;
  const { space } = facts.space();
  const links = space.known ? space.value.links : [];
  const besides = new Map(links.map(({ joint, beside }) => [joint, beside]));
  const besideOf = ({ number }: WindingJoint) => besides.get(number) ?? 0;
  const { joints, shapes } = connection.joints();
  const pieces = joints.filter((joint) => isPiece(joint) || byJoint.has(joint.number));
  return shapes.flatMap((shape): PieceShape[] => {
    const own = pieces.filter((joint) => joint.shape === shape.number);
    const [first] = own;
    if (first === undefined) return [];
    const sized = (joint: WindingJoint) => byJoint.get(joint.number);
    const arcs = own.map((joint) => sized(joint)?.across ?? Number.NaN);
    return [
      {
        shape,
        count: own.length,
        across: lengthsOf(arcs),
        step: sized(first)?.step ?? null,
        levels: byLevel(own, levelOf, sized, besideOf).map(({ level, joints: alike }): PieceLevel => {
          const pieces = alike.map(sized);
          return {
            level,
            joints: alike,
            across: sized(alike[0]!)?.across ?? null,
            beside: besideOf(alike[0]!),
            lengths: lengthsOf(pieces.map((piece) => piece?.length ?? Number.NaN)),
            risers: risersOf(alike[0]!, pieces[0]),
          };
        }),
      },
    ];
  });
}

/** The risers of a piece, first the one from which it runs towards higher slots, m. */
function risersOf({ span }: WindingJoint, piece: PieceLength | undefined): PieceLevel['risers'] {
  if (piece === undefined) return null;
  const [from, to] = piece.risers;
  return span >= 0 ? [from, to] : [to, from];
}

/** Whether the risers of a piece differ on paper. */
export function risersDiffer(risers: PieceLevel['risers']): boolean {
  return risers !== null && millimeterText(risers[0]) !== millimeterText(risers[1]);
}

/** The heights of a piece's risers, the two of one that differ apart. */
export function risersText(risers: readonly [number, number]): string {
  const [first, second] = risers.map(millimeterText);
  return first === second ? first! : `${first}, ${second}`;
}

/** Joints by the level, the reach, the risers and the step of their pieces (m), the lowest first, then the shortest. */
function byLevel(
  joints: readonly WindingJoint[],
  levelOf: (joint: WindingJoint) => number,
  sized: (joint: WindingJoint) => PieceLength | undefined,
  besideOf: (joint: WindingJoint) => number,
): readonly { readonly level: number | null; readonly joints: readonly WindingJoint[] }[] {
  const found = new Map<string, { level: number; across: number; joints: WindingJoint[] }>();
  for (const joint of joints) {
    const [level, across] = [levelOf(joint), sized(joint)?.across ?? 0];
    const risers = risersOf(joint, sized(joint));
    const key = `${level} ${millimeterText(across)} ${risers ? risersText(risers) : ''} ${millimeterText(besideOf(joint))}`;
    const alike = found.get(key) ?? { level, across, joints: [] };
    alike.joints.push(joint);
    found.set(key, alike);
  }
  return [...found.values()]
    .sort((one, other) => one.level - other.level || one.across - other.across)
    .map(({ level, joints: alike }) => ({ level: level === 0 ? null : level, joints: alike }));
}

const jointsWidth = 34;

/** The separate connecting pieces, one row for each level of each shape. */
export function pieceTable(pieces: readonly PieceShape[], space: Space | null, section: string): SheetTable {
  const total = pieces.reduce((sum, { count }) => sum + count, 0);
  const two = pieces.some(({ levels }) => levels.some(({ risers }) => risersDiffer(risers)));
  return {
    id: 'piece-list',
    section,
    heading: 'Connecting pieces',
    remarks: [
      `Sizes in mm. Riser: height of the level part above the tips of its bars; each level of pieces has its own${two ? '; of two that differ first the one from which the piece runs towards higher slots' : ''}. Riser to riser: round the axis, at their mean radius.`,
      ...(space
        ? [
            'Section: width along the radius \u00d7 height, without coating. Beside: how far the risers step along the radius before they bend, so that they pass beside the level parts of other pieces. Above: underside of the level part.',
          ]
        : []),
    ],
    columns: [
      { name: 'shape', align: 'end' },
      { name: 'side' },
      { name: 'layers' },
      { name: 'span', align: 'end' },
      { name: 'level', align: 'end' },
      { name: 'riser', align: 'end' },
      { name: 'riser to riser', align: 'end' },
      { name: 'length', align: 'end' },
      { name: 'quantity', align: 'end' },
      ...(space ? spaceColumns : []),
      { name: 'joints', most: jointsWidth },
    ],
    rows: [
      ...pieces.flatMap(({ shape, levels }) =>
        levels.flatMap(({ level, joints, across, lengths, risers }) =>
          underRows(
            [
              String(shape.number),
              shape.side,
              layersWords(shape),
              shape.lowerLayer === shape.upperLayer ? String(Math.abs(shape.offset)) : signed(shape.offset),
              level === null ? '\u2013' : String(level),
              risers === null ? '\u2013' : risersText(risers),
              across === null ? '\u2013' : millimeterText(across),
              lengths === null ? '\u2013' : lengthRange(lengths),
              String(joints.length),
              ...(space ? spaceCells(space, joints[0]!.number) : []),
              runsText(joints.map(({ number }) => number).sort((one, other) => one - other)),
            ],
            jointsWidth,
          ),
        ),
      ),
      ['', 'all', '', '', '', '', '', '', String(total), ...(space ? spaceColumns.map(() => '') : []), ''],
    ],
  };
}

function layersWords({ lowerLayer, upperLayer }: JointShape): string {
  return `${layerLetter(lowerLayer)} ${layerLetter(upperLayer)}`;
}

const spaceColumns = ['section', 'corners R', 'beside', 'above stack', 'above joints'].map((name) => ({
  name,
  align: 'end' as const,
}));

/** How far risers step along the radius, and to where; nothing where they do not. */
export function besideWords(beside: number, unit = ''): string {
  if (beside === 0) return '';
  return `${millimeterText(Math.abs(beside))}${unit} ${beside < 0 ? 'inwards' : 'outwards'}`;
}

/** Section, inner radius of the corners, and height of a piece in space. */
function spaceCells(space: Space, joint: number): readonly string[] {
  const link = space.links.find((each) => each.joint === joint);
  if (!link) return spaceColumns.map(() => '\u2013');
  const underside = undersideOf(link);
  const inner = link.corner - coatedHeight(link.section) / 2;
  return [
    sizeWords(link.section),
    millimeterText(Math.max(0, inner)),
    besideWords(link.beside) || '0',
    millimeterText(underside),
    abovePlane(space, link.side, underside),
  ];
}
