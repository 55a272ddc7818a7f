// Takes its time: solves the heat of all paths, steady and over a cycle, for each statement that is left out.
import { describe, expect, it } from 'vitest';
import { examples } from '../support/files.ts';
import { study } from '../support/study.ts';
import { withMore } from '../support/tries.ts';

// Which figures are null without one of the statements about further losses and the heat of core and end
// winding, worked out by hand: a core that the bars heat settles by what cools it and needs its heat capacity
// only over time; losses that are not stated are not there, and leave all others known.

const full = examples.find(({ name }) => name === 'ramp-hoist.winding')!.text;

/** Places in the report that are null, points of the duty and limits taken together. */
function nullsOf(text: string): readonly string[] {
  const found = new Set<string>();
  const walk = (value: unknown, path: string): void => {
    if (value === null) found.add(path);
    else if (typeof value === 'object')
      for (const [key, part] of Object.entries(value))
        walk(part, Array.isArray(value) ? path : path === '' ? key : `${path}.${key}`);
  };
  const { copper, duty, emf, operation } = study(text).report({ orders: 1 });
  walk({ copper, duty, emf, operation }, '');
  return [...found].sort();
}

const cycle = ['duty.cycle.coreTemperature', 'duty.cycle.hotSpot'];
const steady = [
  ...['coreShare', 'coreTemperature', 'endShare', 'hotSpot', 'place', 'rise'].map(
    (name) => `copper.heat.${name}`,
  ),
  'duty.points.hotSpot',
];

const without: Readonly<Record<string, readonly string[]>> = {
  'core-heat': cycle,
  'core-cooling': [...steady, ...cycle],
  'coolant-temperature': [...steady, ...cycle],
  'current-ripple': ['copper.loss.harmonics', 'duty.points.loss.harmonics'],
  'bar-field': ['copper.loss.barField', 'duty.points.loss.barField'],
  'joint-resistance': [],
  'end-conductance': [],
};

// Those that take long are tried with more tries.
const isSlow = ([word]: readonly [string, unknown]) => word === 'bar-field' || word === 'joint-resistance';
const quick = Object.entries(without).filter((entry) => !isSlow(entry));
const slow = Object.entries(without).filter(isSlow);

describe('leaving out one statement about losses or heat', () => {
  const base = nullsOf(full);

  it.each(withMore(quick, slow))('%s: exactly what follows from it is null', (word, expected) => {
    const lines = full.split('\n');
    const left = lines.filter((line) => !line.trimStart().startsWith(`${word} `));
    expect(left).toHaveLength(lines.length - 1);
    const added = nullsOf(left.join('\n')).filter((path) => !base.includes(path));
    expect(added).toEqual([...expected].sort());
  });
});
