// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import { compare } from '../../core/review/compare.ts';
import { comparedFilesMarkdown } from '../../core/review/markdown/markdown.ts';
import { tellinglyMoved } from '../../core/review/numbers/scales.ts';
import { quantityName } from '../../core/review/words.ts';
import { soundExamples } from '../support/files.ts';
import { study } from '../support/study.ts';
import { generatedFerry } from './texts.ts';

const numbers = (old: string, now: string) => compare(study(old), study(now)).numbers;

describe('what one text alone yields', () => {
  const pod = soundExamples.find(({ name }) => name === 'harbor-ferry-pod-drive.winding')!;
  /** A pole pair of it, in which paths are found at once. */
  const known = pod.text
    .replace('slots   48', 'slots   12')
    .replace('poles   8', 'poles   2')
    .replace('bore    162 mm', 'bore    40.5 mm');
  const [unsized, unjoined] = [
    known.replace(/end-straight +\S+ mm/, ''),
    known.replace('paths 2', 'paths 3'),
  ];
  const note = (text: string) =>
    `The leakage of the end windings is not known of the ${text} text: numbers that count it, as the synchronous inductance, are not compared.`;
  const counting = ['characteristic-current', 'operation.inductance.d', 'operation.inductance.q'];
  const told = (old: string, now: string) => {
    const { notes, numbers: moved } = compare(study(old), study(now));
    return {
      notes: notes.filter((each) => each.includes('end windings')),
      counting: moved.map(({ quantity }) => quantity).filter((quantity) => counting.includes(quantity)),
      others: moved.filter(({ old, new: now }) => old !== null && now !== null).length,
    };
  };

  it.each([
    ['sizes of bar ends', unsized],
    ['paths', unjoined],
  ])('is no change of the machine: the leakage of the end windings, without %s', (_, text) => {
    expect([known, unsized, unjoined]).toHaveLength(new Set([known, unsized, unjoined]).size);
    expect(told(text, known)).toMatchObject({ notes: [note('old')], counting: [] });
    expect(told(known, text)).toMatchObject({ notes: [note('new')], counting: [] });
  });

  it('hides nothing: without sizes of bar ends no number that both texts have moves', () => {
    expect(told(unsized, known).others).toBe(0);
  });

  it('is compared where neither text yields it', () => {
    const wider = unsized.replace('bore    40.5 mm', 'bore    41 mm');
    expect(told(unsized, wider)).toMatchObject({ notes: [], counting });
  });
});

describe('better and worse', () => {
  const resistance = (old: string, now: string) =>
    numbers(old, now).find(({ quantity }) => quantity === 'phase-resistance');

  it('is no difference of a ten-thousandth, which no shop can make or measure', () => {
    const warm = /winding-temperature \d+ degC/;
    const atDegrees = (text: string, degrees: string) =>
      text.replace(warm, `winding-temperature ${degrees} degC`);
    const pod = soundExamples.find(({ name }) => name === 'harbor-ferry-pod-drive.winding')!;
    // A pole pair of it: all sizes that resistance takes.
    const pair = pod.text
      .replace('slots   48', 'slots   12')
      .replace('poles   8', 'poles   2')
      .replace('bore    162 mm', 'bore    40.5 mm');
    expect(pair).toMatch(warm);
    const at = (degrees: string) => atDegrees(pair, degrees);
    // Resistance is linear in temperature, alpha 0.00393 (IEC 60028): 0.1 K is 0.03 %, 10 K is 2.8 %.
    const [little, much] = [resistance(at('120'), at('120.1')), resistance(at('120'), at('130'))];
    expect(little!.difference! / little!.old!).toBeCloseTo((0.1 * 0.00393) / (1 + 100 * 0.00393), 8);
    expect(little!.better).toBeNull();
    expect(much!.better).toBe(false);
    expect(resistance(at('130'), at('120'))!.better).toBe(true);
  });

  it.each<[string, number, number, boolean]>([
    ['winding-factor', 0.93301, 0.93303, false],
    ['winding-factor', 0.933, 0.932, true],
    ['winding-factor', 0.00001, 0.00003, false],
    ['winding-factor', 0, 0.0001, true],
    ['phase-resistance', 4.3e-3, 4.3009e-3, false],
    ['phase-resistance', 4.3e-3, 4.31e-3, true],
    ['jumpers', 4000, 4001, true],
    // A share of the kelvins, not of where the scale of degrees begins: 0.18 K at 80 °C.
    ['hot-spot-temperature', 79.709, 79.76, false],
    ['hot-spot-temperature', 79.7, 79.9, true],
    ['hot-spot-temperature', 0, 0.1, false],
    ['differential-leakage', 0.03, 0.03001, false],
    ['differential-leakage', 0.03, 0.0301, true],
  ])('%s from %f to %f is telling: %s', (quantity, old, now, telling) => {
    expect(tellinglyMoved(quantity, old, now)).toBe(telling);
    expect(tellinglyMoved(quantity, now, old)).toBe(telling);
  });

  it('has no rated current, which the text states, but what follows from it', () => {
    const more = generatedFerry.replace('current 210 A', 'current 220 A');
    const moved = (quantity: string) =>
      numbers(generatedFerry, more).find((number) => number.quantity === quantity)!;
    expect(moved('terminal-current')).toMatchObject({ old: 210, new: 220, better: null });
    expect(moved('current-density').better).toBe(false);
  });

  it('has a line voltage only where a limit says so', () => {
    const stronger = (text: string) => text.replace('4.1 mWb', '4.0 mWb');
    const voltage = (text: string) =>
      numbers(text, stronger(text)).find(({ quantity }) => quantity === 'line-voltage')!;
    expect(voltage(generatedFerry).difference).toBeLessThan(0);
    expect(voltage(generatedFerry).better).toBeNull();
    const limited = (limit: string) =>
      generatedFerry.replace('require {', `require {\n  line-voltage ${limit}`);
    expect(voltage(limited('<= 900 V')).better).toBe(true);
    expect(voltage(limited('>= 9 V')).better).toBe(false);
    const torque = numbers(generatedFerry, stronger(generatedFerry)).find(
      ({ quantity }) => quantity === 'torque',
    );
    expect(torque!.better).toBe(false);
  });
});

describe('better and worse at a point of the duty', () => {
  const at = (load: string, limit = '') =>
    `${generatedFerry.replace('require {', `require {\n  ${limit}`)}duty { point "ebb" speed 900 rpm ${load} for 2 min }\n`;
  const verdicts = (old: string, now: string, limit = '') =>
    Object.fromEntries(
      numbers(at(old, limit), at(now, limit))
        .filter(({ quantity }) => quantity.endsWith(' at "ebb"'))
        .map(({ quantity, better }) => [quantity.replace(/^duty\.points\.(.*) at .*/, '$1'), better]),
    );

  it('is as the register has it', () => {
    expect(verdicts('current 150 A', 'current 160 A')).toMatchObject({
      torque: true,
      current: false,
      adiabaticRise: false,
    });
  });

  it('is as a limit at that point has it, not one at the rated load', () => {
    expect(verdicts('current 150 A', 'current 160 A', 'torque at "ebb" <= 500 Nm').torque).toBe(false);
    expect(verdicts('current 150 A', 'current 160 A', 'torque <= 500 Nm').torque).toBe(true);
  });

  it('counts torque that brakes as much as torque that drives, and does not set one against the other', () => {
    expect(verdicts('torque -20 Nm', 'torque -25 Nm').torque).toBe(true);
    expect(verdicts('torque -20 Nm', 'torque 25 Nm').torque).toBeNull();
  });
});

describe('names of figures', () => {
  it('are words for every figure of every example, and no two alike', () => {
    const named = new Map<string, string>();
    for (const { text } of soundExamples)
      for (const number of compare(null, study(text)).numbers)
        if (number.quantity.includes('.')) named.set(number.quantity, quantityName(number));
    expect(named.size).toBeGreaterThan(40);
    for (const [path, words] of named) {
      expect(words, path).not.toMatch(/[.[\]]|[a-z][A-Z](?!\b)|\bac\b|copper:|undefined/);
      // More than the place taken apart into words.
      expect(words, path).not.toBe(
        path.replaceAll('.', ' ').replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`),
      );
    }
    expect(new Set(named.values()).size).toBe(named.size);
    expect(named.get('copper.acRatio.layers[1]')).toBe('AC ratio, layer a');
    expect(named.get('copper.section.barArea[4]')).toBe('bare conductor area of a bar, layer d');
  });
});

describe('a file that is new or deleted', () => {
  it.each(['added', 'deleted'] as const)('%s: lists its figures with one value each', (status) => {
    const studied = study(generatedFerry);
    const comparison = status === 'added' ? compare(null, studied) : compare(studied, null);
    const text = comparedFilesMarkdown([{ file: 'pod.winding', status, comparison }], 'main');
    const figures = text.slice(text.indexOf('<summary>Figures</summary>'));
    expect(figures).toContain('| winding factor, harmonic 1 | 0.9659 |');
    expect(figures).toMatch(/\| torque of the rated current at its angle \| [\d.]+ Nm \|/);
    // Relative to itself the working wave is always 100 %.
    expect(figures).not.toMatch(/wave-relative|pitch-factor|skew-factor/);
    expect(text).not.toMatch(/, new\b|dropped/);
  });
});
