// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import { study as wholeStudy } from '../support/study.ts';
import { study } from '../support/withoutEnds.ts';

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
connect {
  star
  path U 1 from U1 1a +9b +9a +9b +10a +9b +9a +9b | +8b -9a -9b -9a to N
  path U 2 from U1 3a +9b +9a +9b | +8b -9a -9b -9a -8b -9a -9b -9a to N
  repeat U as V shift 6
  repeat U as W shift 12
}
require { copper-loss <= 500 W  }
`;

const close = (value: number | null | undefined, expected: number) =>
  expect((value ?? Number.NaN) / expected).toBeCloseTo(1, 6);

// Expected values: a second program (Python, numpy) that solves R + j omega M of all paths of all phases
// with the resistances as reported and M from its own field energy: the slots' by Gauss, the gap's by the
// staircases of the winding functions and Carter's kappa of gap and magnets. It integrates the one-dimensional diffusion in
// every bar numerically (Chebyshev collocation) with the currents so found; losses and hot spot from those.
describe('paths that slot leakage loads unequally', () => {
  it.each([
    [1500, 0.27113194609683733, 76.81683721613676, 1.2196638544085086, 3351509.1495425473, 91.22008050186766],
    [15000, 1.3105483897464707, 190.89452245211262, 62.31663072947096, 6785258.413903579, 100.52608472101522],
    [300000, 1.4915113182099424, 226.63949481384662, 896.0601109343658, 7534941.4615575, 193.7646527927111],
  ])('at %i rpm: deviation, losses, current density and hot spot', (rpm, deviation, dc, ac, density, hot) => {
    const { balance, copper } = study(doubled(rpm)).report();
    close(balance.pathCurrentDeviation, deviation);
    expect(balance.circulatingCurrent).toBe(0);
    close(copper?.loss.dc, dc);
    close(copper?.loss.ac, ac);
    close(copper?.loss.total, dc + ac);
    close(copper?.currentDensity, density);
    close(copper?.heat.hotSpot, hot);
  });

  it('a limit on the deviation fails where that on the circulating current holds', () => {
    const extra = 'require {\n  circulating-current <= 1 %\n  path-current-deviation <= 5 %\n}\n';
    const { limits, findings } = study(doubled(15000, extra)).report();
    expect(limits.map(({ quantity, met }) => [quantity, met])).toEqual([
      ['circulating-current', true],
      ['path-current-deviation', false],
    ]);
    expect(limits[1]!.actual).toBeCloseTo(1.3105484, 6);
    expect(findings.find(({ code }) => code === 'limit-failed')?.message).toContain('131.1 %');
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
    const { balance, copper, emf, limits, assumptions } = study(unequal('flux 9 mWb')).report();
    close(balance.circulatingCurrent, 7.348271873041569);
    // The armature's field drives the paths apart too.
    close(balance.pathCurrentDeviation, 1.1393285783885272);
    // The larger of motor and generator.
    close(copper?.loss.dc, 7579.71772959715);
    close(copper?.loss.ac, 19.011118104713375);
    close(copper?.currentDensity, 24883627.012586314);
    close(copper?.heat.hotSpot, 162.43910557242543);
    close(emf?.motorConstant, emf!.torque! / Math.sqrt(copper!.loss.total!));
    expect(limits.map(({ met }) => met)).toEqual([false]);
    expect(assumptions.join('\n')).toContain("each path's own current");
    expect(assumptions.join('\n')).not.toContain('taken to carry equal currents');
  });

  it('at ten times the speed and a tenth of the flux, where inductance counts', () => {
    const { balance, copper } = study(unequal('flux 0.9 mWb', 15000)).report();
    close(balance.circulatingCurrent, 1.108507496052101);
    close(balance.pathCurrentDeviation, 1.7274726640811626);
    close(copper?.loss.dc, 705.7999216994822);
    close(copper?.loss.ac, 172.0155283073224);
    close(copper?.currentDensity, 8451865.909459522);
    close(copper?.heat.hotSpot, 109.0765081172037);
  });

  it('with hardly any flux, what the armature field alone does', () => {
    const { balance, copper } = study(unequal('flux 0.05 mWb')).report();
    close(balance.circulatingCurrent, 0.040823732628008716);
    close(copper?.loss.dc, 311.52694898942417);
    close(copper?.loss.ac, 0.8927387763163622);
    close(copper?.currentDensity, 6100326.208305589);
    close(copper?.heat.hotSpot, 93.83508977551372);
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
