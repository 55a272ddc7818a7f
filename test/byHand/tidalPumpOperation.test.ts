import { describe, expect, it } from 'vitest';
// The hand calculation leaves the end windings out.
import { study } from '../support/withoutEnds.ts';

// The tidal pump drive of the page beside this one, at work: load point, speeds, iron and duty, step by step
// with its own numbers. Resistance, inductances and lengths are worked out there.

const text = `winding "Tidal pump drive"
machine {
  slots 24  poles 8  phases 3
  gap inner  bore 120 mm  stack 80 mm  stack-factor 0.95  yoke-height 11 mm
  air-gap 1 mm  magnet-height 3 mm  magnet-permeability 1.05  carter on
  speed 1500 rpm  flux 2.4 mWb  current 90 A  current-angle 0 edeg  voltage 12 V
  winding-temperature 110 degC  end-temperature 70 degC
}
slot { width 6 mm  depth 14 mm  opening 2 mm  opening-height 1 mm  wedge 1.5 mm  liner 0.3 mm  side-conductance 8 W/(m K) }
bar {
  width 5 mm  height 5.5 mm  corner 0.8 mm  coating 0.1 mm  metal copper  form hairpin  strands 1
  end-straight 5 mm  end-clearance 0.8 mm  joint-straight 7 mm
  joint-gap 0.2 mm  joint-plane free  bend-radius 4 mm flat 4 mm  lead-length 20 mm
}
layout { layers 2  span 3  skew all 0 deg }
connect { star  route paths 2 }
duty {
  point "fill" speed 0 rpm current 100 A for 10 s
  point "run" speed 1500 rpm torque 6 Nm for 50 s
}
`;
const { operation, iron, duty, copper, emf } = study(text).report({ orders: 1 });

describe('tidal pump drive at work', () => {
  // From the page beside: phase resistance 0.5446410 mohm warm, ratio with the bar ends 1.0387753, four turns.
  const resistance = 0.544641e-3 * 1.0387753;
  // Gap 2.955627 uH, other waves 0.285581 uH, slots 1.222010 uH; times 2 pi 100 Hz.
  const inductance = (2.955627 + 0.285581 + 1.22201) * 1e-6;
  const reactance = 628.318531 * inductance;
  const voltage = 4.442883 * 100 * 4 * 2.4e-3;

  it('resistance and reactance of a phase: 0.565760 and 2.804323 mohm', () => {
    expect(resistance * 1e3).toBeCloseTo(0.56576, 5);
    expect(copper!.resistance.phase! * copper!.acRatio.bar! * 1e3).toBeCloseTo(0.56576, 5);
    expect(operation!.inductance.d! * 1e6).toBeCloseTo(4.463218, 5);
    expect(reactance * 1e3).toBeCloseTo(2.80432, 5);
  });

  it('rated point: 4.265168 + 0.050918 V in phase, 0.252389 V across, sqrt 3 times their sum 7.48845 V', () => {
    const [along, across] = [voltage + 90 * resistance, 90 * reactance];
    expect(along).toBeCloseTo(4.316086, 5);
    expect(across).toBeCloseTo(0.252389, 5);
    const phase = Math.sqrt(along ** 2 + across ** 2);
    expect(operation!.terminalVoltage).toBeCloseTo(1.7320508 * phase, 5);
    expect(operation!.terminalVoltage).toBeCloseTo(7.48845, 4);
    expect(operation!.powerFactor).toBeCloseTo(along / phase, 6);
    expect(operation!.apparentPower).toBeCloseTo(3 * phase * 90, 3);
    // 3 x 4.265168 V x 90 A at the shaft, 25 turns a second.
    expect(operation!.shaftPower).toBeCloseTo(1151.595, 2);
    expect(operation!.torque).toBeCloseTo(1151.595 / 157.079633, 4);
  });

  it('currents into a short circuit: 4.265168 V over 2.804323 mohm, and over both in quadrature', () => {
    expect(operation!.characteristicCurrent! / 1520.92).toBeCloseTo(1, 4);
    const impedance = Math.sqrt(reactance ** 2 + resistance ** 2);
    expect(operation!.shortCircuitCurrent! / (voltage / impedance)).toBeCloseTo(1, 5);
  });

  it('speeds: of the phase 6.928203 V; without resistance 40.72 and 43.15 turns a second, with it near those', () => {
    const limit = 12 / 1.7320508;
    const psi = voltage / 628.318531;
    const base = limit / Math.sqrt(psi ** 2 + (inductance * 90) ** 2) / (8 * Math.PI);
    const top = limit / (psi - inductance * 90) / (8 * Math.PI);
    expect(base).toBeCloseTo(40.539, 2);
    expect(top).toBeCloseTo(43.163, 2);
    // Resistance takes 0.051 V of 6.93 V along the EMF, and next to nothing across it.
    expect(operation!.baseSpeed! / (base * (1 - 0.054 / limit))).toBeCloseTo(1, 2);
    expect(operation!.topSpeed! / top).toBeCloseTo(1, 4);
  });

  it('iron: 1 T at the bore, teeth of 9.969763 mm on a pitch of 15.707963 mm, a yoke of 11 mm', () => {
    const tooth = (Math.PI * 122) / 24 - 6;
    expect(tooth).toBeCloseTo(9.969763, 6);
    expect(emf!.gapFluxDensity).toBeCloseTo(1, 12);
    expect(iron!.tooth.noLoad).toBeCloseTo(15.707963 / (tooth * 0.95), 5);
    expect(iron!.yoke.noLoad).toBeCloseTo(2.4e-3 / (2 * 0.011 * 0.08 * 0.95), 6);
    // The armature adds 2 pi 100 x 2.955627 uH x 90 A = 0.167135 V at right angles.
    const rise = Math.sqrt(1 + (0.167135 / voltage) ** 2);
    expect(iron!.tooth.load! / iron!.tooth.noLoad!).toBeCloseTo(rise, 6);
  });

  it('duty: 100 A at standstill for 10 s, 6 Nm at 1500 rpm for 50 s', () => {
    const [fill, run] = duty!.points;
    // 0.0814587 Nm/A; 3 x 100^2 x 0.544641 mohm.
    expect(fill!.torque).toBeCloseTo(8.14587, 4);
    expect(fill!.loss.total).toBeCloseTo(16.33923, 4);
    // 50 A a path over 26.95062 mm2, twice its square in the worst phase; rho = 1.3537/58 ohm mm2/m.
    const rise = (2 * (50 / 26.95062) ** 2 * (1.3537 / 58)) / 3.45;
    expect(fill!.adiabaticRise).toBeCloseTo(rise, 5);
    expect(run!.current).toBeCloseTo(6 / 0.0814587, 3);
    expect(run!.loss.total).toBeCloseTo(3 * 73.65696 ** 2 * resistance, 3);
    const energy = 10 * 16.33923 + 50 * 9.20833;
    expect(duty!.cycle.copperEnergy).toBeCloseTo(energy, 2);
    // 6 Nm x 157.0796 1/s x 50 s of work.
    const work = 6 * 157.079633 * 50;
    expect(duty!.cycle.copperEfficiency).toBeCloseTo(work / (work + energy), 6);
    expect(duty!.cycle.rmsCurrent).toBeCloseTo(Math.sqrt((100 ** 2 * 10 + 73.65696 ** 2 * 50) / 60), 4);
  });
});

describe('tidal pump drive with what an inverter, its joints and the rotor add', () => {
  const more = study(
    text
      .replace('voltage 12 V', 'voltage 12 V  current-harmonic 5 6 %')
      .replace('side-conductance', 'bar-field radial 40 mT  side-conductance')
      .replace('lead-length', 'joint-resistance 8 uohm  lead-length'),
  ).report({ orders: 1 });

  it('joints: eight bars a path, four crowns, three joints, 24 uohm in each of two paths', () => {
    // Two paths side by side: half of it, whatever the temperature.
    expect((more.copper!.resistance.phase! - copper!.resistance.phase!) / 12e-6).toBeCloseTo(1, 3);
    expect((more.copper!.loss.dc! - copper!.loss.dc!) / (3 * 90 ** 2 * 12e-6)).toBeCloseTo(1, 3);
  });

  it('fifth harmonic of 5.4 A at 500 Hz: xi 1.46012, both bars of a slot in phase', () => {
    // h sqrt(pi f mu0 5/6/rho), rho = 1.3537/58 uohm m.
    const rho = 1.3537e-6 / 58;
    const x = 5.5e-3 * Math.sqrt((Math.PI * 500 * 4e-7 * Math.PI * 5) / 6 / rho);
    expect(x).toBeCloseTo(1.460124, 5);
    const phi = (x * (Math.sinh(2 * x) + Math.sin(2 * x))) / (Math.cosh(2 * x) - Math.cos(2 * x));
    const psi = (2 * x * (Math.sinh(x) - Math.sin(x))) / (Math.cosh(x) + Math.cos(x));
    // Two in phase: phi + (4 - 1)/3 psi. At 100 Hz the same of 0.652987; what it adds of the whole bar is told by the page beside.
    const k5 = phi + psi;
    const y = x / Math.sqrt(5);
    const k1 =
      (y * (Math.sinh(2 * y) + Math.sin(2 * y))) / (Math.cosh(2 * y) - Math.cos(2 * y)) +
      (2 * y * (Math.sinh(y) - Math.sin(y))) / (Math.cosh(y) + Math.cos(y));
    const share = 0.0387753 / (k1 - 1);
    const joined = 0.544641e-3 * (1 + share * (k5 - 1)) + 12e-6;
    expect(more.copper!.loss.harmonics! / (3 * 5.4 ** 2 * joined)).toBeCloseTo(1, 3);
  });

  it('field of 40 mT across 5 mm at 100 Hz: 2818.5 W/m3, 48 bars of 80 mm by 26.95062 mm2', () => {
    const rho = 1.3537e-6 / 58;
    const thin = (Math.PI * 100 * 0.04 * 5e-3) ** 2 / (6 * rho);
    // Side over skin depth 0.65: the field's own eddies take 1/3500 off.
    const depth = Math.sqrt(rho / (Math.PI * 100 * 4e-7 * Math.PI));
    const factor = 1 - (5e-3 / depth) ** 4 / 630;
    expect(more.copper!.loss.barField! / (thin * factor * 48 * 0.08 * 26.95062e-6)).toBeCloseTo(1, 5);
  });
});
