import type { FactorRow } from '../../analysis/factors/factors.ts';
import type { MmfWave } from '../../analysis/mmf.ts';
import type { Speech } from '../../figures/speech.ts';
import { fixed, significant } from '../../language/numbers.ts';
import type { Box } from '../../picture/bounds.ts';
import { textWidth } from '../../picture/fontMetrics.ts';
import { filledShape, pathShape, text, textSize } from '../../picture/make.ts';
import { boxArea, boxOutline, hatchParts } from '../../picture/outlines.ts';
import type { PathPart, Primitive, Text } from '../../picture/picture.ts';
import { type Chart, chart } from '../chart/chart.ts';
import { clearTexts } from '../chart/labels.ts';

/** One order as the charts show it. */
export interface ShownOrder {
  /** Mechanical. */
  readonly order: number;
  readonly harmonic: string;
  /** Winding factor, skew included. */
  readonly factor: number;
  readonly waves: readonly MmfWave[];
}

const smallestFactor = 5e-4;
const smallestWave = 1e-3;

/**
 * The first `most` orders that have a winding factor of at least 0.0005 or a wave of at least 0.1 % of
 * the working wave. `rows` ascend and hold every order once.
 */
export function shownOrders(
  rows: readonly FactorRow[],
  waves: readonly MmfWave[],
  most: number,
): readonly ShownOrder[] {
  const byOrder = new Map<number, MmfWave[]>();
  for (const wave of waves) {
    if (wave.relative === null || wave.relative < smallestWave) continue;
    byOrder.set(wave.order, [...(byOrder.get(wave.order) ?? []), wave]);
  }
  return rows
    .map(({ order, harmonic, winding }) => ({
      order,
      harmonic,
      factor: winding,
      waves: byOrder.get(order) ?? [],
    }))
    .filter(({ factor, waves: own }) => factor >= smallestFactor || own.length > 0)
    .slice(0, most);
}

/** Where the charts lie, in millimeters. */
export interface HarmonicsPlace {
  readonly left: number;
  readonly top: number;
  readonly width: number;
}

const height = 62;
/** Share of an axis above the highest column, for its value, which stands upright. */
const valueRoom = 0.25;
/** Values nearer to each other than this are left out, those of higher orders first. */
const valueGap = 0.2;

/** Columns of winding factors over harmonics, and below them of MMF waves over orders. */
export function drawHarmonics(
  orders: readonly ShownOrder[],
  place: HarmonicsPlace,
  speech: Speech,
): { readonly items: readonly Primitive[]; readonly bottom: number } {
  const second = place.top + height + 5;
  return {
    items: [...drawFactors(orders, place, speech), ...drawWaves(orders, { ...place, top: second }, speech)],
    bottom: second + height,
  };
}

function frameOf(
  id: string,
  orders: readonly ShownOrder[],
  place: HarmonicsPlace,
  words: { readonly title: string; readonly xName: string; readonly yName: string },
  most: number,
  nameOf: (order: ShownOrder) => string,
): Chart {
  return chart({
    id,
    ...place,
    height,
    title: words.title,
    x: {
      from: -0.5,
      to: Math.max(orders.length, 1) - 0.5,
      round: false,
      ticks: orders.map((order, index) => ({ value: index, name: nameOf(order) })),
    },
    y: { from: 0, to: (1 + valueRoom) * most, round: false, lastTick: most },
    xName: words.xName,
    yName: words.yName,
  });
}

function drawFactors(
  orders: readonly ShownOrder[],
  place: HarmonicsPlace,
  { say }: Speech,
): readonly Primitive[] {
  const frame = frameOf(
    'factors',
    orders,
    place,
    {
      title: say('Winding factors'),
      xName: say('order over pole pairs'),
      yName: say('winding factor, skew included'),
    },
    1,
    ({ harmonic }) => harmonic,
  );
  const half = columnHalf(frame);
  const columns: Primitive[] = [];
  const values: Text[] = [];
  orders.forEach(({ order, factor }, index) => {
    if (factor < smallestFactor) return;
    const [x, top] = [frame.x.at(index), frame.y.at(factor)];
    const box = boxArea(x - half, top, x + half, frame.field.bottom);
    columns.push(filledShape(`factor-${order}`, 'column', [box]));
    values.push(valueText(`factor-${order}-value`, x, top - 0.8, fixed(factor, 3)));
  });
  return [...frame.items, ...columns, ...clearTexts(values, frame.texts, valueGap)];
}

/** Forward waves are solid with an arrow to the right, backward ones hatched with an arrow to the left. */
function drawWaves(
  orders: readonly ShownOrder[],
  place: HarmonicsPlace,
  speech: Speech,
): readonly Primitive[] {
  const { say } = speech;
  const sizes = orders.flatMap(({ waves }) => waves.map(({ relative }) => 100 * (relative ?? 0)));
  const frame = frameOf(
    'waves',
    orders,
    place,
    {
      title: say('MMF waves'),
      xName: say('order: pole pairs round the bore'),
      yName: say('amplitude in % of the working wave'),
    },
    Math.max(1, ...sizes),
    ({ order }) => String(order),
  );
  const half = columnHalf(frame);
  const columns: Primitive[] = [];
  const values: Text[] = [];
  orders.forEach(({ order, waves }, index) => {
    waves.forEach((wave, which) => {
      const relative = 100 * (wave.relative ?? 0);
      const share = waves.length > 1 ? half / 2 : half;
      const x = frame.x.at(index) + (waves.length > 1 ? (which === 0 ? -share : share) : 0);
      const top = frame.y.at(relative);
      const id = `wave-${order}-${wave.direction}`;
      columns.push(
        ...column(id, wave.direction, { left: x - share, right: x + share, top, bottom: frame.field.bottom }),
      );
      values.push(valueText(`${id}-value`, x, top - 2.6, significant(relative, relative < 1 ? 2 : 3)));
    });
  });
  return [
    ...frame.items,
    ...columns,
    ...clearTexts(values, frame.texts, valueGap),
    ...drawLegend(frame, place, speech),
  ];
}

function columnHalf({ x }: Chart): number {
  return Math.min(2.4, 0.36 * (x.at(1) - x.at(0)));
}

/** Read from below upwards, so that the values of neighboring columns stay apart; `y` is where it begins. */
function valueText(id: string, x: number, y: number, words: string): Text {
  return { ...text(id, 'value', x + 0.91, y, words), angle: -90 };
}

function column(id: string, direction: MmfWave['direction'], box: Box): readonly Primitive[] {
  const { left, top, right, bottom } = box;
  const middle = (left + right) / 2;
  const way = direction === 'forward' ? 1 : -1;
  const arrow: PathPart = [middle + way, top - 1.4, middle - way, top - 2.2, middle - way, top - 0.6];
  const head = filledShape(`${id}-arrow`, 'marker', [arrow]);
  if (direction === 'forward') return [filledShape(id, 'column', [boxArea(left, top, right, bottom)]), head];
  const outline = boxOutline(left, top, right, bottom);
  return [pathShape(id, 'open-column', [outline, ...hatchParts(box, 0.9)]), head];
}

function drawLegend(frame: Chart, place: HarmonicsPlace, { say }: Speech): readonly Primitive[] {
  const items: Primitive[] = [];
  let right = frame.field.right;
  const y = place.top + 2.37;
  for (const direction of ['backward', 'forward'] as const) {
    const name = direction === 'forward' ? say('with the working wave') : say('against it');
    items.push(text(`waves-legend-${direction}-name`, 'legend-name', right, y, name, { anchor: 'end' }));
    const at = right - textWidth(name, textSize) - 1.2;
    items.push(
      ...column(`waves-legend-${direction}`, direction, {
        left: at - 3,
        right: at,
        top: y - 0.6,
        bottom: y + 0.8,
      }),
    );
    right = at - 8;
  }
  return items;
}
