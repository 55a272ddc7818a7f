import type { CycleHeat } from '../../copper/heat/cycleHeat.ts';
import type { ValuesOf } from '../../figures/groups.ts';
import { inEnglish, type Speech } from '../../figures/speech.ts';
import { figureText, inShownUnit, withShownUnit } from '../../language/figureText.ts';
import { significant } from '../../language/numbers.ts';
import type { CurvePoint } from '../../operation/curve.ts';
import type { DutyPointResult, DutyResult } from '../../operation/duty.ts';
import { type Box, textBox } from '../../picture/bounds.ts';
import { printable } from '../../picture/fontMetrics.ts';
import { filledShape, pathShape, text } from '../../picture/make.ts';
import { boxArea, boxOutline, hatchParts } from '../../picture/outlines.ts';
import type { Primitive, Text } from '../../picture/picture.ts';
import type { ChartPlace } from '../chart/cells.ts';
import { type Chart, chart } from '../chart/chart.ts';
import { clearTexts, placedTexts, type Stretch, stretchesOf, stretchMeets } from '../chart/labels.ts';
import { drawLines, drawMark, markerPart, type Series } from '../chart/lines.ts';

/** A point of operation on a chart over the speed: its name, speed in revolutions per second, and value. */
export interface MarkedPoint {
  readonly name: string;
  /** Revolutions per second. */
  readonly speed: number;
  /** In the unit of the chart. */
  readonly value: number;
}

/** What a chart over the speed shows. */
export interface SpeedChart {
  readonly id: string;
  readonly title: string;
  readonly yName: string;
  readonly curve: readonly CurvePoint[];
  /** In the unit of the chart. */
  readonly valueOf: (point: CurvePoint) => number;
  /** Operating points in the unit of the values. */
  readonly points: readonly MarkedPoint[];
  /** A level across the chart, such as the stated voltage. */
  readonly level?: { readonly value: number; readonly name: string } | undefined;
  /** Base speed, revolutions per second; null without one. */
  readonly baseSpeed: number | null;
}

/** A speed in revolutions per second as axes have it. */
const shownSpeed = (speed: number) => inShownUnit('operation.baseSpeed', speed);

/** A line over the speed in rpm, with base speed, level and operating points marked. */
export function speedChart(
  request: SpeedChart,
  place: ChartPlace,
  { say }: Speech = inEnglish,
): readonly Primitive[] {
  const { id, curve, points, level, baseSpeed } = request;
  const values = [
    ...curve.map(request.valueOf),
    ...points.map(({ value }) => value),
    ...(level ? [level.value] : []),
  ];
  const speeds = [...curve, ...points].map(({ speed }) => shownSpeed(speed));
  const { items, frame } = drawLines({
    id,
    ...place,
    title: request.title,
    x: { from: 0, to: Math.max(...speeds) },
    y: { from: Math.min(0, ...values), to: 1.08 * Math.max(...values) },
    xGrid: true,
    series: [
      {
        id: 'curve',
        name: '',
        role: 'curve',
        points: curve.map((point) => ({ x: shownSpeed(point.speed), y: request.valueOf(point) })),
      },
    ],
    xName: withShownUnit(say('speed'), 'operation.baseSpeed'),
    yName: request.yName,
  });
  const base =
    baseSpeed === null || !Number.isFinite(baseSpeed)
      ? []
      : drawMark(
          `${id}-base`,
          frame,
          shownSpeed(baseSpeed),
          say('base speed {0}', figureText('operation.baseSpeed', baseSpeed)),
        );
  const lines = [...base, ...drawLevel(id, frame, level)];
  const names = lines.filter((item) => item.kind === 'text');
  const line = curve.flatMap((point) => [
    frame.x.at(shownSpeed(point.speed)),
    frame.y.at(request.valueOf(point)),
  ]);
  const paths = lines.flatMap((item) => (item.kind === 'path' ? item.parts : []));
  const taken = { texts: [...frame.texts, ...names], lines: [line, ...paths].flatMap(stretchesOf) };
  return [...items, ...lines, ...drawPoints(id, frame, points, taken)];
}

function drawLevel(id: string, frame: Chart, level: SpeedChart['level']): readonly Primitive[] {
  if (!level || level.value > frame.y.to) return [];
  const y = frame.y.at(level.value);
  const { left, right } = frame.field;
  return [
    pathShape(`${id}-level`, 'reference-circle', [[left, y, right, y]]),
    text(`${id}-level-name`, 'axis-name', right - 1, y - 0.8, level.name, { anchor: 'end' }),
  ];
}

/** What the names of points keep clear of. */
interface Taken {
  readonly texts: readonly Text[];
  readonly lines: readonly Stretch[];
}

/** Marks with their names, clear of other texts and of lines: beside the mark, else where a thin line leads to. */
function drawPoints(
  id: string,
  frame: Chart,
  points: readonly MarkedPoint[],
  { texts, lines }: Taken,
): readonly Primitive[] {
  if (points.length === 0) return [];
  const places = points.map(({ name, speed, value }, index) => ({
    id: `${id}-point-${index + 1}-name`,
    name,
    x: frame.x.at(shownSpeed(speed)),
    y: frame.y.at(value),
  }));
  const clearOf = [...lines, ...places.map(({ x, y }): Stretch => [x - 1, y, x + 1, y])];
  const names: Text[] = [];
  const leaders: Stretch[] = [];
  for (const place of places) {
    const standing = [...texts, ...names];
    // No line through another name, or through the mark of another place.
    const boxes = [
      ...standing.map(textBox),
      ...places
        .filter(({ x, y }) => Math.hypot(x - place.x, y - place.y) > 2)
        .map(({ x, y }) => ({ left: x - 1, right: x + 1, top: y - 1, bottom: y + 1 })),
    ];
    const led = ledPlaces(place, frame).filter(
      ({ leader }) => !boxes.some((box) => stretchMeets(leader, box)),
    );
    const beside = namePlaces(place, frame);
    const choices = [...beside, ...led.map(({ name }) => name)];
    const [name] = placedTexts([choices], [...clearOf, ...leaders], 0.2, standing);
    names.push(...(name ? [name] : clearTexts(beside.slice(0, 1), standing, 0.1)));
    leaders.push(...led.flatMap((each) => (each.name === name ? [each.leader] : [])));
  }
  return [
    ...(leaders.length > 0 ? [pathShape(`${id}-point-leaders`, 'cut-leader', leaders)] : []),
    filledShape(
      `${id}-points`,
      'marker',
      places.map(({ x, y }) => markerPart('diamond', x, y)),
    ),
    ...names,
  ];
}

/** A point's mark on paper, and its name with the id that it gets. */
interface PointPlace {
  readonly id: string;
  readonly name: string;
  readonly x: number;
  readonly y: number;
}

/** Where a point's name may stand away from its mark, the nearest place first, with the line that leads to it. */
function ledPlaces({ id, name, x, y }: PointPlace, { field }: Chart) {
  return [4, 6, 8, 11, 15, 20, 26, 34].flatMap((distance) =>
    [30, 150, -30, -150, 60, 120, -60, -120, 88, -88, 5, 175].flatMap((degrees) => {
      const angle = (degrees * Math.PI) / 180;
      const [across, up] = [Math.cos(angle), Math.sin(angle)];
      const end = [x + distance * across, y - distance * up] as const;
      const way = across > 0 ? 1 : -1;
      const led = text(id, 'value', end[0] + 0.5 * way, end[1] + 0.9, name, {
        anchor: way > 0 ? 'start' : 'end',
      });
      const leader: Stretch = [x + 1.2 * across, y - 1.2 * up, ...end];
      return isWithin(textBox(led), field) ? [{ name: led, leader }] : [];
    }),
  );
}

/** Where a point's name may stand: beside it, towards the middle of the chart first, above it before below. */
function namePlaces({ id, name, x, y }: PointPlace, { field }: Chart): readonly Text[] {
  const inwards =
    x > (field.left + field.right) / 2 ? (['end', 'start'] as const) : (['start', 'end'] as const);
  const usual = inwards.map((anchor) =>
    text(id, 'value', x + (anchor === 'end' ? -1.4 : 1.4), y - 1, name, { anchor }),
  );
  const below = usual.map((each) => ({ ...each, y: y + 1 + (each.y - textBox(each).top) }));
  return [...usual, ...below].filter((each, index) => index === 0 || isWithin(textBox(each), field));
}

function isWithin(box: Box, { left, top, right, bottom }: Box): boolean {
  return box.left >= left && box.right <= right && box.top >= top && box.bottom <= bottom;
}

/** Loss at each point of the duty: a column that the DC loss fills, with all that comes on top of it hatched. */
export function lossChart(
  points: readonly ValuesOf<DutyPointResult>[],
  place: ChartPlace,
  { say }: Speech = inEnglish,
): readonly Primitive[] {
  const shown = points.flatMap(({ name, loss: { dc, total } }) =>
    dc === null || total === null ? [] : [{ name: printable(name), dc, total }],
  );
  const frame = chart({
    id: 'losses',
    ...place,
    title: say('Winding loss at the points of the duty'),
    x: {
      from: -0.5,
      to: shown.length - 0.5,
      round: false,
      ticks: shown.map(({ name }, index) => ({ value: index, name })),
    },
    y: { from: 0, to: 1.1 * Math.max(...shown.map(({ total }) => total)) },
    xName: say('point of the duty'),
    yName: say(
      '{0}; hatched: by eddies, harmonics and the field of the rotor',
      withShownUnit(say('loss'), 'copper.loss.total'),
    ),
  });
  const half = Math.min(7, 0.35 * (frame.x.at(1) - frame.x.at(0)));
  const columns = shown.flatMap(({ dc, total }, index) => {
    const id = `loss-${index + 1}`;
    const x = frame.x.at(index);
    const [left, right, bottom] = [x - half, x + half, frame.y.at(0)];
    const [middle, top] = [frame.y.at(dc), frame.y.at(total)];
    const further = { left, top, right, bottom: middle };
    return [
      ...(dc > 0 ? [filledShape(`${id}-direct`, 'column', [boxArea(left, middle, right, bottom)])] : []),
      ...(total > dc
        ? [
            pathShape(`${id}-further`, 'open-column', [
              boxOutline(left, top, right, middle),
              ...hatchParts(further, 0.9),
            ]),
          ]
        : []),
    ];
  });
  const values = shown.map(({ total }, index) =>
    text(
      `loss-${index + 1}-value`,
      'value',
      frame.x.at(index),
      frame.y.at(total) - 0.8,
      significant(inShownUnit('copper.loss.total', total), 4),
      { anchor: 'middle' },
    ),
  );
  return [...frame.items, ...columns, ...clearTexts(values, frame.texts, 0.05)];
}

function overTime(course: CycleHeat['course'], unit: number): Series['points'] {
  return course.map(({ time, temperature }) => ({ x: time / unit, y: temperature }));
}

/** Temperature of the hottest place, and of a core that follows, over the periodic cycle, with the borders of the points marked. */
export function cycleChart(
  heat: CycleHeat,
  { points }: DutyResult,
  place: ChartPlace,
  { say }: Speech = inEnglish,
): readonly Primitive[] {
  const total = points.reduce((sum, { duration }) => sum + duration, 0);
  const [unit, name] = total > 7200 ? [3600, 'h'] : total > 300 ? [60, 'min'] : [1, 's'];
  const { items, frame } = drawLines({
    id: 'cycle',
    ...place,
    title: say('Temperature of the hottest place over the cycle'),
    series: [
      {
        id: 'temperature',
        name: heat.core ? say('bar') : '',
        role: 'curve',
        points: overTime(heat.course, unit),
      },
      {
        id: 'core',
        name: say('core'),
        role: 'second-curve',
        points: heat.core ? overTime(heat.core.course, unit) : [],
      },
    ],
    xName: say('time in {0}', name),
    yName: withShownUnit(say('temperature'), 'duty.cycle.hotSpot'),
  });
  let start = 0;
  const borders = points.slice(0, -1).map(({ duration }) => {
    start += duration;
    const x = frame.x.at(start / unit);
    return [x, frame.field.top, x, frame.field.bottom];
  });
  return borders.length === 0 ? items : [...items, pathShape('cycle-points', 'reference-circle', borders)];
}
