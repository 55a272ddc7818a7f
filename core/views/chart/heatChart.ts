import type { HeatCurve } from '../../copper/curves.ts';
import { inEnglish, type Speech } from '../../figures/speech.ts';
import { figureText, inShownUnit, withShownUnit } from '../../language/figureText.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import type { Primitive } from '../../picture/picture.ts';
import type { ChartPlace } from './cells.ts';
import { drawLines, drawMark } from './lines.ts';

/** A length along the bar as the axis has it. */
const shownLength = (length: number) => inShownUnit('copper.length.bars', length);

/**
 * Temperature of the hottest bar over the distance from mid-bar; where the curve goes on beyond the stack, its
 * faces are marked.
 */
export function heatChart(
  { samples, layer, active }: HeatCurve,
  place: ChartPlace,
  { say }: Speech = inEnglish,
): readonly Primitive[] {
  const hottest = samples.reduce((most, { temperature }) => Math.max(most, temperature), -Infinity);
  const half = active / 2;
  const { items, frame } = drawLines({
    id: 'heat',
    ...place,
    title: say(
      'Temperature along the hottest bar, layer {0}: at most {1}',
      layerLetter(layer),
      figureText('copper.heat.hotSpot', hottest),
    ),
    series: [
      {
        id: 'bar',
        name: '',
        role: 'curve',
        points: samples.map(({ position, temperature }) => ({ x: shownLength(position), y: temperature })),
      },
    ],
    xGrid: true,
    xName: withShownUnit(say('distance from mid-bar'), 'copper.length.bars'),
    yName: withShownUnit(say('temperature'), 'copper.heat.hotSpot'),
  });
  const beyond = samples.some(({ position }) => Math.abs(position) > half * (1 + 1e-6));
  return beyond
    ? [
        ...items,
        ...drawMark('heat-slot', frame, -shownLength(half), say('slot')),
        ...drawMark('heat-overhang', frame, shownLength(half), say('overhang')),
      ]
    : items;
}
