import type { ComplexSeries } from '../../analysis/fourier.ts';
import type { Speech } from '../../figures/speech.ts';
import { fixed } from '../../language/numbers.ts';
import { baseLine, drawingTitle, filledShape, pathShape, text, textRow } from '../../picture/make.ts';
import { arrowHead, circlePart } from '../../picture/outlines.ts';
import type { PathPart, Primitive, Text } from '../../picture/picture.ts';
import { chartNumber } from '../chart/chart.ts';
import { placedTexts, stretchesOf } from '../chart/labels.ts';

/** What the phasor polygon needs; lengths in millimeters, `instant` in radians. */
export interface PolygonRequest {
  readonly teeth: ComplexSeries;
  /** Teeth shown, from the one between slots 1 and 2: one turn of the polygon or several. */
  readonly count: number;
  /** Amplitude of the working wave, in the unit of `teeth`. */
  readonly amplitude: number;
  /** Radians past the peak of the first phase's current. */
  readonly instant: number;
  readonly unit: string;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly speech: Speech;
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
  const { say } = request.speech;
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
  const [cx, cy] = corners[0] ?? [x, y];
  const circle = circlePart(x, y, scale * amplitude, 96);
  const sides = [...corners.flat(), cx, cy];
  // Not the arrow, which turns: names would jump.
  const lines = [...cross, circle, sides].flatMap(stretchesOf);
  const step = count > mostNamed ? nameStep(count) : 1;
  const names = placedTexts(cornerNames(corners, step, x, y), lines);
  return {
    items: [
      drawingTitle('polygon-title', left, top, say('Phasor polygon of the teeth\u2019s MMF')),
      pathShape('polygon-cross', 'grid', cross),
      pathShape('polygon-circle', 'reference-circle', [circle]),
      ...drawArrow(request.instant, x, y, radius),
      pathShape('polygon-sides', 'curve', [sides]),
      filledShape('polygon-corners', 'marker', dots),
      ...names,
      text(
        'polygon-radius',
        'axis-name',
        left,
        top + textRow + 1.5 + baseLine,
        say('circle: amplitude of the working wave, {0}', `${chartNumber(amplitude)} ${unit}`),
      ),
    ],
    bottom: top + head + width,
  };
}

/** The smallest of 2, 5, 10, 20 ... with at most `mostNamed` names. */
function nameStep(count: number): number {
  for (let step = 1; ; step *= 10)
    for (const factor of [1, 2, 5]) if (count / (factor * step) <= mostNamed) return factor * step;
}

/** Where a tooth's number may stand about its corner: straight outwards at best, then farther, then aside. */
const nameTurns = [0, 20, -20, 40, -40, 65, -65, 90, -90, 120, -120, 150, -150, 180];
const nameDistances = [2.6, 3.4, 4.4, 5.6];

/** Numbers of the teeth at their corners, each with its possible places; corners that lie on each other are named once. */
function cornerNames(
  corners: readonly (readonly [number, number])[],
  step: number,
  x: number,
  y: number,
): readonly (readonly Text[])[] {
  const named = new Set<string>();
  return corners.flatMap(([cx, cy], tooth) => {
    if (tooth % step !== 0) return [];
    const key = `${fixed(cx, 3)} ${fixed(cy, 3)}`;
    if (named.has(key)) return [];
    named.add(key);
    const outwards = Math.hypot(cx - x, cy - y) < 0.5 ? -Math.PI / 2 : Math.atan2(cy - y, cx - x);
    return [
      nameDistances.flatMap((distance) =>
        nameTurns.map((turn) => {
          const angle = outwards + (Math.PI * turn) / 180;
          return text(
            `polygon-${tooth + 1}`,
            'axis-number',
            cx + distance * Math.cos(angle),
            cy + distance * Math.sin(angle) + 0.91,
            String(tooth + 1),
            { anchor: 'middle' },
          );
        }),
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
    ...(head === null ? [] : [filledShape('polygon-instant-head', 'marker', [head])]),
  ];
}
