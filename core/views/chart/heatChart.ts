import type { HeatCurve } from '../../copper/curves.ts';
import type { Primitive } from '../../picture/picture.ts';
import { layerLetter } from '../../winding/model.ts';
import type { ChartPlace } from './cells.ts';
import { chartNumber } from './chart.ts';
import { drawLines, drawMark } from './lines.ts';

/**
 * Temperature of the hottest bar over the distance from mid-bar; where the curve goes on beyond the stack, its
 * faces are marked.
 */
export function heatChart({ samples, layer, active }: HeatCurve, place: ChartPlace): readonly Primitive[] {
  const hottest = samples.reduce((most, { temperature }) => Math.max(most, temperature), -Infinity);
  const half = active / 2;
  const { items, frame } = drawLines({
    id: 'heat',
    ...place,
    title: `Temperature along the hottest bar, layer ${layerLetter(layer)}: at most ${chartNumber(hottest)} \u00b0C`,
    series: [
      {
        id: 'bar',
        name: '',
        role: 'curve',
        points: samples.map(({ position, temperature }) => ({ x: 1000 * position, y: temperature })),
      },
    ],
    xGrid: true,
    xName: 'distance from mid-bar in mm',
    yName: 'temperature in \u00b0C',
  });
  const beyond = samples.some(({ position }) => Math.abs(position) > half * (1 + 1e-6));
  return beyond
    ? [
        ...items,
        ...drawMark('heat-slot', frame, -1000 * half, 'slot'),
        ...drawMark('heat-overhang', frame, 1000 * half, 'overhang'),
      ]
    : items;
}
