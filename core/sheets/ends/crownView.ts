import { layerLetter } from '../../language/layerLetters.ts';
import { significant } from '../../language/numbers.ts';
import { pathShape } from '../../picture/make.ts';
import type { PathPart, Primitive } from '../../picture/picture.ts';
import type { Section } from '../../space/section.ts';
import type { BarEnd, Space } from '../../space/space.ts';
import { lengthRange, millimeterText, plainMillimeters } from '../numbers.ts';
import type { Block } from '../page/flow.ts';
import { line } from '../page/text.ts';
import { horizontalDimension, verticalChain } from '../sketches/dimension.ts';
import { leaders, sketchBlock } from '../sketches/sketch.ts';
import { edgesOf, ratioWithin, ratioWords } from './sideView.ts';

/** The two halves of crowns between the same two layers. */
interface CrownPair {
  readonly inner: BarEnd;
  readonly outer: BarEnd;
  /** Heights of their apexes, m. */
  readonly tops: { readonly shortest: number; readonly longest: number };
}

const roomAcross = 40;
const roomUp = 52;

/** Side views of the crowns, one for each pair of layers: their step along the radius, to scale. */
export function crownViews(space: Space, section: string, width: number): readonly Block[] {
  return crownPairs(space).map((pair) => crownView(space, pair, section, width));
}

function crownPairs({ ends }: Space): readonly CrownPair[] {
  const pairs = new Map<string, CrownPair>();
  for (const inner of ends) {
    if (inner.use !== 'crown' || inner.crownLayer === null || inner.crownLayer <= inner.layer) continue;
    const halves = ends.filter(
      (end) => end.use === 'crown' && end.layer === inner.crownLayer && end.crownLayer === inner.layer,
    );
    // The two halves of one crown are as high as each other.
    const outer = halves.find(({ top }) => Math.abs(top - inner.top) < 1e-6) ?? halves[0];
    if (!outer) continue;
    const key = `${inner.side} ${inner.layer} ${outer.layer}`;
    const tops = pairs.get(key)?.tops ?? { shortest: inner.top, longest: inner.top };
    pairs.set(key, {
      inner: pairs.get(key)?.inner ?? inner,
      outer: pairs.get(key)?.outer ?? outer,
      tops: {
        shortest: Math.min(tops.shortest, inner.top),
        longest: Math.max(tops.longest, inner.top),
      },
    });
  }
  return [...pairs.values()];
}

function crownView(space: Space, pair: CrownPair, section: string, width: number): Block {
  const [inner, outer] = [space.layers[pair.inner.layer]!, space.layers[pair.outer.layer]!];
  const letters = [pair.inner, pair.outer].map(({ layer }) => layerLetter(layer)) as [string, string];
  const least = inner.radius - inner.section.height / 2;
  const most = outer.radius + outer.section.height / 2;
  const top = pair.inner.top + inner.section.width / 2;
  const ratio = ratioWithin([most - least, roomAcross], [top, roomUp]);
  const scale = 1000 * ratio;
  const figure = top * scale + 22;
  const step = outer.radius - inner.radius;
  const { flat, assumed } = space.bends;
  const id = `crown-view-${letters.join('')}`;
  const apex = lengthRange(pair.tops);
  const span = Math.abs((pair.inner.turn ?? 0) - (pair.outer.turn ?? 0)) * (space.slots / (2 * Math.PI));
  return sketchBlock({
    id,
    heading: `Crown ${letters[0]} \u2013 ${letters[1]}, side view ${ratioWords(ratio)}`,
    section,
    width,
    figureHeight: figure,
    notes: [
      `Seen along the circumference, crown up. Step along the radius ${millimeterText(step)} mm from leg to leg, centered on the apex, by two bends of inner radius ${plainMillimeters(flat)} mm flatwise${assumed ? ' (assumed)' : ''}${step > 2 * flat + inner.section.height ? ' with a radial straight between them' : ''}.`,
      `Mean radius of the legs: ${letters[0]} ${millimeterText(inner.radius)} mm, ${letters[1]} ${millimeterText(outer.radius)} mm. Apex ${apex} mm above the stack, to the middle of the bar${apex === millimeterText(pair.inner.top) ? '' : `; drawn is a crown over ${significant(span, 3)} slots`}.`,
    ],
    draw: (middle, drawnTop) => {
      const faceY = drawnTop + 5 + top * scale;
      const at = ([radius, height]: readonly [number, number]): [number, number] => [
        middle - 8 + (radius - (least + most) / 2) * scale,
        faceY - height * scale,
      ];
      const edges = (end: BarEnd, bar: Section): readonly PathPart[] =>
        edgesOf(end.pieces, bar)
          .slice(0, 4)
          .map((edge) => edge.flatMap(at));
      const [innerX, outerX] = [at([inner.radius, 0])[0], at([outer.radius, 0])[0]];
      // Letters of legs that stand close lie on either side.
      const narrow = outerX - innerX < 3;
      const right = at([most, 0])[0];
      const chainX = right + 12;
      const apexY = at([0, pair.inner.top])[1];
      const legY = faceY - space.endStraight * scale;
      const dimensionY = faceY + 7;
      const items: Primitive[] = [
        pathShape(`${id}-core`, 'core-end', [[at([least, 0])[0] - 4, faceY, right + 4, faceY]]),
        pathShape(`${id}-bars`, 'sketch-line', [
          ...edges(pair.inner, inner.section),
          ...edges(pair.outer, outer.section),
        ]),
        pathShape(`${id}-axes`, 'dimension-line', [
          [innerX, faceY + 1, innerX, dimensionY + 0.4],
          [outerX, faceY + 1, outerX, dimensionY + 0.4],
        ]),
        ...horizontalDimension(`${id}-step`, innerX, outerX, dimensionY, millimeterText(step), 'below'),
        line(`${id}-inner`, 'layer-letter', innerX, dimensionY + 8, letters[0], {
          height: 2.5,
          anchor: narrow ? 'end' : 'middle',
        }),
        line(`${id}-outer`, 'layer-letter', outerX, dimensionY + 8, letters[1], {
          height: 2.5,
          anchor: narrow ? 'start' : 'middle',
        }),
        leaders(
          `${id}-leaders`,
          [
            [(innerX + outerX) / 2, apexY],
            [right, legY],
          ],
          chainX,
        ),
        ...verticalChain({
          id: `${id}-heights`,
          x: chainX,
          beside: 'right',
          stretches: [
            { from: apexY, to: legY, words: millimeterText(pair.inner.top - space.endStraight) },
            { from: legY, to: faceY, words: millimeterText(space.endStraight) },
          ],
        }),
      ];
      return items;
    },
  });
}
