import { expect, test } from 'vitest';
import { electricalFrequency } from '../../core/analysis/machineInputs.ts';
import { copper } from '../../core/copper/copper.ts';
import { copperCurves } from '../../core/copper/curves.ts';
import { missing, orNull } from '../../core/figures/figure.ts';
import type { Picture, Primitive } from '../../core/picture/picture.ts';
import { heatChart } from '../../core/views/chart/heatChart.ts';
import {
  acRatioByLayerChart,
  acRatioCurveChart,
  leanCostChart,
  leanStiffnessChart,
  leanStressChart,
} from '../../core/views/copper/charts.ts';
import { copperPicture } from '../../core/views/copper/copper.ts';
import type { Winding } from '../../core/winding/model.ts';
import { expectGood, pathOf, specificationOf, textOf, textsOf, valuesAtHeight } from './chartReading.ts';
import { generated } from './windings.ts';

const drum = `machine { slots 48 \n poles 8 \n gap both \n bore 250 mm \n outside 310 mm \n stack 120 mm
speed 1300 rpm \n current 200 A \n flux 4 mWb \n winding-temperature 120 degC \n end-temperature 90 degC
air-gap 1 mm \n magnet-height 5 mm }
slot a b { width 6 mm \n depth 9 mm \n opening 3 mm \n opening-height 6 mm }
slot c d { width 6 mm \n depth 9 mm \n opening 3 mm \n opening-height 6 mm }
bar { width 5 mm \n height 4 mm \n coating 0.1 mm \n metal copper }
connect { star \n route paths 1 }`;

function draw(winding: Winding, text: string): Picture {
  const specification = specificationOf(text);
  const unsaid = missing('connect route or written paths');
  const input = { winding, specification, connected: unsaid, space: unsaid, windingFactor: 0.95 };
  return expectGood(
    copperPicture({
      title: 'Cable-ferry drum drive',
      winding,
      result: copper(input),
      curves: copperCurves(input),
      frequency: orNull(electricalFrequency(specification, winding)),
    }),
  );
}

const leaning = () => generated({ slots: 48, poles: 8, layers: 4, span: 6, lean: [7.5, 7.5, -7.5, -7.5] });

test('the copper of a complete text has all charts it can have, and names what the others need', () => {
  const picture = draw(leaning(), drum);
  for (const id of ['ac-layers', 'ac-curve', 'heat', 'lean-cost', 'lean-stiffness', 'lean-stress'])
    expect(textOf(picture, `${id}-title`).text).not.toBe('');
  expect(textOf(picture, 'ac-curve-mark-name').text).toBe('86.667 Hz');
  expect(textOf(picture, 'lean-cost-mark-name').text).toBe('as written');
});

test('an empty text draws nothing but what it needs', () => {
  const picture = draw(generated({ slots: 12, poles: 10, layers: 2, span: 1 }), '');
  expect(textOf(picture, 'ac-layers-chart-needs').text).toContain('bar height');
  expect(textOf(picture, 'heat-chart-needs').text).toContain('machine end-temperature');
});

test('charts about lean stand only where bars lean or could: between two gaps', () => {
  const straight = generated({ slots: 48, poles: 8, layers: 4, span: 6 });
  const leanIds = (picture: Picture) =>
    textsOf(picture).flatMap(({ id }) => (id.startsWith('lean-') ? [id] : []));
  expect(leanIds(draw(straight, drum))).toContain('lean-stiffness-title');
  expect(leanIds(draw(straight, drum.replace('gap both', 'gap inner')))).toEqual([]);
  expect(leanIds(draw(straight, ''))).toEqual([]);
  const picture = draw(leaning(), '');
  expect(textOf(picture, 'lean-stiffness-chart-needs').text).toContain('bar width');
});

const place = { left: 6, top: 6, width: 126, height: 76 };

function pictureOf(items: readonly Primitive[]): Picture {
  const description = 'A chart of the copper, drawn by itself for this test.';
  return expectGood({ width: 140, height: 90, title: 'chart', description, items });
}

test('columns are as high as the ratios; a layer without bars has none', () => {
  const ratios = [1.31, 2.75, null, 9.125];
  const picture = pictureOf(acRatioByLayerChart(ratios, place));
  const valueAt = valuesAtHeight(picture, 'ac-layers');
  for (const [layer, ratio] of ratios.entries()) {
    const id = `ac-layer-${'abcd'[layer]}`;
    if (ratio === null) expect(() => pathOf(picture, id)).toThrow(RangeError);
    else {
      expect(valueAt(pathOf(picture, id).parts[0]![1]!)).toBeCloseTo(ratio, 6);
      expect(textOf(picture, `${id}-value`).text).toBe(ratio.toFixed(3));
    }
  }
  expect(valueAt(pathOf(picture, 'ac-layers-one').parts[0]![1]!)).toBeCloseTo(1, 6);
  pictureOf(
    acRatioByLayerChart(
      Array.from({ length: 26 }, (_, layer) => 1 + layer / 7),
      place,
    ),
  );
});

test('the curve against frequency leaves 0 Hz out and goes through its samples', () => {
  const samples = [0, 50, 100, 200, 400].map((frequency) => ({
    frequency,
    slot: 1 + (frequency / 200) ** 2,
    layers: [1 + frequency / 100, null, 1],
  }));
  const picture = pictureOf(acRatioCurveChart(samples, 150, place));
  const valueAt = valuesAtHeight(picture, 'ac-curve');
  const [points] = pathOf(picture, 'ac-curve-slot').parts;
  expect(points).toHaveLength(8);
  samples.slice(1).forEach(({ slot }, index) => {
    expect(valueAt(points![2 * index + 1]!)).toBeCloseTo(slot, 6);
  });
  // Of 26 layers, names of some; none out of the box.
  pictureOf(
    acRatioCurveChart(
      samples.map((sample) => ({
        ...sample,
        layers: Array.from({ length: 26 }, (_, layer) => 1 + layer / 50),
      })),
      150,
      place,
    ),
  );
  // Octaves are equally wide.
  expect(points![2]! - points![0]!).toBeCloseTo(points![4]! - points![2]!, 9);
  expect(textOf(picture, 'ac-curve-a-name').text).toBe('a');
  expect(() => textOf(picture, 'ac-curve-b-name')).toThrow(RangeError);
});

test('temperature along the bar: highest in the middle as the samples say', () => {
  const samples = Array.from({ length: 21 }, (_, index) => {
    const position = 0.16 * (index / 20 - 0.5);
    return { position, temperature: 95.04 + 30 * (1 - (position / 0.08) ** 2) };
  });
  const picture = pictureOf(heatChart({ samples, layer: 2, active: 0.16 }, place));
  expect(textOf(picture, 'heat-title').text).toContain('layer c: at most 125.0 \u00b0C');
  const valueAt = valuesAtHeight(picture, 'heat');
  const [points] = pathOf(picture, 'heat-bar').parts;
  expect(valueAt(points![21]!)).toBeCloseTo(125.04, 6);
  expect(valueAt(points![1]!)).toBeCloseTo(95.04, 6);
  expect(() => textOf(picture, 'heat-overhang-mark-name')).toThrow(RangeError);
  const longer = pictureOf(heatChart({ samples, layer: 2, active: 0.1 }, place));
  const [from, to] = ['slot', 'overhang'].map((part) => pathOf(longer, `heat-${part}-mark`).parts[0]![0]!);
  const [curve] = pathOf(longer, 'heat-bar').parts;
  // 100 of the 160 mm lie in the stack.
  expect((to! - from!) / (curve!.at(-2)! - curve![0]!)).toBeCloseTo(100 / 160, 6);
});

test('lean: every quantity starts from straight bars; missing ones are left out', () => {
  const rows = [0, 1, 2].map((slots) => ({
    slots,
    skewFactor: 1 - 0.01 * slots * slots,
    barLength: 0.2 + 0.001 * slots,
    resistanceRatio: slots === 1 ? null : 1 + 0.005 * slots,
    stiffness: 2.5e5 * slots,
    stress: slots === 1 ? null : 4e6 * slots,
    bending: 3e6 + 1e6 * slots,
  }));
  const cost = pictureOf(leanCostChart(rows, 1, place));
  const valueAt = valuesAtHeight(cost, 'lean-cost');
  const lengths = pathOf(cost, 'lean-cost-length').parts[0]!;
  expect(valueAt(lengths[5]!)).toBeCloseTo(0.202 / 0.2, 6);
  expect(pathOf(cost, 'lean-cost-resistance').parts[0]).toHaveLength(4);
  const gives = pictureOf(leanStiffnessChart(rows, null, place));
  expect(textOf(gives, 'lean-stiffness-name-y').text).toContain('kNm/rad');
  expect(
    valuesAtHeight(gives, 'lean-stiffness')(pathOf(gives, 'lean-stiffness-cage').parts[0]![5]!),
  ).toBeCloseTo(500, 4);
  const stress = pictureOf(leanStressChart(rows, 0, place));
  const stressAt = valuesAtHeight(stress, 'lean-stress');
  expect(pathOf(stress, 'lean-stress-axial').parts[0]).toHaveLength(4);
  expect(stressAt(pathOf(stress, 'lean-stress-axial').parts[0]![3]!)).toBeCloseTo(8, 6);
  expect(stressAt(pathOf(stress, 'lean-stress-bending').parts[0]![1]!)).toBeCloseTo(3, 6);
  expect(textsOf(stress).some(({ id }) => id.includes('mark'))).toBe(false);
});
