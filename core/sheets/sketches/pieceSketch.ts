import { layerLetter } from '../../language/layerLetters.ts';
import { pathShape } from '../../picture/make.ts';
import type { Primitive } from '../../picture/picture.ts';
import { lengthRange, millimetreText, signed } from '../numbers.ts';
import type { Block } from '../page/flow.ts';
import { widthOf } from '../page/text.ts';
import { horizontalDimension, verticalChain } from './dimension.ts';
import { besideWords, type PieceLevel, type PieceShape } from './pieces.ts';
import { chainDistance, leaders, type SketchContext, sketchBlock, slotsWords } from './sketch.ts';

const pieceSketchHeight = 36;
/** From the middle of the figure to either riser. */
const halfSpan = 20;

/** The dimensioned sketch of connecting pieces of one joint shape. */
export function pieceSketch(piece: PieceShape, context: SketchContext): Block {
  const { shape, count } = piece;
  const id = `piece-shape-${shape.number}`;
  const riser = riserWords(piece, context.width / 2 - chainDistance - 2);
  return sketchBlock({
    id,
    heading: `Piece, joint shape ${shape.number}: quantity ${count}`,
    section: context.section,
    width: context.width,
    figureHeight: pieceSketchHeight,
    notes: pieceNotes(piece, riser === 'R'),
    draw: (middle, top) => drawPiece(id, piece, riser, middle, top),
  });
}

/** The riser's height, or the letter that stands for it: not known, different from level to level, or without room. */
function riserWords({ levels }: PieceShape, room: number): string {
  const [only] = levels;
  const words = levels.length === 1 && only?.risers ? lengthRange(only.risers) : 'R';
  return widthOf(words, 2.5) <= room ? words : 'R';
}

/** Two risers and the arc between them. */
function drawPiece(
  id: string,
  piece: PieceShape,
  riser: string,
  middle: number,
  top: number,
): readonly Primitive[] {
  const [from, to] = [middle - halfSpan, middle + halfSpan];
  const [bridge, foot] = [top + 12, top + 30];
  const chainX = middle + chainDistance;
  return [
    pathShape(`${id}-bars`, 'sketch-bar', [[from, foot, from, bridge, to, bridge, to, foot]]),
    pathShape(`${id}-bared`, 'bared-end', [
      [from, foot - 4, from, foot],
      [to, foot - 4, to, foot],
    ]),
    leaders(
      `${id}-leaders`,
      [
        [to, bridge],
        [to, foot],
      ],
      chainX,
    ),
    ...verticalChain({
      id: `${id}-riser`,
      x: chainX,
      beside: 'right',
      stretches: [{ from: bridge, to: foot, words: riser }],
    }),
    pathShape(`${id}-axes`, 'dimension-line', [
      [from, bridge - 1.4, from, top + 5],
      [to, bridge - 1.4, to, top + 5],
    ]),
    ...horizontalDimension(`${id}-arc`, from, to, top + 6, arcWords(piece)),
  ];
}

/** The length from riser to riser and the slots that it spans, these alone in the notes where both find no room. */
function arcWords({ shape, across }: PieceShape): string {
  const slots = slotsWords(Math.abs(shape.offset));
  if (across === null) return slots;
  const both = `${lengthRange(across)} (${slots})`;
  return widthOf(both, 2.5) <= 2 * halfSpan - 4 ? both : lengthRange(across);
}

function pieceNotes(piece: PieceShape, lettered: boolean): readonly string[] {
  const { shape, step, levels } = piece;
  const layers =
    shape.lowerLayer === shape.upperLayer
      ? `in layer ${layerLetter(shape.lowerLayer)}`
      : `from layer ${layerLetter(shape.lowerLayer)} to layer ${layerLetter(shape.upperLayer)}`;
  const radial = step === null || step === 0 ? '' : `, step between the layers ${millimetreText(step)} mm`;
  return [
    `Seen from the axis with the stack below; developed, not to scale. ${shape.side === 'far' ? 'Far side' : 'Connection side'}, ${layers}, span ${signed(shape.offset)}; from riser to riser at their mean radius${radial}; dimensions to sharp corners.`,
    ...(levels.length > 1
      ? [
          'R, the length from riser to riser, the developed length and the joints of each level: in the list of connecting pieces.',
        ]
      : levels.map((level) => levelWords(level, lettered))),
    ...(levels.some(({ risers }) => risers === null)
      ? ['Not given: R riser, from the sizes of the bars and of the machine.']
      : []),
  ];
}

/** The pieces of the only level. */
function levelWords({ level, joints, beside, lengths, risers }: PieceLevel, lettered: boolean): string {
  const numbers = joints.map(({ number }) => number);
  const shown = numbers.slice(0, 24).join(', ');
  const more = numbers.length > 24 ? ` and ${numbers.length - 24} more` : '';
  const sizes = [
    lettered && risers !== null ? `R ${lengthRange(risers)} mm` : '',
    lengths === null ? '' : `developed length ${lengthRange(lengths)} mm`,
    beside === 0 ? '' : `risers step ${besideWords(beside, ' mm')}`,
  ].filter((words) => words !== '');
  const name = level === null ? 'Level not known' : `Level ${level} above the end winding`;
  return `${name}: ${[...sizes, `joints ${shown}${more}`].join(', ')}.`;
}
