// Takes its time: goes through many cases.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gapPermeance } from '../../core/analysis/emf/gaps.ts';
import { type Complex, multiply, size, subtract, unit } from '../../core/balance/complex.ts';
import { pathCurrents } from '../../core/balance/pathCurrents.ts';
import { pathInductances, pathOverlaps } from '../../core/balance/pathMatrix.ts';
import { route } from '../../core/routing/route.ts';
import type { Path, Winding } from '../../core/winding/model.ts';
import { slicedOverlaps } from '../analysis/slicedStack.ts';
import { crossedDrive, examine, ferryDrive, joinedIn, withLine } from '../copper/machines.ts';
import { unequalPaths as unequal } from '../copper/unequalPaths.ts';
import { study } from '../support/study.ts';
import { type MachineRequest, machine } from '../winding/windings.ts';

function routed(request: MachineRequest, count: number): { winding: Winding; paths: readonly Path[] } {
  const winding = { ...machine(request), parallelPaths: count };
  const result = route(winding, { paths: count });
  if (!result.ok) throw new Error(JSON.stringify(result.reason));
  return { winding, paths: result.paths };
}

function overlapsOf(winding: Winding, paths: readonly Path[]): Float64Array {
  const found = pathOverlaps(winding, paths);
  if (!found.known) throw new Error(found.needs.join());
  return found.value;
}

describe('gap field of paths', () => {
  it.each([
    ['straight bars', { slots: 48, poles: 8, layers: 4 }, 2],
    ['fractional', { slots: 30, poles: 8, layers: 2 }, 1],
    ['tooth coils', { slots: 12, poles: 10, layers: 2, span: 1 }, 2],
    ['crossing layers', { slots: 48, poles: 8, layers: 4, lean: [0.13, 0.13, -0.13, -0.13] }, 2],
  ] as const)('%s: products of winding functions as in thin slices of the stack', (_, request, count) => {
    const { winding, paths } = routed(request, count);
    const owners = new Int32Array(winding.table.cells.length).fill(-1);
    paths.forEach(({ bars }, index) => {
      for (const { slot, layer } of bars) owners[layer * winding.slots + slot - 1] = index;
    });
    const overlaps = overlapsOf(winding, paths);
    slicedOverlaps(winding, owners, paths.length, 200).forEach((expected, entry) => {
      expect(Math.abs(overlaps[entry]! - expected)).toBeLessThan(1e-3 * overlaps[0]!);
    });
  });

  it.each([
    ['four layers, two paths', ferryDrive],
    ['crossing layers between two rotors', crossedDrive],
    ['short pitch, four paths', ferryDrive.replace('span 6', 'span 5').replace('paths 2', 'paths 4')],
    [
      'five phases',
      ferryDrive.replace('phases 3', 'phases 5').replace('slots 48', 'slots 40').replace('span 6', 'span 5'),
    ],
    [
      'two sets',
      ferryDrive
        .replace('phases 3', 'phases 6 apart 30 edeg')
        .replace('slots 48', 'slots 96')
        .replace('span 6', 'span 12'),
    ],
  ])('%s: balanced equal currents see magnetizing and differential inductance', (_, text) => {
    const { input, emf } = examine(text);
    const { winding } = input;
    const { paths } = joinedIn(input);
    const permeance = gapPermeance(input.specification, winding);
    if (!permeance.known) throw new Error(permeance.needs.join());
    const overlaps = overlapsOf(winding, paths);
    const phasors = paths.map(({ phase }) => unit(-winding.phases.axes[phase]!));
    let linkage: Complex = { re: 0, im: 0 };
    phasors.forEach((current, column) => {
      const value = permeance.value * overlaps[column]!;
      linkage = { re: linkage.re + value * current.re, im: linkage.im + value * current.im };
    });
    // One ampere a phase, an equal share a path; the first path is one of phase 0.
    const inductance = linkage.re / winding.parallelPaths;
    const expected = emf.magnetizingInductance! + emf.differentialLeakageInductance!;
    expect(inductance / expected).toBeCloseTo(1, 9);
    expect(linkage.im / linkage.re).toBeCloseTo(0, 9);
  });

  it('adds to the slot leakage and that of the ends', () => {
    const { copper, input } = examine(ferryDrive);
    const impedances = copper.leakage.pathImpedances!;
    const overlaps = overlapsOf(input.winding, joinedIn(input).paths);
    const ends = overlaps.map((_, entry) => 1e-7 * (entry + 1));
    for (const of of [null, ends]) {
      pathInductances({ impedances, overlaps, ends: of }, 1e-6).forEach((value, entry) => {
        const slots = impedances.inductance[entry]!;
        expect(value).toBeCloseTo(slots + 1e-6 * overlaps[entry]! + (of?.[entry] ?? 0), 15);
      });
    }
  });
});

describe('currents of the paths', () => {
  const none: Complex = { re: 0, im: 0 };

  it('two paths: half the voltage difference over the impedance of one', () => {
    const currents = pathCurrents({
      phases: [0, 0],
      resistances: [0.1, 0.1],
      inductance: Float64Array.of(0, 0, 0, 0),
      angularFrequency: 300,
      voltages: [
        { re: 102, im: 0 },
        { re: 98, im: 0 },
      ],
      phaseCurrents: new Map(),
    })!;
    // 4 V around a loop of 0.2 ohm.
    expect(currents[0]!.re).toBeCloseTo(20, 10);
    expect(currents[1]!.re).toBeCloseTo(-20, 10);
  });

  it('two coupled paths: the difference meets L11 + L22 - 2 L12', () => {
    const currents = pathCurrents({
      phases: [0, 0],
      resistances: [0.1, 0.3],
      inductance: Float64Array.of(5e-3, 4e-3, 4e-3, 6e-3),
      angularFrequency: 100,
      voltages: [{ re: 10, im: 0 }, none],
      phaseCurrents: new Map(),
    })!;
    // 10 V over 0.4 + j 100 (5 + 6 - 8) 1e-3 = 0.4 + j 0.3 ohm.
    expect(currents[0]!.re).toBeCloseTo(16, 9);
    expect(currents[0]!.im).toBeCloseTo(-12, 9);
  });

  it('any paths: the loop equations hold and the currents sum to the phase current', () => {
    const number = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.array(number, { minLength: 40, maxLength: 40 }), (numbers) => {
        const count = 5;
        const phases = [0, 0, 0, 1, 1];
        // A matrix of winding functions times themselves has an energy.
        const inductance = new Float64Array(count * count);
        for (let i = 0; i < count; i++)
          for (let j = 0; j < count; j++)
            for (let k = 0; k < 4; k++)
              inductance[i * count + j]! += numbers[4 * i + k]! * numbers[4 * j + k]!;
        const voltages = phases.map((_, i) => ({ re: numbers[20 + i]!, im: numbers[25 + i]! }));
        const resistances = phases.map((_, i) => 0.05 + Math.abs(numbers[30 + i]!));
        const phaseCurrents = new Map([[0, { re: numbers[35]!, im: numbers[36]! }]]);
        const currents = pathCurrents({
          phases,
          resistances,
          inductance,
          angularFrequency: 3,
          voltages,
          phaseCurrents,
        })!;
        const across = voltages.map((voltage, i) => {
          let drop = multiply({ re: resistances[i]!, im: 0 }, currents[i]!);
          currents.forEach((current, j) => {
            const part = multiply({ re: 0, im: 3 * inductance[i * count + j]! }, current);
            drop = { re: drop.re + part.re, im: drop.im + part.im };
          });
          return subtract(voltage, drop);
        });
        for (const phase of [0, 1]) {
          const own = phases.flatMap((other, i) => (other === phase ? [i] : []));
          const sum = own.reduce(
            (total, i) => ({ re: total.re + currents[i]!.re, im: total.im + currents[i]!.im }),
            none,
          );
          expect(size(subtract(sum, phaseCurrents.get(phase) ?? none))).toBeLessThan(1e-9);
          for (const i of own) expect(size(subtract(across[i]!, across[own[0]!]!))).toBeLessThan(1e-9);
        }
      }),
    );
  });
});

describe('circulating current with the gap field', () => {
  it('the longer the gap the more flows, up to what slot leakage alone lets through', () => {
    const at = (gap: string) => study(withLine(unequal, 'air-gap', gap)).report().balance.circulatingCurrent!;
    const [close, wide, open] = ['1 mm', '8 mm', '900 mm'].map((gap) => at(`  air-gap ${gap}`));
    expect(wide! / close!).toBeGreaterThan(1.3);
    expect(open! / wide!).toBeGreaterThan(1.3);
    // By the slots alone: the difference over both paths' impedance. What couples them in shared slots is left out.
    const { copper, paths, emf } = study(unequal).report();
    const { frequency, paths: each } = copper!.leakage.pathImpedances!;
    const [one, two] = each;
    const angle = (paths[0]!.voltage.angle! - paths[1]!.voltage.angle!) * (Math.PI / 180);
    const difference = 2 * Math.sin(Math.abs(angle) / 2) * emf!.phaseVoltage! * paths[0]!.voltage.relative!;
    const slots = Math.hypot(
      one!.resistance + two!.resistance,
      2 * Math.PI * frequency * (one!.selfInductance + two!.selfInductance),
    );
    expect(Math.abs((open! * 80 * slots) / difference - 1)).toBeLessThan(0.25);
  });

  it.each([
    ['air-gap', 'machine air-gap'],
    ['magnet-height', 'machine magnet-height (0 mm where there are no magnets)'],
  ])('without %s it is missing, and so is what rests on it; the voltages decide instead', (start, need) => {
    const { balance, copper, missing, limits, findings } = study(withLine(unequal, start, null)).report();
    expect(balance).toMatchObject({ circulatingCurrent: null, pathCurrentDeviation: null });
    expect(copper?.loss).toEqual({ dc: null, ac: null, harmonics: null, barField: null, total: null });
    for (const quantity of ['balance.circulatingCurrent', 'balance.pathCurrentDeviation', 'copper.loss.dc'])
      expect(missing.find((entry) => entry.quantity === quantity)?.needs).toEqual([need]);
    expect(limits.map(({ met }) => met)).toEqual([null]);
    const [found] = findings.filter(({ code }) => code === 'paths-unequal-voltage');
    expect(found?.severity).toBe('error');
    expect(found?.message).not.toContain('circulating current');
  });

  it('paths that see the same everywhere share equally whatever the gap', () => {
    const { balance, copper, assumptions } = study(withLine(ferryDrive, 'air-gap', null)).report();
    expect(balance).toMatchObject({ circulatingCurrent: 0, pathCurrentDeviation: 0 });
    expect(copper?.loss.total).not.toBeNull();
    expect(assumptions.join('\n')).toContain('the paths of a phase carry equal currents');
  });
});

/** Paths of three bars, from one side to the other. */
const odd = `winding "Capstan, paths of three bars"
machine { slots 18  poles 6  phases 3  gap inner  bore 100 mm  stack 80 mm  air-gap 1 mm  magnet-height 4 mm
  speed 1500 rpm  flux 2 mWb  current 60 A  winding-temperature 100 degC }
slot { width 7 mm  depth 14 mm  opening 2 mm  opening-height 1 mm  liner 0.3 mm }
bar { form straight  width 6 mm  height 6 mm  coating 0.1 mm
  end-straight 8 mm  end-clearance 1 mm  joint-straight 10 mm }
layout { layers 2  span 3 }
connect {
  open
  path U 1 from U1 1a +3b +3a to U2 far
  path U 2 from U1 far 16a -3b -3a to U2
  path U 3 from U1 7b -3a -3b to U2 far
  path U 4 from U1 far 10b +3a +3b to U2
  repeat U as V shift 2
  repeat U as W shift 4
}
require { path-current-deviation <= 5 % }
`;

describe('a path with an odd number of bars', () => {
  it('has no winding function: its currents are missing, with the reason', () => {
    const { balance, missing, limits, findings } = study(odd).report();
    expect(findings.find(({ code }) => code === 'limit-not-computable')?.message).toContain(
      'an even number of bars in each path',
    );
    expect(balance.pathCurrentDeviation).toBeNull();
    expect(
      missing.find(({ quantity }) => quantity === 'balance.pathCurrentDeviation')?.needs.join(),
    ).toContain('an even number of bars in each path');
    expect(limits.map(({ met }) => met)).toEqual([null]);
  });
});
