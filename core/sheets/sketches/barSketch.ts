import { pathShape } from '../../picture/make.ts';
import type { PathPart, Primitive } from '../../picture/picture.ts';
import type { Block } from '../page/flow.ts';
import { connectionChain, drawCrown, farChain, offsetDimension, stackDimensions } from './barDimensions.ts';
import { barSketchHeight, farEndPoints, legDistance, legPoints, levelsFrom } from './barFigure.ts';
import { barNotes } from './barNotes.ts';
import type { ShapeRow } from './shapeData.ts';
import { chainDistance, type SketchContext, sketchBlock } from './sketch.ts';

/** The dimensioned sketch of a shape of the bar list. */
export function barSketch(row: ShapeRow, context: SketchContext): Block {
  const { shape } = row;
  const form = shape.form === 'single-bar' ? 'single bar' : shape.form;
  const words = `Bar shape ${shape.number}: ${form}, quantity ${shape.count}`;
  const id = `bar-shape-${shape.number}`;
  return sketchBlock({
    id,
    heading: words,
    section: context.section,
    width: context.width,
    figureHeight: barSketchHeight,
    notes: barNotes(row, context),
    draw: (middle, top) => drawBar(id, row, context, middle, top),
  });
}

function drawBar(
  id: string,
  { legs, shape }: ShapeRow,
  { winding, sizes }: SketchContext,
  middle: number,
  top: number,
): readonly Primitive[] {
  const y = levelsFrom(top);
  const hairpin = shape.form === 'hairpin';
  const drawn = legs.map((leg, index) => {
    const x = middle + (hairpin ? (index === 0 ? -legDistance : legDistance) : 0);
    return { leg, ...legPoints(leg, winding, x, y) };
  });
  const bars = drawn.map(({ upper, lower, leg }): PathPart => {
    if (!hairpin) return [...upper, ...lower, ...farEndPoints(leg.far, lower.at(-2)!, y)];
    // Both legs meet in the crown.
    return [...upper, ...lower, middle, y.farBend];
  });
  const bared = drawn.flatMap(({ upper, lower, leg }): PathPart[] => {
    const free: PathPart[] = [[upper[0]!, upper[1]!, upper[0]!, upper[1]! + 3.5]];
    if (hairpin) return free;
    const far = farEndPoints(leg.far, lower.at(-2)!, y);
    const [x, end] = far.slice(-2) as [number, number];
    return [...free, [x, end - 3.5, x, end]];
  });
  const right = drawn.at(-1)!;
  const chainX = { left: middle - chainDistance, right: middle + chainDistance };
  return [
    pathShape(
      `${id}-core`,
      'core-end',
      [y.stackTop, y.stackBottom].map((level) => [
        middle - chainDistance - 1,
        level,
        middle + chainDistance + 1,
        level,
      ]),
    ),
    pathShape(`${id}-bars`, 'sketch-bar', bars),
    pathShape(`${id}-bared`, 'bared-end', bared),
    ...(hairpin ? connectionChain(`${id}-left`, drawn[0]!, sizes, y, chainX.left, 'left') : []),
    ...connectionChain(`${id}-right`, right, sizes, y, chainX.right, 'right'),
    ...stackDimensions(id, drawn, winding, sizes, y, chainX.right),
    ...(hairpin
      ? drawCrown(id, legs, sizes, winding, middle, y, chainX.right)
      : farChain(`${id}-far`, right, sizes, y, chainX.right)),
    ...drawn.flatMap(({ leg, upper, x }, index) =>
      offsetDimension(`${id}-offset-${index}`, leg.connection, {
        axis: x.above,
        end: upper[0]!,
        y: y.end - 4,
        from: [y.straight, y.end],
      }),
    ),
    ...(hairpin
      ? []
      : offsetDimension(`${id}-far-offset`, right.leg.far, {
          axis: right.x.below,
          end: farEndPoints(right.leg.far, right.x.below, y).at(-2)!,
          y: y.farEnd + 2.4,
          from: [y.farStraight, y.farEnd],
        })),
  ];
}
