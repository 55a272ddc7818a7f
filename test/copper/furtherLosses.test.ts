// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import { vacuumPermeability } from '../../core/analysis/emf/gaps.ts';
import { fieldLossDensity } from '../../core/copper/acLoss/barField.ts';
import { told, toldDuty } from '../support/told.ts';
import { study } from '../support/withoutEnds.ts';
import { type Complex, solvedLossRatio } from './acLoss/slotFieldSolver.ts';
import { withLine } from './machines.ts';

/** One path of straight bars a phase; half the slots hold two phases. */
const base = `winding "Tide gate lift"
machine {
  slots 12
  poles 2
  phases 3
  bore 90 mm
  stack 100 mm
  air-gap 1 mm
  magnet-height 4 mm
  speed 6000 rpm
  flux 5 mWb
  current 150 A
  winding-temperature 120 degC
  end-temperature 90 degC
}
slot { width 7 mm  depth 12 mm  opening 2 mm  opening-height 1 mm  liner 0.3 mm }
bar {
  form straight
  width 6 mm
  height 4.5 mm
  corner 0.8 mm
  coating 0.1 mm
  end-straight 8 mm
  end-clearance 1 mm
  joint-straight 10 mm
}
layout { layers 2  span 5 }
connect {
  star
  route paths 1
}
`;
const added = (line: string, text = base) => withLine(text, 'flux', `  flux 5 mWb\n  ${line}`);
const copperOf = (text: string) => told('copper', study(text).facts!.copper());
const plain = copperOf(base);
const rho = (1e-6 / 58) * (1 + 0.00393 * 100);
const area = 6 * 4.5 * 1e-6 - (4 - Math.PI) * 0.64e-6;

/** Loss of all bars for a path current, solved numerically slot by slot; phasors by phase. */
function solvedLoss(hertz: number, current: number, phasors: readonly Complex[]): number {
  const { winding } = study(base).facts!;
  const { slots, cells } = winding.table;
  const xi = 4.5e-3 * Math.sqrt((Math.PI * hertz * vacuumPermeability * 6) / 7 / rho);
  let eddies = 0;
  for (let slot = 0; slot < slots; slot++) {
    // From the closed end inwards: layer b lies deeper behind an inner gap.
    let below = { re: 0, im: 0 };
    for (const layer of [1, 0]) {
      const cell = cells[layer * slots + slot]!;
      const { re, im } = phasors[Math.abs(cell) - 1]!;
      const own = { re: Math.sign(cell) * re, im: Math.sign(cell) * im };
      eddies += solvedLossRatio(xi, own, below) - 1;
      below = { re: below.re + own.re, im: below.im + own.im };
    }
  }
  const direct = 3 * plain.resistance.phase!;
  return current ** 2 * (direct + (eddies * rho * 0.1) / area);
}

const turned = (order: number): readonly Complex[] =>
  [0, 1, 2].map((phase) => {
    const angle = (-2 * Math.PI * order * phase) / 3;
    return { re: Math.cos(angle), im: Math.sin(angle) };
  });

describe('harmonics of the current', () => {
  it('lose what a numerical field in each slot loses, at their own frequency', () => {
    const { loss } = copperOf(added('current-harmonic 5 8 %'));
    expect(loss.harmonics! / solvedLoss(500, 12, turned(5))).toBeCloseTo(1, 4);
    expect(loss.total!).toBeCloseTo(loss.dc! + loss.ac! + loss.harmonics!, 9);
    expect(loss.dc).toBeCloseTo(plain.loss.dc!, 9);
  });

  it('add up, a ripple keeps its frequency whatever the speed', () => {
    const lines = 'current-harmonic 5 8 %\n  current-harmonic 7 3 %\n  current-ripple 4 kHz 5 %';
    const expected =
      solvedLoss(500, 12, turned(5)) + solvedLoss(700, 4.5, turned(7)) + solvedLoss(4000, 7.5, turned(1));
    expect(copperOf(added(lines)).loss.harmonics! / expected).toBeCloseTo(1, 4);
    const slow = withLine(added('current-ripple 4 kHz 5 %'), 'speed', '  speed 600 rpm');
    expect(copperOf(slow).loss.harmonics! / solvedLoss(4000, 7.5, turned(1))).toBeCloseTo(1, 4);
  });

  it('those that are equal in all phases cannot flow, and that is said', () => {
    const text = added('current-harmonic 3 20 %');
    const { findings, facts } = study(text);
    const found = findings.find(({ code }) => code === 'harmonic-cannot-flow')!;
    expect(text.slice(found.range.start, found.range.end)).toBe('current-harmonic 3 20 %');
    expect(told('copper', facts!.copper()).loss).toEqual(plain.loss);
    expect(plain.loss.harmonics).toBeNull();
    // Open phases are driven each by itself.
    const open = copperOf(withLine(text, 'star', '  open'));
    expect(open.loss.harmonics! / solvedLoss(300, 30, turned(3))).toBeCloseTo(1, 4);
  });

  it('make the bars hotter as their loss is larger', () => {
    const hot = copperOf(added('current-ripple 3 kHz 20 %'));
    const share = hot.loss.total! / plain.loss.total!;
    expect(hot.heat.rise! / plain.heat.rise!).toBeGreaterThan(1 + 0.8 * (share - 1));
    expect(share).toBeGreaterThan(1.1);
  });

  it('at the points of a duty they follow current and speed; at standstill the ripple alone is left', () => {
    const text = `${added('current-harmonic 5 8 %\n  current-ripple 4 kHz 5 %')}duty {
  point "turn" speed 6000 rpm current 150 A for 60 s
  point "hold" speed 0 rpm current 150 A for 10 s
}
`;
    const [turn, hold] = toldDuty(study(text).facts!.duty()).points;
    expect(turn!.loss.harmonics! / copperOf(text).loss.harmonics!).toBeCloseTo(1, 9);
    expect(hold!.loss.harmonics! / solvedLoss(4000, 7.5, turned(1))).toBeCloseTo(1, 4);
    expect(turn!.loss.total!).toBeCloseTo(turn!.loss.dc! + turn!.loss.ac! + turn!.loss.harmonics!, 9);
  });
});

describe('harmonics round a ring of phases', () => {
  const delta = withLine(base, 'star', '  delta');
  const ring = added('rotor-field harmonic 3 10 %', delta);

  it('are missing without the field of the rotor, while the total says that it does not count them', () => {
    const { loss, missing, assumptions } = copperOf(delta);
    expect(loss.harmonics).toBeNull();
    expect(missing.find(({ quantity }) => quantity === 'copper.loss.harmonics')!.needs).toEqual([
      'machine rotor-field',
    ]);
    expect(loss.total!).toBeCloseTo(loss.dc! + loss.ac!, 9);
    expect(assumptions.some((line) => line.includes('round a ring') || line.includes('ring of phases'))).toBe(
      true,
    );
    expect(copperOf(ring).assumptions.some((line) => line.includes('not counted'))).toBe(false);
  });

  it('I = E/abs(R + j h w L0), the gap part of L0 by a staircase drawn by hand', () => {
    const { facts } = study(ring);
    const { winding } = facts!;
    const { slots, cells } = winding.table;
    // One ampere in all phases: the staircase of its ampere-conductors, without its mean.
    const steps = Array.from({ length: slots }, (_, slot) =>
      [0, 1].reduce((sum, layer) => sum + Math.sign(cells[layer * slots + slot]!), 0),
    );
    let level = 0;
    const stairs = steps.map((step) => {
      level += step;
      return level;
    });
    const mean = stairs.reduce((a, b) => a + b, 0) / slots;
    const square = stairs.reduce((sum, each) => sum + (each - mean) ** 2, 0) * ((2 * Math.PI) / slots);
    // Carter's factor on gap and magnet, opening 2 mm.
    const gap = 1e-3 + 4e-3 / 1.05;
    const pitch = (Math.PI * 90e-3) / 12;
    const x = 2e-3 / (2 * gap);
    const kappa = (2 / Math.PI) * (Math.atan(x) - Math.log(1 + x * x) / (2 * x));
    const carter = pitch / (pitch - kappa * 2e-3);
    const ofGap = (vacuumPermeability * 0.1 * 45e-3 * square) / (carter * gap) / 3;
    // The slots' part from the matrix of the paths: the same current in all of them.
    const { pathImpedances } = told('copper', facts!.copper()).leakage;
    const ofSlots = pathImpedances!.inductance.reduce((a, b) => a + b, 0) / 3;
    const { phaseVoltage, harmonics } = told('emf', facts!.emf());
    const third = harmonics!.orders.find(({ harmonic }) => harmonic === 3)!.phaseVoltage;
    expect(third).toBeGreaterThan(0.01 * phaseVoltage!);
    const resistance = solvedLoss(300, 1, turned(3)) / 3;
    const current = third / Math.hypot(resistance, 2 * Math.PI * 300 * (ofGap + ofSlots));
    expect(told('copper', facts!.copper()).loss.harmonics! / (3 * current ** 2 * resistance)).toBeCloseTo(
      1,
      3,
    );
  });

  it('a field without such orders drives none', () => {
    expect(copperOf(added('rotor-field harmonic 5 10 %', delta)).loss.harmonics).toBe(0);
  });
});

describe("eddies of the rotor's field in the bars", () => {
  it.each([
    [0.3, 100],
    [3, 400],
    [8, 4000],
  ])('a plate of %d mm at %d Hz loses what a numerical field across it loses', (side, hertz) => {
    // H'' = j w mu0/rho H across the plate, H equal at both faces; loss rho abs(H')^2/2 for peaks, for
    // a mean of mu0 H over the plate of the stated size.
    const n = 4000;
    const width = side * 1e-3;
    const step = width / n;
    const c = (2 * Math.PI * hertz * vacuumPermeability * step ** 2) / rho;
    const g: Complex[] = [{ re: 0, im: 0 }];
    const d: Complex[] = [{ re: 1, im: 0 }];
    for (let i = 1; i < n; i++) {
      const p = { re: 2 - g[i - 1]!.re, im: c - g[i - 1]!.im };
      const size = p.re ** 2 + p.im ** 2;
      g.push({ re: p.re / size, im: -p.im / size });
      const before = d[i - 1]!;
      d.push({
        re: (before.re * p.re + before.im * p.im) / size,
        im: (before.im * p.re - before.re * p.im) / size,
      });
    }
    let above: Complex = { re: 1, im: 0 };
    let squares = 0;
    const sum = { re: 0, im: 0 };
    for (let i = n - 1; i >= 0; i--) {
      const here =
        i === 0
          ? { re: 1, im: 0 }
          : {
              re: g[i]!.re * above.re - g[i]!.im * above.im + d[i]!.re,
              im: g[i]!.re * above.im + g[i]!.im * above.re + d[i]!.im,
            };
      squares += (above.re - here.re) ** 2 + (above.im - here.im) ** 2;
      sum.re += (above.re + here.re) / 2 / n;
      sum.im += (above.im + here.im) / 2 / n;
      above = here;
    }
    const peak = 0.05;
    const size = peak / vacuumPermeability / Math.hypot(sum.re, sum.im);
    const expected = (rho / 2) * size ** 2 * (squares / step / width);
    const told = fieldLossDensity({ radial: peak, tangential: 0, width, strandHeight: 1e-3 }, hertz, rho);
    expect(told / expected).toBeCloseTo(1, 3);
  });

  const slots = (field: string) => base.replace('liner 0.3 mm', `liner 0.3 mm  bar-field ${field}`);

  it('is counted over the bars within the stack, and falls away at standstill', () => {
    const { loss, assumptions } = copperOf(slots('radial 40 mT tangential 20 mT'));
    const density = fieldLossDensity(
      { radial: 0.04, tangential: 0.02, width: 6e-3, strandHeight: 4.5e-3 },
      100,
      rho,
    );
    expect(loss.barField! / (24 * 0.1 * area * density)).toBeCloseTo(1, 9);
    expect(loss.total!).toBeCloseTo(loss.dc! + loss.ac! + loss.barField!, 9);
    expect(assumptions.some((line) => line.startsWith('no eddies from the rotor'))).toBe(false);
    expect(plain.loss.barField).toBeNull();
    expect(plain.assumptions.some((line) => line.startsWith('no eddies from the rotor'))).toBe(true);
    const still = `${slots('radial 40 mT')}duty { point "hold" speed 0 rpm current 150 A for 10 s }\n`;
    expect(toldDuty(study(still).facts!.duty()).points[0]!.loss.barField).toBe(0);
  });

  it('heats the bars: the rise of a bar without side cooling grows by p L^2/(8 k A)', () => {
    const { heat } = copperOf(slots('radial 300 mT'));
    const density = fieldLossDensity(
      { radial: 0.3, tangential: 0, width: 6e-3, strandHeight: 4.5e-3 },
      100,
      rho,
    );
    const more = (density * 0.1 ** 2) / (8 * 394);
    expect((heat.rise! - plain.heat.rise!) / more).toBeGreaterThan(0.9);
    expect((heat.rise! - plain.heat.rise!) / more).toBeLessThan(1.1);
  });

  it('thinner strands lose less by a field across the slot', () => {
    const thin = slots('radial 0 mT tangential 40 mT').replace('height 4.5 mm', 'height 4.5 mm\n  strands 3');
    const thick = slots('radial 0 mT tangential 40 mT');
    expect(copperOf(thick).loss.barField! / copperOf(thin).loss.barField!).toBeCloseTo(9, 1);
  });
});

describe('resistance of the joints', () => {
  const joined = (text: string) => withLine(text, 'corner', '  corner 0.8 mm\n  joint-resistance 20 uohm');

  it('is in series with the bars of a path, one a joint, whatever the temperature', () => {
    const { resistance, loss } = copperOf(joined(base));
    // Eight bars of a phase are joined at seven places, at one of them by a piece, which has two joints.
    expect(resistance.phase20! - plain.resistance.phase20!).toBeCloseTo(8 * 20e-6, 12);
    expect(resistance.phase! - plain.resistance.phase!).toBeCloseTo(8 * 20e-6, 12);
    expect(loss.dc! - plain.loss.dc!).toBeCloseTo(3 * 150 ** 2 * 8 * 20e-6, 9);
    expect(loss.ac).toBeCloseTo(plain.loss.ac!, 9);
    expect(plain.assumptions).toContain('bar joint-resistance: 0 uohm (default)');
  });

  it('crowns of hairpins are no joints', () => {
    const hairpins = base.replace('form straight', 'form hairpin');
    const more = copperOf(joined(hairpins)).resistance.phase20! - copperOf(hairpins).resistance.phase20!;
    // Four crowns and three joints, one of them a piece.
    expect(more).toBeCloseTo(4 * 20e-6, 12);
  });

  it('heats the end windings where heat flows along them', () => {
    const cooled = withLine(base, 'coating', '  coating 0.1 mm\n  end-conductance 1.2 W/(m K)');
    const text = withLine(cooled, 'corner', '  corner 0.8 mm\n  joint-resistance 200 uohm');
    expect(copperOf(text).heat.hotSpot!).toBeGreaterThan(copperOf(cooled).heat.hotSpot! + 3);
  });
});
