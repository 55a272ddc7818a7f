import { expect, test } from 'vitest';
import { designFigures, keyFigures } from '../../core/report/figures.ts';
import { examples } from '../support/files.ts';
import { study } from '../support/study.ts';

const labels = (text: string) => designFigures(study(text).facts!).map(({ label }) => label);

test('the panel tells what a designer asks first: machine, winding, torque, balance, special joints, copper, heat', () => {
  const { text } = examples.find(({ name }) => name.startsWith('harbor-ferry-pod-drive'))!;
  const told = labels(text);
  const asked = [
    'Slots and poles',
    'Winding factor',
    'Torque of the rated current at its angle',
    'Line EMF of the fundamental, rms',
    'Phases',
    'Parallel paths',
    'Difference of the voltages of parallel paths',
    'Special joints of a phase',
    'Copper loss',
    'Hot spot',
    'Differential leakage',
    'Working wave',
  ];
  expect(told.filter((label) => asked.includes(label))).toEqual(asked);
  expect(new Set(told).size).toBe(told.length);
});

test('of a slot table alone it tells what the report does, in whatever order', () => {
  const text = 'winding "A"\nmachine { slots 12 poles 2 phases 3 }\nlayout { layers 2 span 5 }\n';
  const own = keyFigures(study(text).facts!).map(({ label }) => label);
  expect([...labels(text)].sort()).toEqual([...own].sort());
});
