import type { ComplexSeries } from '../analysis/fourier.ts';
import { chartNumber } from './chart.ts';
import { clearTexts, thinnedTexts } from './chartLabels.ts';
import { arrowHead, circlePart } from './chartMarks.ts';
import { baseLine, pathShape, text, textRow, textSize } from './make.ts';
import type { PathPart, Primitive, Text } from './picture.ts';

/** What the phasor polygon needs; lengths in millimetres, `instant` in radians. */
export interface PolygonRequest {
  readonly teeth: ComplexSeries;
  /** Teeth shown, from the one between slots 1 and 2: one turn of the polygon or several. */
  readonly count: number;
  /** Amplitude of the working wave, in the unit of `teeth`. */
  readonly amplitude: number;
  readonly instant: number;
  readonly unit: string;
  readonly left: number;
  readonly top: number;
  readonly width: number;
}

/** Of more corners, every second, fifth, tenth is named. */
const mostNamed = 40;

/**
 * The phasor polygon (Gorges diagram): corners are the MMF phasors of the teeth, sides the slots'
 * ampere-conductors; the circle has the working wave's amplitude as radius. The staircase at an instant
 * is the corners' projection on the arrow.
 */
export function drawPolygon(request: PolygonRequest): {
  readonly items: readonly Primitive[];
  readonly bottom: number;
} {
  const { teeth, count, amplitude, left, top, width, unit } = request;
  const head = 2 * (textRow + 1.5);
  const radius = width / 2 - 5;
  const [x, y] = [left + width / 2, top + head + width / 2];
  let most = amplitude;
  for (let tooth = 0; tooth < count; tooth++)
    most = Math.max(most, Math.hypot(teeth.re[tooth]!, teeth.im[tooth]!));
  const scale = most > 0 ? radius / (1.08 * most) : 1;
  const corners = Array.from(
    { length: count },
    (_, tooth) => [x + scale * teeth.re[tooth]!, y - scale * teeth.im[tooth]!] as const,
  );
  const cross: PathPart[] = [
    [x - radius, y, x + radius, y],
    [x, y - radius, x, y + radius],
  ];
  const dots = corners.map(([cx, cy]) => circlePart(cx, cy, count > mostNamed ? 0.3 : 0.45, 10).slice(0, 20));
  const names = cornerNames(corners, x, y);
  const [cx, cy] = corners[0] ?? [x, y];
  return {
    items: [
      text('polygon-title', 'chart-title', left, top + baseLine, 'Phasor polygon of the teeth\u2019s MMF'),
      pathShape('polygon-cross', 'grid', cross),
      pathShape('polygon-circle', 'reference-circle', [circlePart(x, y, scale * amplitude, 96)]),
      ...drawArrow(request.instant, x, y, radius),
      pathShape('polygon-sides', 'curve', [[...corners.flat(), cx, cy]]),
      pathShape('polygon-corners', 'marker', dots, {}, true),
      ...(count > mostNamed ? thinnedTexts(names) : clearTexts(names)),
      text(
        'polygon-radius',
        'axis-name',
        left,
        top + textRow + 1.5 + baseLine,
        `circle: amplitude of the working wave, ${chartNumber(amplitude)} ${unit}`,
      ),
    ],
    bottom: top + head + width,
  };
}

/** Numbers of the teeth outside their corners; corners that lie on each other are named once. */
function cornerNames(corners: readonly (readonly [number, number])[], x: number, y: number): readonly Text[] {
  const named = new Set<string>();
  return corners.flatMap(([cx, cy], tooth) => {
    const key = `${cx.toFixed(3)} ${cy.toFixed(3)}`;
    if (named.has(key)) return [];
    named.add(key);
    const way = Math.hypot(cx - x, cy - y);
    const [ux, uy] = way < 0.5 ? [0, -1] : [(cx - x) / way, (cy - y) / way];
    return [
      text(
        `polygon-${tooth + 1}`,
        'axis-number',
        cx + 2.8 * ux,
        cy + 2.8 * uy + 0.91,
        String(tooth + 1),
        'middle',
        textSize,
      ),
    ];
  });
}

/** The line on which the corners project to their value at the instant: it turns backward. */
function drawArrow(instant: number, x: number, y: number, radius: number): readonly Primitive[] {
  const [tipX, tipY] = [x + radius * Math.cos(instant), y + radius * Math.sin(instant)];
  const head = arrowHead(x, y, tipX, tipY, 2.6);
  return [
    pathShape('polygon-instant', 'quiet-curve', [[2 * x - tipX, 2 * y - tipY, tipX, tipY]]),
    ...(head === null ? [] : [pathShape('polygon-instant-head', 'marker', [head], {}, true)]),
  ];
}
