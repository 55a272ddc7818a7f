import type { AcSample } from '../../copper/curves.ts';
import type { LeanTradeRow } from '../../copper/leanTrade.ts';
import type { ValuesOf } from '../../figures/groups.ts';
import { inEnglish, type Speech } from '../../figures/speech.ts';
import { figureText, inShownUnit, withShownUnit } from '../../language/figureText.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import { fixed } from '../../language/numbers.ts';
import { filledShape, pathShape, text } from '../../picture/make.ts';
import { boxArea } from '../../picture/outlines.ts';
import type { Primitive, Text } from '../../picture/picture.ts';
import type { ChartPlace } from '../chart/cells.ts';
import { type Chart, chart } from '../chart/chart.ts';
import { clearTexts } from '../chart/labels.ts';
import { drawLines, drawMark, type Series } from '../chart/lines.ts';

/** A row of the lean trade; null where data lack. */
export type LeanTradeValues = ValuesOf<LeanTradeRow>;

/** AC over DC resistance in the slot, a column for each layer; null for a layer without bars. */
export function acRatioByLayerChart(
  ratios: readonly (number | null)[],
  place: ChartPlace,
  { say }: Speech = inEnglish,
): readonly Primitive[] {
  const most = ratios.reduce<number>((largest, ratio) => Math.max(largest, ratio ?? 0), 1);
  const frame = chart({
    id: 'ac-layers',
    ...place,
    title: say('AC resistance by layers'),
    x: {
      from: -0.5,
      to: ratios.length - 0.5,
      round: false,
      ticks: ratios.map((_, layer) => ({ value: layer, name: layerLetter(layer) })),
    },
    y: { from: 0, to: 1.1 * most },
    xName: say('layer, a nearest the axis'),
    yName: say('AC over DC resistance in the slot'),
  });
  const half = Math.min(7, 0.35 * (frame.x.at(1) - frame.x.at(0)));
  const columns: Primitive[] = [];
  const values: Text[] = [];
  ratios.forEach((ratio, layer) => {
    if (ratio === null) return;
    const [x, top] = [frame.x.at(layer), frame.y.at(ratio)];
    const id = `ac-layer-${layerLetter(layer)}`;
    const box = boxArea(x - half, top, x + half, frame.field.bottom);
    columns.push(filledShape(id, 'column', [box]));
    values.push(text(`${id}-value`, 'value', x, top - 0.8, fixed(ratio, 3), { anchor: 'middle' }));
  });
  const one = frame.y.at(1);
  return [
    ...frame.items,
    ...columns,
    pathShape('ac-layers-one', 'reference-circle', [[frame.field.left, one, frame.field.right, one]]),
    ...clearTexts(values, frame.texts, 0.05),
  ];
}

/** AC over DC resistance against frequency on a logarithmic axis; `stated` is the machine's frequency, Hz. */
export function acRatioCurveChart(
  samples: readonly AcSample[],
  stated: number | null,
  place: ChartPlace,
  { say }: Speech = inEnglish,
): readonly Primitive[] {
  const shown = samples.filter(({ frequency }) => frequency > 0);
  const layers = shown[0]?.layers.length ?? 0;
  const ofLayers = Array.from({ length: layers }, (_, layer): Series => {
    const points = shown.flatMap(({ frequency, layers: ratios }) => {
      const ratio = ratios[layer];
      return ratio === null || ratio === undefined ? [] : [{ x: frequency, y: ratio }];
    });
    return { id: layerLetter(layer), name: layerLetter(layer), role: 'quiet-curve', points };
  });
  const slot: Series = {
    id: 'slot',
    name: say('all'),
    role: 'curve',
    points: shown.map(({ frequency, slot: ratio }) => ({ x: frequency, y: ratio })),
  };
  const { items, frame } = drawLines({
    id: 'ac-curve',
    ...place,
    title: say('AC resistance against frequency'),
    x: { logarithmic: true },
    xGrid: true,
    series: layers > 1 ? [...ofLayers, slot] : [slot],
    xName: withShownUnit(say('frequency'), 'emf.frequency'),
    yName: say('AC over DC resistance in the slot, by layers and for all bars'),
  });
  if (stated === null) return items;
  return [...items, ...drawMark('ac-curve', frame, stated, figureText('emf.frequency', stated))];
}

/** What lean costs: skew factor, resistance and bar length against straight bars; `present` in slot pitches. */
export function leanCostChart(
  rows: readonly LeanTradeValues[],
  present: number | null,
  place: ChartPlace,
  { say }: Speech = inEnglish,
): readonly Primitive[] {
  const straight = rows.find(({ slots }) => slots === 0)?.barLength ?? null;
  const series: readonly Series[] = [
    {
      id: 'resistance',
      name: say('resistance'),
      role: 'curve',
      marker: 'square',
      points: pointsOf(rows, ({ resistanceRatio }) => resistanceRatio),
    },
    {
      id: 'length',
      name: say('bar length'),
      role: 'second-curve',
      marker: 'triangle',
      points: pointsOf(rows, ({ barLength }) =>
        barLength === null || straight === null ? null : barLength / straight,
      ),
    },
    {
      id: 'skew',
      name: say('working wave'),
      role: 'curve',
      marker: 'dot',
      points: pointsOf(rows, ({ skewFactor }) => skewFactor),
    },
  ];
  const { items, frame } = drawLines({
    id: 'lean-cost',
    ...place,
    title: say('What lean costs'),
    series,
    xName: say('lean over the stack in slot pitches'),
    yName: say('against straight bars'),
  });
  return [...items, ...drawPresent('lean-cost', frame, present, { say })];
}

/** What lean gives: torsional stiffness of the bar cage over the lean in slot pitches. */
export function leanStiffnessChart(
  rows: readonly LeanTradeValues[],
  present: number | null,
  place: ChartPlace,
  { say }: Speech = inEnglish,
): readonly Primitive[] {
  const points = pointsOf(
    rows,
    ({ stiffness }) => stiffness && inShownUnit('copper.cage.stiffness', stiffness),
  );
  const { items, frame } = drawLines({
    id: 'lean-stiffness',
    ...place,
    title: say('What lean gives'),
    series: [{ id: 'cage', name: '', role: 'curve', marker: 'diamond', points }],
    xName: say('lean over the stack in slot pitches'),
    yName: withShownUnit(say('torsional stiffness of the bars'), 'copper.cage.stiffness'),
  });
  return [...items, ...drawPresent('lean-stiffness', frame, present, { say })];
}

/** Stresses of the bars at the machine's torque over the lean in slot pitches. */
export function leanStressChart(
  rows: readonly LeanTradeValues[],
  present: number | null,
  place: ChartPlace,
  { say }: Speech = inEnglish,
): readonly Primitive[] {
  const stressOf = (read: (row: LeanTradeValues) => number | null) =>
    pointsOf(rows, (row) => {
      const stress = read(row);
      return stress && inShownUnit('copper.cage.stress', stress);
    });
  const { items, frame } = drawLines({
    id: 'lean-stress',
    ...place,
    title: say('Stress at the machine\u2019s torque'),
    series: [
      {
        id: 'axial',
        name: say('along the bars'),
        role: 'curve',
        marker: 'triangle',
        points: stressOf(({ stress }) => stress),
      },
      {
        id: 'bending',
        name: say('bending at the ends'),
        role: 'second-curve',
        marker: 'square',
        points: stressOf(({ bending }) => bending),
      },
    ],
    x: { from: 0 },
    xName: say('lean over the stack in slot pitches'),
    yName: withShownUnit(say('stress of the bars'), 'copper.cage.stress'),
  });
  return [...items, ...drawPresent('lean-stress', frame, present, { say })];
}

/** The lean the text gives, where the bars lean at all. */
function drawPresent(
  id: string,
  frame: Chart,
  present: number | null,
  { say }: Pick<Speech, 'say'>,
): readonly Primitive[] {
  return present === null || present === 0 ? [] : drawMark(id, frame, present, say('as written'));
}

function pointsOf(
  rows: readonly LeanTradeValues[],
  read: (row: LeanTradeValues) => number | null,
): readonly { readonly x: number; readonly y: number }[] {
  return rows.flatMap((row) => {
    const y = read(row);
    return y === null || !Number.isFinite(y) ? [] : [{ x: row.slots, y }];
  });
}
