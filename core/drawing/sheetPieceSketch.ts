import { layerLetter } from '../winding/model.ts';
import { pathShape } from './make.ts';
import type { Primitive } from './picture.ts';
import { horizontalDimension, verticalChain } from './sheetDimension.ts';
import type { Block } from './sheetFlow.ts';
import type { PieceShape } from './sheetShapeData.ts';
import { chainDistance, leaders, type SketchContext, sketchBlock, slotsWords } from './sheetSketch.ts';
import { lengthRange, millimetreText, signed } from './sheetTables.ts';

const pieceSketchHeight = 36;

/** The dimensioned sketch of connecting pieces of one joint shape. */
export function pieceSketch(piece: PieceShape, context: SketchContext): Block {
  const { shape } = piece;
  const words = `Piece, joint shape ${shape.number}: quantity ${piece.joints.length}`;
  return sketchBlock(
    `piece-shape-${shape.number}`,
    words,
    context,
    pieceSketchHeight,
    pieceNotes(piece),
    (id, middle, top) => drawPiece(id, piece, middle, top),
  );
}

/** Two risers and the arc between them. */
function drawPiece(id: string, piece: PieceShape, middle: number, top: number): readonly Primitive[] {
  const [from, to] = [middle - 20, middle + 20];
  const [bridge, foot] = [top + 12, top + 30];
  const slots = slotsWords(Math.abs(piece.shape.offset));
  const words = piece.arc === null ? slots : `${millimetreText(piece.arc)} (${slots})`;
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
      stretches: [
        { from: bridge, to: foot, words: piece.riser === null ? 'R' : millimetreText(piece.riser) },
      ],
    }),
    pathShape(`${id}-axes`, 'dimension-line', [
      [from, bridge - 1.4, from, top + 5],
      [to, bridge - 1.4, to, top + 5],
    ]),
    ...horizontalDimension(`${id}-arc`, from, to, top + 6, words),
  ];
}

function pieceNotes({ shape, joints, lengths, riser, levels }: PieceShape): readonly string[] {
  const numbers = joints.map(({ number }) => number);
  const shown = numbers.slice(0, 40).join(', ');
  const more = numbers.length > 40 ? ` and ${numbers.length - 40} more` : '';
  const layers =
    shape.lowerLayer === shape.upperLayer
      ? `in layer ${layerLetter(shape.lowerLayer)}`
      : `from layer ${layerLetter(shape.lowerLayer)} to layer ${layerLetter(shape.upperLayer)}`;
  const side = shape.side === 'far' ? 'Far side' : 'Connection side';
  return [
    `${side}, ${layers}, span ${signed(shape.offset)}, arc at the mean radius; level ${levels.join(', ')} above the end winding.`,
    `Joints ${shown}${more}.`,
    lengths === null ? '' : `Developed length ${lengthRange(lengths)} mm.`,
    riser === null ? 'Not given: R riser, from the sizes of the bars and of the machine.' : '',
  ].filter((words) => words !== '');
}
