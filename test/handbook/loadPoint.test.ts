import { describe, expect, it } from 'vitest';
import { bestLead, leastCurrent, mostTorque } from '../../core/operation/capability.ts';
import {
  axisCurrent,
  loadPoint,
  type PhaseMachine,
  torqueOf,
  voltageSize,
} from '../../core/operation/phasors.ts';
import { highestFrequency, topFrequency } from '../../core/operation/speeds.ts';

// Worked examples of textbooks, seen as re-worked in the FOSSEE (IIT Bombay) Python Textbook Companions
// (example and page numbers are the books'), and parameter records of the open Modelica Standard Library
// and of A. Haumer's ElectricalMachines library. Each row is the source's own statement (voltage, current,
// power factor) turned into EMF and angle between EMF and current, at a frequency of 50 Hz.

const hertz = 50;

/** A machine by its EMF and reactances at a frequency. */
function machineOf(
  emf: number,
  xd: number,
  xq: number,
  resistance: number,
  frequency = hertz,
  polePairs = 1,
): PhaseMachine {
  const omega = 2 * Math.PI * frequency;
  return {
    phases: 3,
    polePairs,
    fluxLinkage: emf / omega,
    d: xd / omega,
    q: xq / omega,
    resistance: () => resistance,
  };
}

const radians = (degrees: number) => (degrees * Math.PI) / 180;

/** Phase angle of a power factor of 0.8, degrees. */
const lagging = 36.869898;

// EMF, I, angle in degrees, Xd, Xq, R, motor; expected phase voltage, power factor.
const rows = [
  [
    'MSL SMPM_VoltageSource; AHaumer SM_PermanentMagnetData',
    112.3,
    100,
    32.2223,
    0.4,
    0.4,
    0.03,
    1,
    100,
    0.980042,
  ],
  ['AHaumer SM_ElectricalExcitedData', 187.10692, 100, 58.77366, 1.6, 1.6, 0.03, 1, 100, 1],
  ['MSL SMR_Inverter, reluctance motor', 0, 50, -37.3251, 3, 1, 0.03, 1, 100, 0.4972],
  [
    'Fitzgerald, Kingsley, Umans, 6th ed., 5.1 p. 254',
    278.818,
    120,
    25.1903,
    1.68,
    1.68,
    0,
    1,
    265.581,
    0.95,
  ],
  ['Fitzgerald, Kingsley, Umans, 5.2 p. 255', 327.16, 113.705, 35.7243, 1.68, 1.68, 0, 1, 265.6, 1],
  ['Fitzgerald, Kingsley, Umans, 5.9 p. 287; Bakshi 6.24', 1.775041, 1, 56.3099, 1, 0.6, 0, -1, 1, -0.8],
  ['Fitzgerald, Kingsley, Umans, 5.11 p. 291', 1503.329, 374.525, 21.547, 1.95, 1.4, 0, 1, 1327.906, 1],
  [
    'Nagrath & Kothari, 4th ed., 8.26',
    2159.0418,
    1.5e6 / 3 / 1905.256,
    21.6379,
    4.01,
    2.88,
    0,
    1,
    1905.256,
    1,
  ],
  ['Bakshi 6.26 p. 81, lagging', 1.61253, 1, 53.2971, 0.8, 0.5, 0.02, -1, 1, -0.8],
  ['Bakshi 6.26 p. 81, leading', 0.789759, 1, -6.953, 0.8, 0.5, 0.02, -1, 1, -0.8],
  ['Bakshi 6.22 p. 78', 5748.289, 2.5e6 / 0.8 / Math.sqrt(3) / 6600, 52.1754, 9.6, 6, 0, -1, 3810.512, -0.8],
  ['Bakshi 6.25 p. 81', 443.1825, 10, 28.2313, 10, 6.5, 0, -1, 400, -Math.cos(radians(20))],
  ['Sen 6.3 p. 319', 206.7577, 5000 / Math.sqrt(3) / 208, 62.3121, 8, 8, 0, -1, 120.089, -0.8],
  ['Bakshi 6.21 p. 77', 524.3456, 1200 / Math.sqrt(3), 4.6491 + lagging, 0.1, 0.075, 0, -1, 480, -0.8],
  ['Bakshi 6.2 p. 31', 1.514885, 1, 14.4703 + lagging, 0.7, 0.4, 0, -1, 1, -0.8],
  [
    'Guru & Hiziroglu, 3rd ed., 7.6 p. 426, lagging',
    233.7654,
    25,
    28.209 + lagging,
    5.6,
    5.6,
    0.1,
    -1,
    120,
    -0.8,
  ],
  ['Guru & Hiziroglu 7.6 p. 426, unity', 186.0276, 25, 48.814, 5.6, 5.6, 0.1, -1, 120, -1],
  ['Guru & Hiziroglu 7.6 p. 426, leading', 119.6923, 25, 71.489 - lagging, 5.6, 5.6, 0.1, -1, 120, -0.8],
  ['Guru & Hiziroglu 7.7 p. 432', 222.534, 25, 25.4143 + lagging, 5, 5, 0.3, -1, 120, -0.8],
  ['Hubert 8.1 p. 317', 534.96, 121.916, 66.5992, 2.72, 2.72, 0, 1, 265.581, 0.8],
  ['Dubey 7.1 (i) p. 247', 1603.201, 52.755, -9.8383, 15, 15, 0, 1, 3300 / Math.sqrt(3), 0.8291],
] as const;

describe('load points of synchronous machines', () => {
  it.each(rows)('%s', (_, emf, current, angle, xd, xq, resistance, sense, voltage, powerFactor) => {
    const machine = machineOf(emf, xd, xq, resistance);
    const point = loadPoint(machine, hertz, axisCurrent(current, radians(angle), sense > 0));
    expect(point.voltage / voltage).toBeCloseTo(1, 4);
    expect(point.powerFactor).toBeCloseTo(powerFactor, 4);
    // What goes in comes out at the shaft, but for the copper loss.
    expect(point.electricalPower - point.shaftPower).toBeCloseTo(3 * resistance * current ** 2, 6);
  });

  it('torques to as many digits as printed', () => {
    // Two pole pairs, 50 Hz: 181.4447 Nm and 185.256354 Nm; SMR_Inverter: 46 Nm at 50 A.
    const torque = (emf: number, current: number, angle: number, xd: number, xq: number) =>
      torqueOf(machineOf(emf, xd, xq, 0.03, hertz, 2), axisCurrent(current, radians(angle)));
    expect(torque(112.3, 100, 32.2223, 0.4, 0.4)).toBeCloseTo(181.4447, 3);
    expect(torque(187.10692, 100, 58.77366, 1.6, 1.6)).toBeCloseTo(185.256354, 3);
    expect(torque(0, 50, -37.3251, 3, 1)).toBeCloseTo(46, 0);
    // Bakshi 6.26: shaft -0.82 = -0.8 - R.
    const generator = loadPoint(
      machineOf(1.61253, 0.8, 0.5, 0.02),
      hertz,
      axisCurrent(1, radians(53.2971), false),
    );
    expect(generator.shaftPower / 3).toBeCloseTo(-0.82, 5);
  });

  it('by hand: 169.3 V, 0.281 mH, 14 mohm, 300 Hz, 400 A take 475.85 V between the lines of a star', () => {
    const machine = machineOf(169.3, 2 * Math.PI * 300 * 0.281e-3, 2 * Math.PI * 300 * 0.281e-3, 0.014, 300);
    const point = loadPoint(machine, 300, axisCurrent(400, 0));
    expect(Math.sqrt(3) * point.voltage).toBeCloseTo(475.85, 1);
    expect(point.powerFactor).toBeCloseTo(0.63662, 4);
    expect(point.voltage).toBeCloseTo(Math.hypot(169.3 + 5.6, 2 * Math.PI * 300 * 0.281e-3 * 400), 9);
  });

  it('pull-out torque: Fitzgerald, Kingsley, Umans, 5.7a p. 272, 3096 kW; 5.11 p. 291, 3235 kW unrounded', () => {
    // The voltage alone limits: the current limit is out of reach.
    const most = (emf: number, xd: number, xq: number) => {
      const machine = machineOf(emf, xd, xq, 0, 60);
      const current = mostTorque(machine, 60, { current: 1e4, voltage: 1327.906 })!;
      return loadPoint(machine, 60, current).shaftPower / 1e3;
    };
    expect(most(1515.488, 1.95, 1.95)).toBeCloseTo(3096.04, 0);
    expect(most(1503.329, 1.95, 1.4)).toBeCloseTo(3235, 0);
    // 5.7b: fed by a generator of 1657.82 V behind 2.65 ohm: 1639 kW, at 30 poles 65.2 kNm.
    const machine = machineOf(1515.488, 1.95 + 2.65, 1.95 + 2.65, 0, 60, 15);
    const current = mostTorque(machine, 60, { current: 1e4, voltage: 1657.82 })!;
    expect(loadPoint(machine, 60, current).shaftPower / 1e3).toBeCloseTo(1638.53, 1);
    expect(torqueOf(machine, current) / 1e3).toBeCloseTo(65.195, 2);
  });
});

describe('field weakening', () => {
  it('Fitzgerald, Kingsley, Umans, 11.10 p. 593: 48.2 A, 1.27, -66.1 A and 58 A', () => {
    // 25 kW at 4000 rpm, two poles, 1.75 mH; 220 V open circuit at 3200 rpm; the flux is then 0.536042 Wb peak.
    const psi = (220 * Math.sqrt(2 / 3)) / (2 * Math.PI * (3200 / 60));
    expect(psi).toBeCloseTo(0.536042, 5);
    const machine: PhaseMachine = {
      phases: 3,
      polePairs: 1,
      fluxLinkage: psi / Math.SQRT2,
      d: 1.75e-3,
      q: 1.75e-3,
      resistance: () => 0,
    };
    const frequency = 4000 / 60;
    const torque = (0.65 * 25e3) / (2 * Math.PI * frequency);
    const q = torque / (3 * machine.fluxLinkage);
    expect(Math.SQRT2 * q).toBeCloseTo(48.2475, 3);
    const phase = 220 / Math.sqrt(3);
    expect(voltageSize(machine, frequency, { d: 0, q }) / phase).toBeCloseTo(1.26541, 4);
    const d =
      (Math.sqrt((phase / (2 * Math.PI * frequency)) ** 2 - (machine.q * q) ** 2) - machine.fluxLinkage) /
      machine.d;
    expect(Math.SQRT2 * d).toBeCloseTo(-66.0586, 3);
    expect(Math.hypot(d, q)).toBeCloseTo(57.843, 2);
    expect(voltageSize(machine, frequency, { d, q }) / phase).toBeCloseTo(1, 9);
  });

  // Data of Modelica.Electrical.Machines, SMPM_FieldWeakening: parameters seen, figures by a second computation.
  const weakened = machineOf(80, 0.4, 0.4, 0.03, 50, 2);

  it('base and top speed: 54.397 Hz; 4.99493 times 50 Hz, 5 without resistance', () => {
    expect(voltageSize(weakened, 50, { d: 0, q: 100 })).toBeCloseTo(92.136, 3);
    expect(highestFrequency(weakened, { d: 0, q: 100 }, 100)).toBeCloseTo(54.397, 3);
    expect(topFrequency(weakened, 150, 100)! / 50).toBeCloseTo(4.99493, 5);
    expect(topFrequency({ ...weakened, resistance: () => 0 }, 150, 100)! / 50).toBeCloseTo(5, 9);
    // A current as large as the characteristic one, 80 V/0.4 ohm, cancels the field.
    expect(topFrequency(weakened, 200, 100)).toBe(Number.POSITIVE_INFINITY);
  });

  it.each([
    [2, -120.611, 89.18, 136.257],
    [3, -140.254, 53.187, 81.264],
    [4, -147.058, 29.561, 45.165],
  ])('at %d times the frequency current and voltage leave so much torque', (times, d, q, torque) => {
    const current = mostTorque(weakened, 50 * times, { current: 150, voltage: 100 })!;
    expect(current.d).toBeCloseTo(d, 2);
    expect(current.q).toBeCloseTo(q, 2);
    expect(torqueOf(weakened, current)).toBeCloseTo(torque, 2);
  });

  it('at 1.5 times the frequency the torque of 100 A along the EMF takes 74.545 A against the field', () => {
    const { d, q } = leastCurrent(weakened, 75, 152.789, 100)!;
    expect(d).toBeCloseTo(-74.545, 2);
    expect(q).toBeCloseTo(100, 2);
  });

  it('best angle of unequal axes: 9.6737 degrees, 217.755 Nm against 214.477 Nm (SMPM_MTPA)', () => {
    const salient = machineOf(112.3, 0.2, 0.4, 0.03, 50, 2);
    const lead = bestLead(salient, 100);
    expect((lead * 180) / Math.PI).toBeCloseTo(9.6737, 4);
    const current = axisCurrent(100, lead);
    expect(current.d).toBeCloseTo((112.3 - Math.sqrt(112.3 ** 2 + 8 * 0.2 ** 2 * 100 ** 2)) / (4 * 0.2), 9);
    expect(torqueOf(salient, current)).toBeCloseTo(217.755, 3);
    expect(torqueOf(salient, axisCurrent(100, 0))).toBeCloseTo(214.477, 3);
    // A search over the angle finds the same.
    let best = 0;
    for (let i = -900; i <= 900; i++)
      if (
        torqueOf(salient, axisCurrent(100, radians(i / 10))) >
        torqueOf(salient, axisCurrent(100, radians(best)))
      )
        best = i / 10;
    expect(best).toBeCloseTo(9.7, 6);
  });
});
