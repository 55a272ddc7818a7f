import { layerLetter } from '../../language/layerLetters.ts';
import { pathShape } from '../../picture/make.ts';
import type { Primitive } from '../../picture/picture.ts';
import { lengthRange, millimeterText, signed } from '../numbers.ts';
import type { Block } from '../page/flow.ts';
import { widthOf } from '../page/text.ts';
import { horizontalDimension, verticalChain } from './dimension.ts';
import { besideWords, type PieceLevel, type PieceShape, risersDiffer, risersText } from './pieces.ts';
import { chainDistance, leaders, type SketchContext, sketchBlock, slotsWords } from './sketch.ts';

const pieceSketchHeight = 36;
/** From the middle of the figure to either riser. */
const halfSpan = 20;

/** The dimensioned sketch of connecting pieces of one joint shape. */
export function pieceSketch(piece: PieceShape, context: SketchContext): Block {
  const { shape, count } = piece;
  const id = `piece-shape-${shape.number}`;
  const risers = riserWords(piece, context.width / 2 - chainDistance - 2);
  return sketchBlock({
    id,
    heading: `Piece, joint shape ${shape.number}: quantity ${count}`,
    section: context.section,
    width: context.width,
    figureHeight: pieceSketchHeight,
    notes: pieceNotes(piece, risers),
    draw: (middle, top) => drawPiece(id, piece, risers, middle, top),
  });
}

/** What stands at the risers of a sketch: at both the same, or at each its own, first at the one from which the piece runs towards higher slots. */
interface RiserWords {
  readonly words: readonly [string] | readonly [string, string];
  /** Letters that stand for heights: not known, different from level to level, or without room. */
  readonly lettered: boolean;
}

function riserWords({ levels }: PieceShape, room: number): RiserWords {
  const [only] = levels;
  const two = levels.some(({ risers }) => risersDiffer(risers));
  if (levels.length === 1 && only?.risers) {
    const [first, second] = only.risers.map(millimeterText) as [string, string];
    if (Math.max(widthOf(first, 2.5), widthOf(second, 2.5)) <= room)
      return { words: two ? [first, second] : [first], lettered: false };
  }
  return { words: two ? ['R1', 'R2'] : ['R'], lettered: true };
}

/** Two risers and the arc between them. */
function drawPiece(
  id: string,
  piece: PieceShape,
  { words }: RiserWords,
  middle: number,
  top: number,
): readonly Primitive[] {
  const [from, to] = [middle - halfSpan, middle + halfSpan];
  const [bridge, foot] = [top + 12, top + 30];
  // Seen from the axis slots run to the right with the connection side up, to the left with the far side up.
  const inOrder = piece.shape.side === 'far' ? [...words].reverse() : words;
  const chains = inOrder.length === 2 ? (['left', 'right'] as const) : (['right'] as const);
  return [
    pathShape(`${id}-bars`, 'sketch-bar', [[from, foot, from, bridge, to, bridge, to, foot]]),
    pathShape(`${id}-bared`, 'bared-end', [
      [from, foot - 4, from, foot],
      [to, foot - 4, to, foot],
    ]),
    ...chains.flatMap((beside, index) => {
      const [riser, x] = beside === 'left' ? [from, middle - chainDistance] : [to, middle + chainDistance];
      const other = beside === 'left' ? '-left' : '';
      return [
        leaders(
          `${id}-leaders${other}`,
          [
            [riser, bridge],
            [riser, foot],
          ],
          x,
        ),
        ...verticalChain({
          id: `${id}-riser${other}`,
          x,
          beside,
          stretches: [{ from: bridge, to: foot, words: inOrder[index]! }],
        }),
      ];
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

function pieceNotes(piece: PieceShape, { words, lettered }: RiserWords): readonly string[] {
  const { shape, step, levels } = piece;
  const layers =
    shape.lowerLayer === shape.upperLayer
      ? `in layer ${layerLetter(shape.lowerLayer)}`
      : `from layer ${layerLetter(shape.lowerLayer)} to layer ${layerLetter(shape.upperLayer)}`;
  const radial = step === null || step === 0 ? '' : `, step between the layers ${millimeterText(step)} mm`;
  return [
    `Seen from the axis with the stack below; developed, not to scale. ${shape.side === 'far' ? 'Far side' : 'Connection side'}, ${layers}, span ${signed(shape.offset)}; from riser to riser at their mean radius${radial}; dimensions to sharp corners.`,
    ...(levels.length > 1
      ? [
          `${words.join(', ')}, the length from riser to riser, the developed length and the joints of each level: in the list of connecting pieces.`,
        ]
      : levels.map((level) => levelWords(level, lettered ? words.join(', ') : ''))),
    ...(levels.some(({ risers }) => risers === null)
      ? ['Not given: R riser, from the sizes of the bars and of the machine.']
      : []),
  ];
}

/** The pieces of the only level. */
function levelWords({ level, joints, beside, lengths, risers }: PieceLevel, letters: string): string {
  const numbers = joints.map(({ number }) => number);
  const shown = numbers.slice(0, 24).join(', ');
  const more = numbers.length > 24 ? ` and ${numbers.length - 24} more` : '';
  const sizes = [
    letters !== '' && risers !== null ? `${letters} ${risersText(risers)} mm` : '',
    lengths === null ? '' : `developed length ${lengthRange(lengths)} mm`,
    beside === 0 ? '' : `risers step ${besideWords(beside, ' mm')}`,
  ].filter((words) => words !== '');
  const name = level === null ? 'Level not known' : `Level ${level} above the end winding`;
  return `${name}: ${[...sizes, `joints ${shown}${more}`].join(', ')}.`;
}
