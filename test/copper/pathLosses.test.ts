// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import { study as wholeStudy } from '../support/study.ts';
import { study } from '../support/withoutEnds.ts';
import { type HandSizes, pathsByHand } from './pathsByHand.ts';
import { unequalConnection, unequalSizes } from './unequalPaths.ts';

/** Two paths of a phase, each in two layers of four: the outer layers lie deeper in their slots. */
const doubled = (rpm: number, extra = '') => `winding "Culvert pump, doubled paths"
machine { slots 12  poles 4  phases 3  gap inner  bore 100 mm  stack 120 mm  air-gap 1 mm  magnet-height 5 mm
  speed ${rpm} rpm  flux 9 mWb  current 160 A  winding-temperature 100 degC  end-temperature 90 degC }
slot { width 7 mm  depth 22 mm  opening 2 mm  opening-height 1 mm  liner 0.3 mm }
bar { form straight  width 6 mm  height 4.5 mm  corner 0.8 mm  coating 0.1 mm
  end-straight 8 mm  end-clearance 1 mm  joint-straight 10 mm }
layout { layers 4  span 3 }
connect {
  star
  path U 1 from U1 1a +3b +3a +3b | +3b -3a -3b -3a to N
  path U 2 from U1 1c +3d +3c +3d | +3d -3c -3d -3c to N
  repeat U as V shift 2
  repeat U as W shift 4
}
${extra}`;

/** Two paths, one from the first slots of each belt, one from the last: unequal voltages. */
const unequal = (flux: string, rpm = 1500) => `winding "Sluice lift, unequal paths"
machine { slots 36  poles 4  phases 3  gap inner  bore 180 mm  stack 120 mm  air-gap 1 mm  magnet-height 5 mm
  speed ${rpm} rpm ${flux} current 160 A  winding-temperature 100 degC  end-temperature 90 degC }
slot { width 7 mm  depth 12 mm  opening 2 mm  opening-height 1 mm  liner 0.3 mm }
bar { form straight  width 6 mm  height 4.5 mm  corner 0.8 mm  coating 0.1 mm
  end-straight 8 mm  end-clearance 1 mm  joint-straight 10 mm }
layout { layers 2  span 9 }
${unequalConnection}require { copper-loss <= 500 W  }
`;

const doubledSizes = (rpm: number): HandSizes => ({
  ...unequalSizes(9e-3, rpm),
  slots: 12,
  layers: 4,
  bore: 0.1,
  slot: { width: 7e-3, depth: 22e-3, liner: 0.3e-3 },
});

const close = (value: number | null | undefined, expected: number) =>
  expect((value ?? Number.NaN) / expected).toBeCloseTo(1, 6);

// Expected values: R + j omega M of all paths solved by hand (pathsByHand.ts), each path with its own resistance from the
// lengths of its bars and connecting pieces: pieces run in lanes, which differ in length; losses and hot spot from
// those currents. With the lengths that pieces had before they ran beside leads, this agreed to eight digits with a
// program in Python (numpy) that integrated the diffusion in every bar by Chebyshev collocation.
describe('paths that slot leakage loads unequally', () => {
  it.each([1500, 15000, 300000])('at %i rpm: deviation, losses, current density and hot spot', (rpm) => {
    const made = study(doubled(rpm));
    const report = made.report();
    const { balance, copper } = report;
    const hand = pathsByHand(made, report, doubledSizes(rpm));
    expect(hand.deviation).toBeGreaterThan(0.2);
    close(balance.pathCurrentDeviation, hand.deviation);
    expect(balance.circulatingCurrent).toBe(0);
    close(copper?.loss.dc, hand.dc);
    close(copper?.loss.ac, hand.ac);
    close(copper?.loss.total, hand.dc + hand.ac);
    close(copper?.currentDensity, hand.density);
    close(copper?.heat.hotSpot, hand.hotSpot);
  });

  it('a limit on the deviation fails where that on the circulating current holds', () => {
    const extra = 'require {\n  circulating-current <= 1 %\n  path-current-deviation <= 5 %\n}\n';
    const made = study(doubled(15000, extra));
    const report = made.report();
    const { limits, findings } = report;
    const { deviation } = pathsByHand(made, report, doubledSizes(15000));
    expect(limits.map(({ quantity, met }) => [quantity, met])).toEqual([
      ['circulating-current', true],
      ['path-current-deviation', false],
    ]);
    expect(limits[1]!.actual).toBeCloseTo(deviation, 6);
    expect(findings.find(({ code }) => code === 'limit-failed')?.message).toContain(
      `path-current-deviation is ${Number((100 * deviation).toPrecision(4))} %;`,
    );
  });

  it('without what its slots measure, nothing that rests on the currents is told', () => {
    const text = doubled(15000).replace('opening 2 mm', '');
    const { balance, copper, missing, emf } = study(text).report();
    expect(balance.pathCurrentDeviation).toBeNull();
    expect(copper?.loss).toEqual({ dc: null, ac: null, harmonics: null, barField: null, total: null });
    expect(copper?.currentDensity).toBeNull();
    expect(copper?.heat.hotSpot).toBeNull();
    expect(emf?.motorConstant).toBeNull();
    for (const quantity of ['balance.pathCurrentDeviation', 'copper.loss.dc', 'copper.currentDensity'])
      expect(missing.find((entry) => entry.quantity === quantity)?.needs).toContain('slot opening');
    // Cold and warm resistance do not depend on the currents.
    expect(copper?.resistance.phase).not.toBeNull();
  });
});

describe('paths of unequal voltage', () => {
  it('copper loss, current density, heat and motor constant hold the circulating current', () => {
    const made = study(unequal('flux 9 mWb'));
    const report = made.report();
    const { balance, copper, emf, limits, assumptions } = report;
    const hand = pathsByHand(made, report, unequalSizes(9e-3, 1500));
    expect(hand.circulating).toBeGreaterThan(5);
    close(balance.circulatingCurrent, hand.circulating);
    // The armature's field drives the paths apart too.
    expect(hand.deviation).toBeGreaterThan(1);
    close(balance.pathCurrentDeviation, hand.deviation);
    // The larger of motor and generator.
    close(copper?.loss.dc, hand.dc);
    close(copper?.loss.ac, hand.ac);
    close(copper?.currentDensity, hand.density);
    close(copper?.heat.hotSpot, hand.hotSpot);
    close(emf?.motorConstant, emf!.torque! / Math.sqrt(copper!.loss.total!));
    expect(limits.map(({ met }) => met)).toEqual([false]);
    expect(assumptions.join('\n')).toContain("each path's own current");
    expect(assumptions.join('\n')).not.toContain('taken to carry equal currents');
  });

  it('at ten times the speed and a tenth of the flux, where inductance counts', () => {
    const made = study(unequal('flux 0.9 mWb', 15000));
    const report = made.report();
    const { balance, copper } = report;
    const hand = pathsByHand(made, report, unequalSizes(0.9e-3, 15000));
    close(balance.circulatingCurrent, hand.circulating);
    close(balance.pathCurrentDeviation, hand.deviation);
    close(copper?.loss.dc, hand.dc);
    close(copper?.loss.ac, hand.ac);
    close(copper?.currentDensity, hand.density);
    close(copper?.heat.hotSpot, hand.hotSpot);
  });

  it('with hardly any flux, what the armature field alone does', () => {
    const made = study(unequal('flux 0.05 mWb'));
    const report = made.report();
    const { balance, copper } = report;
    const hand = pathsByHand(made, report, unequalSizes(0.05e-3, 1500));
    expect(hand.circulating).toBeLessThan(0.05);
    close(balance.circulatingCurrent, hand.circulating);
    close(copper?.loss.dc, hand.dc);
    close(copper?.loss.ac, hand.ac);
    close(copper?.currentDensity, hand.density);
    close(copper?.heat.hotSpot, hand.hotSpot);
  });

  it('without the flux the losses are not computable, and no limit on them passes', () => {
    const { copper, missing, limits } = study(unequal('')).report();
    expect(copper?.loss).toEqual({ dc: null, ac: null, harmonics: null, barField: null, total: null });
    expect(missing.find(({ quantity }) => quantity === 'copper.loss.total')?.needs).toEqual(['machine flux']);
    expect(limits.map(({ met }) => met)).toEqual([null]);
  });
});

describe('the leakage of the end windings', () => {
  it('lowers what paths deviate and circulate, and is said where it is left out', () => {
    const [whole, without] = [wholeStudy(doubled(15000)).report(), study(doubled(15000)).report()];
    const deviation = whole.balance.pathCurrentDeviation!;
    expect(deviation).toBeLessThan(without.balance.pathCurrentDeviation! - 0.1);
    expect(deviation).toBeGreaterThan(0.5);
    expect(without.assumptions.join('\n')).toContain(
      'no end winding, so that what differs is a larger estimate',
    );
    expect(whole.assumptions.join('\n')).toContain('slot leakage, leakage of the end windings and gap field');
    const [circulating, plain] = [wholeStudy, study].map(
      (of) => of(unequal('flux 0.9 mWb', 15000)).report().balance.circulatingCurrent!,
    );
    expect(circulating!).toBeLessThan(plain!);
  });
});
