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
    [1500, 0.274269743066838, 75.7794942614547, 1.2138401504574075, 3357802.888206522, 91.22430736912494],
    [15000, 1.3140854950173577, 187.9775876651009, 61.85738413527564, 6799829.041041053, 100.53381168353707],
    [300000, 1.4915243022171756, 222.14642244029594, 896.0337695458622, 7534996.173628827, 193.7635425178225],
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
    expect(limits[1]!.actual).toBeCloseTo(1.3140855, 6);
    expect(findings.find(({ code }) => code === 'limit-failed')?.message).toContain('131.4 %');
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
    close(balance.circulatingCurrent, 7.379830736642539);
    // The armature's field drives the paths apart too.
    close(balance.pathCurrentDeviation, 1.1435344490943502);
    // The larger of motor and generator.
    close(copper?.loss.dc, 7586.904498442603);
    close(copper?.loss.ac, 19.168815185799684);
    close(copper?.currentDensity, 24986048.864493363);
    close(copper?.heat.hotSpot, 163.12362698426398);
    close(emf?.motorConstant, emf!.torque! / Math.sqrt(copper!.loss.total!));
    expect(limits.map(({ met }) => met)).toEqual([false]);
    expect(assumptions.join('\n')).toContain("each path's own current");
    expect(assumptions.join('\n')).not.toContain('taken to carry equal currents');
  });

  it('at ten times the speed and a tenth of the flux, where inductance counts', () => {
    const { balance, copper } = study(unequal('flux 0.9 mWb', 15000)).report();
    close(balance.circulatingCurrent, 1.1086151559828465);
    close(balance.pathCurrentDeviation, 1.727537199922414);
    close(copper?.loss.dc, 700.8318506796998);
    close(copper?.loss.ac, 172.03349565870195);
    close(copper?.currentDensity, 8450774.252879316);
    close(copper?.heat.hotSpot, 109.07160230191863);
  });

  it('with hardly any flux, what the armature field alone does', () => {
    const { balance, copper } = study(unequal('flux 0.05 mWb')).report();
    close(balance.circulatingCurrent, 0.04099905964801413);
    close(copper?.loss.dc, 310.6983079540422);
    close(copper?.loss.ac, 0.8961110960654611);
    close(copper?.currentDensity, 6108361.890841977);
    close(copper?.heat.hotSpot, 93.84527703951774);
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
