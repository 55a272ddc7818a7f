import { expect, test } from 'vitest';
import { figureRegister } from '../../core/figures/register.ts';
import { designFigures, keyFigures } from '../../core/report/figures.ts';
import { examples } from '../support/files.ts';
import { study } from '../support/study.ts';

const labels = (text: string) => designFigures(study(text).facts!).map(({ label }) => label);

test('the panel tells what a designer asks first: which winding, how good, balanced, does it fit, what it gives, how hot', () => {
  const { text } = examples.find(({ name }) => name.startsWith('harbor-ferry-pod-drive'))!;
  const told = labels(text);
  const asked = [
    'Winding',
    'Winding factor',
    'Slots per pole and phase',
    'Phases',
    'Bare conductors in the slot',
    'Torque of the rated current at its angle',
    'Hot spot',
    'Line EMF of the fundamental, rms',
    'Current density',
    'Winding loss',
    'Parallel paths',
    'Difference of the voltages of parallel paths',
    'Special joints of a phase',
    'Differential leakage',
    'Working wave',
  ];
  expect(told.filter((label) => asked.includes(label))).toEqual(asked);
  expect(new Set(told).size).toBe(told.length);
});

test('which winding it is stands in one line', () => {
  const { text } = examples.find(({ name }) => name.startsWith('harbor-ferry-pod-drive'))!;
  expect(designFigures(study(text).facts!)[0]).toEqual({
    label: 'Winding',
    value: '48 slots, 8 poles, 3 phases, 4 layers, 192 bars',
  });
});

test('the shop measures cold what it can reach: between two terminals, of an open winding a phase', () => {
  const { text } = examples.find(({ name }) => name.startsWith('harbor-ferry-pod-drive'))!;
  const cold = (of: string) => labels(of).filter((label) => label.endsWith('at 20 \u00b0C'));
  expect(cold(text)).toEqual(['Resistance between two line terminals at 20 \u00b0C']);
  expect(cold(text.replace(/^ *star$/m, '  open'))).toEqual(['Resistance of a phase at 20 \u00b0C']);
});

test('of a slot table alone it tells what the report does, in whatever order', () => {
  const text = 'winding "A"\nmachine { slots 12 poles 2 phases 3 }\nlayout { layers 2 span 5 }\n';
  const own = keyFigures(study(text).facts!).map(({ label }) => label);
  const told = labels(text).flatMap((label) =>
    label === 'Winding' ? ['Slots and poles', 'Layers and bars'] : [label],
  );
  expect(told.sort()).toEqual([...own].sort());
});

test('no figure names a metal, which the text chooses', () => {
  const rows = Object.entries(figureRegister).map(([path, { words }]) => `${path}: ${words}`);
  expect(rows.filter((row) => /: .*copper/i.test(row))).toEqual([]);
});
