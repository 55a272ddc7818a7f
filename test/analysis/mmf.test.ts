import type { Complex } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { differentialLeakage } from '../../core/analysis/differentialLeakage.ts';
import { slotOpeningFactor } from '../../core/analysis/gap/slotOpening.ts';
import { mmf, mmfWaveform, slotCurrents, toothMmf, workingWaveAmplitude } from '../../core/analysis/mmf.ts';
import type { Winding } from '../../core/winding/model.ts';
import { phaseSystem } from '../../core/winding/phases.ts';
import { complex, fft } from '../support/mathematics.ts';
import { farthest } from '../support/near.ts';
import { referenceWave } from './reference.ts';
import { asRows, explicit, generated } from './windings.ts';

const uneven = explicit(2, ['+U +U -W . +V +V -U -U +W +W -V -V', '+U -W -W +V +V -U -U +W . -V -V +U']);

const cases: readonly [string, Winding][] = [
  ['integer q', generated(24, 4, 5)],
  ['fractional q', generated(30, 4, 7)],
  ['tooth coils, two layers', generated(12, 10, 1)],
  ['tooth coils, one layer', generated(12, 14, 1, { layers: 1 })],
  ['tooth coils, even orders', generated(9, 8, 1)],
  ['five phases', generated(20, 4, 5, { phases: phaseSystem(5) })],
  ['two sets 30 degrees apart', generated(24, 4, 5, { phases: phaseSystem(6, 30) })],
  ['written rows with two paths', { ...asRows(generated(24, 4, 5)), parallelPaths: 2 }],
  ['wide belts', generated(18, 4, 4, { belt: 120 })],
];

describe('the spectrum of the staircase', () => {
  // The magnitudes from mathjs' transform of M samples, M a multiple of Q, times sin(pi nu/M)/(pi nu/M).
  it.each(cases)('%s: agrees with a general-purpose library to 1e-10', (_, winding) => {
    const samplesPerSlot = 8;
    const samples = winding.slots * samplesPerSlot;
    const teeth = toothMmf(winding)!;
    const peak = mmfWaveform(teeth, 0);
    // A quarter of a period earlier the real part is the phasor's imaginary part.
    const quarter = mmfWaveform(teeth, -Math.PI / 2);
    const spectrum = fft(
      Array.from({ length: samples }, (_, i) => {
        const tooth = Math.floor(i / samplesPerSlot);
        return complex(peak[tooth]!, quarter[tooth]!);
      }),
    ) as Complex[];
    const highest = samples / 2 - 1;
    const { waves, runsWithSlotNumbers } = mmf(winding, { orders: highest });
    const size = (order: number, withNumbers: boolean) =>
      waves.find(
        (w) => w.order === order && (w.direction === 'forward') === (withNumbers === runsWithSlotNumbers),
      )?.amplitude ?? 0;
    const [found, wanted]: [number[], number[]] = [[], []];
    for (let order = 1; order <= highest; order++) {
      const held = Math.abs(Math.sin((Math.PI * order) / samples) / ((Math.PI * order) / samples));
      const of = (k: number) => (held * Math.hypot(spectrum[k]!.re, spectrum[k]!.im)) / samples;
      found.push(size(order, true), size(order, false));
      wanted.push(of(samples - order), of(order));
    }
    expect(farthest(found, wanted)).toBeLessThan(1e-10);
  });

  it.each([...cases, ['uneven rows', uneven] as const])('%s: agrees with the reference', (_, winding) => {
    const { waves, workingAmplitude, runsWithSlotNumbers } = mmf(winding);
    const p = winding.polePairs;
    expect(workingAmplitude).toBeCloseTo(Math.max(referenceWave(winding, p), referenceWave(winding, -p)), 10);
    expect(workingWaveAmplitude(winding)).toBeCloseTo(workingAmplitude, 12);
    const seen = new Map<number, number>();
    for (const wave of waves) {
      const signed = (wave.direction === 'forward') === runsWithSlotNumbers ? wave.order : -wave.order;
      seen.set(signed, wave.amplitude);
    }
    const relative = waves.map((wave) => wave.relative!);
    const shares = waves.map(({ amplitude }) => amplitude / workingAmplitude);
    expect(farthest(relative, shares)).toBeLessThan(5e-13);
    const highest = Math.max(4 * winding.slots, 20 * p);
    const orders = Array.from({ length: highest }, (_, index) => [index + 1, -index - 1]).flat();
    const found = orders.map((signed) => seen.get(signed) ?? 0);
    const reference = orders.map((signed) => referenceWave(winding, signed));
    expect(farthest(found, reference)).toBeLessThan(1e-9);
  });
});

describe('slot openings', () => {
  it('weaken amplitudes and the working wave alike', () => {
    const winding = generated(24, 4, 5);
    const opening = { width: 0.004, diameter: 0.12 };
    const open = mmf(winding, { opening });
    const plain = mmf(winding);
    open.waves.forEach((wave, i) => {
      const x = (wave.order * 0.004) / 0.12;
      expect(wave.amplitude).toBeCloseTo(plain.waves[i]!.amplitude * Math.abs(Math.sin(x) / x), 12);
      const atWork = Math.sin(2 / 30) / (2 / 30);
      expect(wave.relative).toBeCloseTo((plain.waves[i]!.relative! * Math.abs(Math.sin(x) / x)) / atWork, 12);
    });
    expect(slotOpeningFactor(10, 0, 0.1)).toBe(1);
    expect(() => slotOpeningFactor(10, 0.001, 0)).toThrow(RangeError);
  });
});

describe('differential leakage', () => {
  it.each(cases)('%s: the closed form is what the series comes to', (_, winding) => {
    const closed = differentialLeakage(winding)!;
    const working = mmf(winding).workingAmplitude;
    let series = -1;
    let before = -1;
    let added = 0;
    for (const upTo of [4, 16, 64].map((times) => times * winding.slots)) {
      for (; added < upTo; ) {
        added++;
        series += (referenceWave(winding, added) ** 2 + referenceWave(winding, -added) ** 2) / working ** 2;
      }
      // Always low, and the rest falls as one over the orders taken: terms are at most of the slots' size.
      expect(series).toBeGreaterThan(before);
      expect(series).toBeLessThan(closed);
      expect(closed - series).toBeLessThan((3 * (1 + closed) * winding.slots) / upTo);
      before = series;
    }
    expect(closed - series).toBeLessThan(0.01 * (1 + closed));
  });

  it.each(cases)('%s: equals the whole series, its orders summed in closed form', (_, winding) => {
    // The spectrum repeats with Q, and the sum over all k of 1/(r + k Q)^2 is (pi/Q)^2 / sin^2(pi r/Q)
    // (Abramowitz and Stegun 4.3.92).
    const { slots, polePairs } = winding;
    let sum = 0;
    for (let residue = 1; residue < slots; residue++) {
      const size = referenceWave(winding, residue) * residue;
      sum += (size * (Math.PI / slots)) ** 2 / Math.sin((Math.PI * residue) / slots) ** 2;
    }
    const working = Math.max(referenceWave(winding, polePairs), referenceWave(winding, -polePairs));
    expect(differentialLeakage(winding)).toBeCloseTo(sum / working ** 2 - 1, 9);
  });

  it('is unknown without a fundamental, or where slot currents do not add up to zero', () => {
    expect(differentialLeakage(explicit(4, ['+U -W +V -U +W -V']))).toBeNull();
    expect(differentialLeakage(explicit(2, ['+U -W +V -U +W .']))).toBeNull();
  });

  it('does not depend on paths, copies or which slot is the first', () => {
    const base = differentialLeakage(generated(12, 10, 1))!;
    expect(differentialLeakage(generated(36, 30, 1))).toBeCloseTo(base, 12);
    expect(differentialLeakage({ ...generated(12, 10, 1), parallelPaths: 2 })).toBeCloseTo(base, 12);
    const cells = generated(12, 10, 1).table.cells;
    const moved = cells.map((_, i) => cells[i - (i % 12) + ((i + 5) % 12)]!);
    const winding = generated(12, 10, 1);
    expect(differentialLeakage({ ...winding, table: { ...winding.table, cells: moved } })).toBeCloseTo(
      base,
      12,
    );
  });
});

describe('tooth MMF and waveform', () => {
  it('step by the slot currents and have zero mean', () => {
    const winding = generated(30, 4, 7);
    const teeth = toothMmf(winding, 50)!;
    const currents = slotCurrents(winding, 50);
    for (let slot = 0; slot < 30; slot++) {
      const before = (slot + 29) % 30;
      expect(teeth.re[slot]! - teeth.re[before]!).toBeCloseTo(currents.re[slot]!, 10);
      expect(teeth.im[slot]! - teeth.im[before]!).toBeCloseTo(currents.im[slot]!, 10);
    }
    for (const instant of [0, 0.4, 2]) {
      expect(mmfWaveform(teeth, instant).reduce((a, b) => a + b, 0)).toBeCloseTo(0, 9);
    }
  });

  it('a full pitch winding of one slot a belt, first phase at its peak', () => {
    // By hand: slot currents 2, 1, -1, -2, -1, 1 of one layer twice over the half current of V and W.
    const teeth = toothMmf(generated(6, 2, 3), 1 / Math.SQRT2)!;
    const waveform = mmfWaveform(teeth, 0);
    [1, 2, 1, -1, -2, -1].forEach((value, tooth) => {
      expect(waveform[tooth]).toBeCloseTo(value, 12);
    });
  });

  it('are unknown where the slot currents do not add up to zero', () => {
    expect(toothMmf(explicit(2, ['+U -W +V -U +W .']))).toBeNull();
  });
});

describe('a winding without a fundamental', () => {
  it('has waves but no relative ones', () => {
    const { waves, workingAmplitude } = mmf(explicit(4, ['+U -W +V -U +W -V']), { orders: 12 });
    expect(workingAmplitude).toBe(0);
    expect(waves.length).toBeGreaterThan(0);
    expect(waves.every((wave) => wave.relative === null && wave.amplitude > 0)).toBe(true);
  });
});
