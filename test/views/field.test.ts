// Takes its time: draws large windings.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { factorRows } from '../../core/analysis/factors/factors.ts';
import { toothMmf, workingWaveAmplitude } from '../../core/analysis/mmf.ts';
import { gatherFacts } from '../../core/facts/facts.ts';
import { type Box, textBox } from '../../core/picture/bounds.ts';
import type { Picture, Text } from '../../core/picture/picture.ts';
import { fieldPicture } from '../../core/views/field/field.ts';
import { waveAt, workingWave } from '../../core/views/field/wave.ts';
import type { Winding } from '../../core/winding/model.ts';
import { flat } from '../picture/checkPicture.ts';
import { crossedTexts } from '../sheets/checkSheet.ts';
import { farthest } from '../support/near.ts';
import { study } from '../support/study.ts';
import {
  expectGood,
  pathOf,
  pathsOf,
  specificationOf,
  textOf,
  textsOf,
  valuesAtHeight,
} from './chartReading.ts';
import { fromTable, generated, type WindingRequest } from './windings.ts';

function draw(winding: Winding, instant = 0, text = ''): Picture {
  const facts = gatherFacts(specificationOf(text), winding, { kind: 'none', why: 'not-said' });
  return expectGood(fieldPicture({ title: 'Sluice fan', facts, instant }));
}

const amperes = (current: number) => `machine { current ${current} A }\nconnect { star }`;

const cases: readonly WindingRequest[] = [
  { slots: 48, poles: 8, layers: 4, span: 6 },
  { slots: 72, poles: 8, layers: 4, span: 8, stagger: 1 },
  { slots: 12, poles: 10, layers: 2, span: 1 },
  { slots: 30, poles: 8, layers: 2, span: 3 },
  { slots: 36, poles: 4, layers: 1, span: 9 },
  { slots: 40, poles: 8, phases: 5, layers: 2, span: 5 },
  { slots: 72, poles: 6, phases: 6, apart: 30, layers: 2, span: 10 },
  { slots: 480, poles: 32, layers: 4, span: 14, stagger: 1 },
  { slots: 240, poles: 4, layers: 2, span: 50 },
];

/** The drawn staircase: MMF between slots s and s + 1 at entry s, from the numbers beside the axis. */
function drawnStairs(picture: Picture): readonly number[] {
  const [points] = pathOf(picture, 'mmf-stairs').parts;
  const valueAt = valuesAtHeight(picture, 'mmf');
  return Array.from({ length: points!.length / 4 }, (_, step) => valueAt(points![4 * step + 1]!));
}

test.each(cases)(
  '$slots slots, $poles poles: each slot lifts the stairs by its ampere-conductors',
  (request) => {
    const winding = generated(request);
    const degrees = 35;
    const stairs = drawnStairs(draw(winding, degrees, amperes(100)));
    const { slots, layers, table, phases } = winding;
    const lifts: number[] = [];
    for (let slot = 1; slot < stairs.length; slot++) {
      let lift = 0;
      for (let layer = 0; layer < layers; layer++) {
        const cell = table.cells[layer * slots + slot - 1]!;
        const axis = phases.axes[Math.abs(cell) - 1]!;
        lift += Math.sign(cell) * 100 * Math.SQRT2 * Math.cos(((degrees - axis) * Math.PI) / 180);
      }
      lifts.push(lift);
    }
    const steps = stairs.slice(1).map((height, index) => height - stairs[index]!);
    expect(farthest(steps, lifts)).toBeLessThan(5e-4);
    expect(Math.max(...lifts)).toBeGreaterThan(1);
    // Zero mean, and the stairs meet themselves after the shown slots.
    expect(stairs[0]!).toBeCloseTo(stairs.at(-1)!, 3);
    const mean = stairs.slice(1).reduce((sum, value) => sum + value, 0) / (stairs.length - 1);
    expect(mean).toBeCloseTo(0, 3);
  },
);

test.each(cases)(
  '$slots slots, $poles poles: the overlaid wave is the part of order p of the stairs',
  (request) => {
    const winding = generated(request);
    const { slots, polePairs } = winding;
    const teeth = toothMmf(winding, 1)!;
    const wave = workingWave(winding, 1);
    expect(Math.hypot(wave.re, wave.im)).toBeCloseTo(workingWaveAmplitude(winding, 1), 9);
    for (const instant of [0, 0.4, 2]) {
      // Exact integrals of the staircase against cos and sin of p theta, tooth by tooth.
      let [cos, sin] = [0, 0];
      for (let tooth = 0; tooth < slots; tooth++) {
        const value = teeth.re[tooth]! * Math.cos(instant) - teeth.im[tooth]! * Math.sin(instant);
        const [from, to] = [tooth, tooth + 1].map((slot) => (polePairs * 2 * Math.PI * slot) / slots) as [
          number,
          number,
        ];
        cos += (value * (Math.sin(to) - Math.sin(from))) / polePairs / Math.PI;
        sin -= (value * (Math.cos(to) - Math.cos(from))) / polePairs / Math.PI;
      }
      for (const theta of [0, 0.3, 1.1, 4])
        expect(waveAt(wave, theta, instant)).toBeCloseTo(
          cos * Math.cos(polePairs * theta) + sin * Math.sin(polePairs * theta),
          8,
        );
    }
  },
);

test('blocks of one width say their phase alike, however wide its name is', () => {
  const facts = gatherFacts(specificationOf(''), generated({ slots: 48, poles: 8, layers: 4, span: 6 }), {
    kind: 'none',
    why: 'not-said',
  });
  const named = (width: number) => {
    const picture = fieldPicture({ title: 'Sluice fan', facts, instant: 0, room: { width, height: 150 } });
    return textsOf(picture).flatMap(({ id, text }) => (/^strip-.*-name$/.test(id) ? [text] : []));
  };
  const wide = named(260);
  expect(new Set(wide)).toEqual(new Set(['+U', '\u2212U', '+V', '\u2212V', '+W', '\u2212W']));
  for (let width = 60; width < 260; width += 10) {
    const names = named(width);
    expect([0, wide.length]).toContain(names.length);
    expect(new Set(names.map((name) => name.length)).size).toBeLessThanOrEqual(1);
  }
});

test('the words tell the currents of the instant: V lags U by a third of a turn, W by two', () => {
  const words = textsOf(draw(generated({ slots: 12, poles: 4, layers: 2, span: 3 }), 30))
    .map(({ text }) => text)
    .join('\n');
  expect(words).toContain('currents over their peak: U 0.87, V 0.00, W \u22120.87');
});

test('the working wave has the amplitude of the textbook formula', () => {
  // 1.3505 N kw I / p (m = 3; e.g. Pyrhonen ch. 2): N = 64 turns in series, kw = 0.9659, I = 210 A, p = 4.
  const winding = generated({ slots: 48, poles: 8, layers: 4, span: 6 });
  const picture = draw(winding, 0, amperes(210));
  const amplitude = (1.3505 * 32 * 0.9659 * 210) / 4;
  const words = textOf(picture, 'mmf-legend-wave-name').text;
  expect(Number(/, ([\d.]+) A$/.exec(words)![1])).toBeCloseTo(amplitude, -1);
  expect(Math.abs(Number(/, ([\d.]+) A$/.exec(words)![1]) / amplitude - 1)).toBeLessThan(5e-4);
});

test('columns are as high as the winding factors and waves', () => {
  const winding = generated({ slots: 12, poles: 10, layers: 2, span: 1 });
  const picture = draw(winding);
  const factorAt = valuesAtHeight(picture, 'factors');
  for (const { order, winding: factor } of factorRows(winding, 40)) {
    if (factor < 5e-4) continue;
    const [box] = pathOf(picture, `factor-${order}`).parts;
    expect(factorAt(box![1]!)).toBeCloseTo(factor, 6);
    expect(factorAt(box![5]!)).toBeCloseTo(0, 6);
  }
  // Published for 12 slots, 10 poles: kw1 = 0.933 (tooth coils, two layers).
  expect(textOf(picture, 'factor-5-value').text).toBe('0.933');
  // Waves of orders 5 and 7 have equal factors, so that amplitudes go as 1/order: 5/7 = 71.4 %.
  expect(textOf(picture, 'wave-7-backward-value').text).toBe('71.4');
  const waveHeight = valuesAtHeight(picture, 'waves');
  expect(waveHeight(pathOf(picture, 'wave-7-backward').parts[0]![1]!)).toBeCloseTo(500 / 7, 3);
});

test('waves with and against the working wave differ in shape, not only in color', () => {
  const picture = draw(generated({ slots: 12, poles: 10, layers: 2, span: 1 }));
  // Orders 1 and 7 run against order 5 in this winding (slot harmonics 12 k - 5 do, 12 k + 5 do not).
  for (const order of [1, 7, 19]) {
    const hatched = pathOf(picture, `wave-${order}-backward`);
    expect(hatched.filled).toBe(false);
    expect(hatched.parts.length).toBeGreaterThan(3);
    const [tip, , tail] = pathOf(picture, `wave-${order}-backward-arrow`).parts[0]!;
    expect(tip!).toBeLessThan(tail!);
  }
  for (const order of [5, 17, 29]) {
    expect(pathOf(picture, `wave-${order}-forward`).filled).toBe(true);
    const [tip, , tail] = pathOf(picture, `wave-${order}-forward-arrow`).parts[0]!;
    expect(tip!).toBeGreaterThan(tail!);
  }
  // In words, too.
  expect(picture.description).toMatch(/order 7: factor 0\.933, wave 71\.4 % backward/);
  expect(picture.description).toMatch(/order 17: factor 0\.933, wave 29\.4 % forward/);
});

test.each(cases)(
  '$slots slots, $poles poles: the phasor polygon closes round a circle of the wave',
  (request) => {
    const winding = generated(request);
    const picture = draw(winding);
    const [sides] = pathOf(picture, 'polygon-sides').parts;
    expect(sides!.slice(-2)).toEqual(sides!.slice(0, 2));
    const teeth = toothMmf(winding, 1)!;
    const corners = sides!.length / 2 - 1;
    expect(winding.slots % corners).toBe(0);
    const [circle] = pathOf(picture, 'polygon-circle').parts;
    const middle = {
      x: (Math.max(...even(circle!)) + Math.min(...even(circle!))) / 2,
      y: (Math.max(...odd(circle!)) + Math.min(...odd(circle!))) / 2,
    };
    const radius = Math.hypot(circle![0]! - middle.x, circle![1]! - middle.y);
    const scale = radius / workingWaveAmplitude(winding, 1);
    let sum = 0;
    const [drawn, wanted]: [number[], number[]] = [[], []];
    for (let tooth = 0; tooth < corners; tooth++) {
      const [x, y] = [sides![2 * tooth]! - middle.x, sides![2 * tooth + 1]! - middle.y];
      drawn.push(x, -y);
      wanted.push(scale * teeth.re[tooth]!, scale * teeth.im[tooth]!);
      sum += x * x + y * y;
    }
    expect(farthest(drawn, wanted)).toBeLessThan(5e-7);
    // Differential leakage read off the drawing: mean square of the corners over the circle's, less 1.
    expect(sum / corners / radius ** 2 - 1).toBeCloseTo(
      gatherFacts(specificationOf(''), winding, { kind: 'none', why: 'not-said' }).differentialLeakage()!,
      6,
    );
  },
);

const even = (values: readonly number[]) => values.filter((_, index) => index % 2 === 0);
const odd = (values: readonly number[]) => values.filter((_, index) => index % 2 === 1);

test('the wave runs: a sixth of a period later it stands a sixth of a pole pair further', () => {
  const winding = generated({ slots: 48, poles: 8, layers: 2, span: 6 });
  const [now, later] = [drawnStairs(draw(winding, 10)), drawnStairs(draw(winding, 70))];
  // 12 slots a pole pair, running with the slot numbers.
  for (let slot = 3; slot <= 48; slot++) expect(later[slot]!).toBeCloseTo(now[slot - 2]!, 6);
  expect(drawnStairs(draw(winding, 370))).toEqual(now.map((value) => expect.closeTo(value, 6)));
  expect(
    textsOf(draw(winding))
      .map(({ text }) => text)
      .join(' '),
  ).toContain('runs with the slot numbers');
});

test('the axis stays the same while the wave runs', () => {
  const winding = generated({ slots: 30, poles: 8, layers: 2, span: 3 });
  const numbers = (instant: number) =>
    textsOf(draw(winding, instant))
      .filter(({ id }) => id.startsWith('mmf-y-'))
      .map(({ text, y }) => `${text} ${y}`);
  expect(numbers(77)).toEqual(numbers(0));
});

test('many poles show one repetition and say so', () => {
  const picture = draw(generated({ slots: 480, poles: 32, layers: 4, span: 14, stagger: 1 }));
  expect(drawnStairs(picture)).toHaveLength(31);
  expect(
    textsOf(picture)
      .map(({ text }) => text)
      .join(' '),
  ).toContain('Slots 1 to 30 of 480');
  expect(pathsOf(picture, 'strip-').length).toBeGreaterThan(10);
});

test('without balance of the currents there is no staircase, and it says so', () => {
  const cells = new Int8Array(12);
  cells[0] = 1;
  const picture = draw(fromTable({ slots: 12, layers: 1, cells }, 4, { kind: 'rows' }));
  expect(textOf(picture, 'no-mmf').text).toContain('do not add up to zero');
  expect(() => draw(generated(cases[0]!), Number.NaN)).toThrow(RangeError);
});

test.each(['harbor-ferry-pod-drive', 'tidal-pump', 'lock-gate-winch', 'dredge-pump', 'bow-thruster'])(
  'values of %s stand apart from each other and from the axes, numbers of the polygon beside its lines',
  (name) => {
    const { facts, title } = study(
      readFileSync(join(import.meta.dirname, `../../examples/${name}.winding`), 'utf8'),
    );
    const items = flat(fieldPicture({ title, facts: facts! }).items);
    const texts = items.filter((item): item is Text => item.kind === 'text');
    const values = texts.filter(({ role }) => role === 'value').map(textBox);
    expect(values.length).toBeGreaterThan(5);
    const numbers = texts.filter(({ role }) => role === 'axis-number').map(textBox);
    const near = (one: Box, other: Box) =>
      one.left < other.right + 0.15 &&
      other.left < one.right + 0.15 &&
      one.top < other.bottom + 0.15 &&
      other.top < one.bottom + 0.15;
    values.forEach((value, index) => {
      expect(values.slice(index + 1).some((other) => near(value, other))).toBe(false);
      expect(numbers.some((other) => near(value, other))).toBe(false);
    });
    const polygon = items.filter(({ id }) => /^polygon-(\d+|sides|circle|cross)$/.test(id));
    expect(polygon.length).toBeGreaterThan(5);
    expect(crossedTexts({ width: 1, height: 1, title, description: '', items: polygon })).toEqual([]);
  },
);
