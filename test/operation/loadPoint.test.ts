// Takes its time: studies whole windings.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compare } from '../../core/review/compare.ts';
import { withLine } from '../copper/machines.ts';
import { told } from '../support/told.ts';
import { study } from '../support/withoutEnds.ts';
import { smallDrive as drive } from './machines.ts';

const operationOf = (text: string) => study(text).report({ orders: 1 }).operation!;
const findingsOf = (text: string, code: string) =>
  study(text)
    .findings.filter((found) => found.code === code)
    .map((found) => ({ ...found, words: text.slice(found.range.start, found.range.end) }));

/** A machine of 54 slots that needs 476 V: 169.3 V of EMF, 0.281 mH, 14 mohm, 300 Hz, 400 A, star. */
const tall = `winding "Lock barge thruster"
machine {
  slots 54
  poles 6
  phases 3
  bore 170 mm
  stack 150 mm
  air-gap 1 mm
  magnet-height 5 mm
  speed 6000 rpm
  flux 8.27 mWb
  current 400 A
  voltage 320 V
  winding-temperature 120 degC
}
slot { width 5 mm  depth 16 mm  opening 1.5 mm  opening-height 1 mm  liner 0.3 mm }
bar {
  width 3.8 mm
  height 3.3 mm
  corner 0.5 mm
  coating 0.09 mm
  end-straight 6 mm
  end-clearance 0.6 mm
  joint-straight 8 mm
}
layout { layers 4  span 9 }
connect { star  route paths 2 }
`;

describe('the rated load point', () => {
  it('by hand from its own parts: phasors of EMF, resistance and reactance', () => {
    const { emf, copper, operation } = study(drive).report({ orders: 1 });
    const { inductance } = operation!;
    const sum = inductance.magnetizing! + inductance.differential! + inductance.slot!;
    expect(inductance.d! / sum).toBeCloseTo(1, 12);
    expect(inductance.q! / sum).toBeCloseTo(1, 12);
    expect(inductance.magnetizing).toBe(emf!.magnetizingInductance);
    expect(inductance.slot).toBe(copper!.leakage.slotInductance);
    const [resistance, reactance] = [
      copper!.resistance.phase! * copper!.acRatio.bar!,
      2 * Math.PI * 150 * inductance.d!,
    ];
    const phase = Math.hypot(emf!.phaseVoltage! + resistance * 120, reactance * 120);
    expect(operation!.terminalVoltage! / (Math.sqrt(3) * phase)).toBeCloseTo(1, 12);
    expect(operation!.apparentPower! / (3 * phase * 120)).toBeCloseTo(1, 12);
    expect(operation!.powerFactor! / ((emf!.phaseVoltage! + resistance * 120) / phase)).toBeCloseTo(1, 12);
    expect(operation!.torque).toBe(emf!.torque);
    expect(operation!.shaftPower! / (3 * emf!.phaseVoltage! * 120)).toBeCloseTo(1, 12);
    expect(operation!.characteristicCurrent! / (emf!.phaseVoltage! / reactance)).toBeCloseTo(1, 12);
    expect(
      operation!.shortCircuitCurrent! / (emf!.phaseVoltage! / Math.hypot(resistance, reactance)),
    ).toBeCloseTo(1, 9);
    // What the terminals take is what the shaft gives and the copper loses.
    const taken = operation!.apparentPower! * operation!.powerFactor!;
    expect(taken / (operation!.shaftPower! + copper!.loss.total!)).toBeCloseTo(1, 9);
  });

  it('delta: the phase carries the current of a terminal over sqrt 3, line and phase voltage are one', () => {
    const [star, delta] = [operationOf(drive), operationOf(drive.replace('star', 'delta'))];
    expect(delta.inductance.d).toBeCloseTo(star.inductance.d!, 15);
    expect(delta.characteristicCurrent! / star.characteristicCurrent!).toBeCloseTo(Math.sqrt(3), 9);
    expect(delta.current).toBe(120);
    // The same phase current takes the same phase voltage.
    const same = operationOf(
      withLine(drive.replace('star', 'delta'), 'current 120', `  current ${120 * Math.sqrt(3)} A`),
    );
    expect(same.terminalVoltage! / (star.terminalVoltage! / Math.sqrt(3))).toBeCloseTo(1, 9);
    expect(same.torque! / star.torque!).toBeCloseTo(1, 9);
  });

  it('an angle turns the current against the field, for torque, its figures and the voltage alike', () => {
    const angled = withLine(drive, 'current-angle', '  current-angle 35 edeg');
    const [plain, weak] = [study(drive).report({ orders: 1 }), study(angled).report({ orders: 1 })];
    const cosine = Math.cos((35 * Math.PI) / 180);
    for (const name of ['torque', 'torquePerAmpere', 'motorConstant', 'power'] as const)
      expect(weak.emf![name]! / plain.emf![name]!, name).toBeCloseTo(cosine, 9);
    expect(weak.operation!.angle).toBeCloseTo(35, 12);
    expect(weak.operation!.terminalVoltage!).toBeLessThan(plain.operation!.terminalVoltage!);
    // In slots and mechanical degrees the same angle: 35 over two pole pairs.
    const mechanical = angled.replace('35 edeg', '17.5 deg');
    expect(operationOf(mechanical).torque! / weak.operation!.torque!).toBeCloseTo(1, 12);
    expect(study(withLine(drive, 'current-angle', null)).report({ orders: 1 }).emf).toEqual(plain.emf);
  });

  it('unequal axes: the stated inductances take the place of the parts and give a torque of their own', () => {
    const axes = withLine(
      drive,
      'current-angle',
      '  d-inductance 0.03 mH\n  q-inductance 0.05 mH\n  current-angle 20 edeg',
    );
    const { operation, emf, assumptions } = study(axes).report({ orders: 1 });
    expect([operation!.inductance.d, operation!.inductance.q]).toEqual([0.03e-3, 0.05e-3]);
    expect(operation!.inductance.magnetizing).toBeGreaterThan(0);
    const [d, q] = [-120 * Math.sin(Math.PI / 9), 120 * Math.cos(Math.PI / 9)];
    const psi = study(drive).report({ orders: 1 }).emf!.phaseVoltage! / (2 * Math.PI * 150);
    const torque = 3 * 2 * (psi - 0.02e-3 * d) * q;
    expect(operation!.torque! / torque).toBeCloseTo(1, 9);
    // The current that takes the whole flux of the magnets away flows in the d axis.
    expect(operation!.characteristicCurrent! / (psi / 0.03e-3)).toBeCloseTo(1, 9);
    expect(emf!.torquePerAmpere! * 120).toBeCloseTo(torque, 6);
    expect(assumptions.some((line) => line.includes('as stated'))).toBe(true);
    const half = study(withLine(axes, 'q-inductance', null)).report({ orders: 1 });
    expect(half.operation!.inductance.d).toBeNull();
    expect(half.missing.find(({ quantity }) => quantity === 'operation.inductance.d')?.needs).toEqual([
      'machine q-inductance',
    ]);
  });

  it('says what is not modeled', () => {
    const { assumptions } = study(withLine(drive, 'current-angle', null)).report({ orders: 1 });
    expect(assumptions).toContain('machine current-angle: 0 edeg (default)');
    for (const words of ['no rotor saliency and no saturation', 'end windings counts zero'])
      expect(assumptions.filter((line) => line.includes(words)).length, words).toBe(1);
  });
});

describe('base speed, top speed and the torque-speed curve', () => {
  it('the rated current takes just the voltage at base speed', () => {
    const { baseSpeed } = operationOf(drive);
    const at = operationOf(withLine(drive, 'speed', `  speed ${baseSpeed! * 60} rpm`));
    expect(at.terminalVoltage).toBeCloseTo(36, 6);
    // Above it no more.
    const above = operationOf(withLine(drive, 'speed', `  speed ${baseSpeed! * 61} rpm`));
    expect(above.terminalVoltage).toBeGreaterThan(36);
  });

  it('ends where all of the current stands against the field and takes just the voltage', () => {
    const { topSpeed, topSpeedUnlimited, curve } = operationOf(drive);
    expect(topSpeedUnlimited).toBe(false);
    const last = curve.at(-1)!;
    expect(last.speed / topSpeed!).toBeCloseTo(1, 12);
    expect(last.torque).toBe(0);
    expect(last.angle).toBeCloseTo(90, 9);
    expect(last.terminalVoltage).toBeCloseTo(36, 6);
    expect(curve[0]!.speed).toBe(0);
    expect(curve[0]!.torque / operationOf(drive).torque!).toBeCloseTo(1, 9);
    for (const point of curve) {
      expect(point.terminalVoltage).toBeLessThanOrEqual(36 * (1 + 1e-8));
      expect(point.current).toBeLessThanOrEqual(120 * (1 + 1e-8));
      expect(point.power).toBeCloseTo(2 * Math.PI * point.speed * point.torque, 6);
    }
    for (let i = 1; i < curve.length; i++)
      expect(curve[i]!.torque).toBeLessThanOrEqual(curve[i - 1]!.torque * (1 + 1e-8) + 1e-9);
  });

  it('stands at round speeds, of which the report lists at least eight and the last', () => {
    for (const speed of [36, 970, 1450, 3600, 11_000]) {
      const text = withLine(drive, 'speed', `  speed ${speed} rpm`);
      const { curve, baseSpeed } = operationOf(text);
      const rpm = curve.map((point) => point.speed * 60);
      const step = rpm[1]!;
      expect(['1', '2', '5']).toContain(step.toExponential(6)[0]);
      const odd = rpm.filter((value) => Math.abs(value / step - Math.round(value / step)) > 1e-9);
      // The corner, fifteen from there to the top, and the top.
      expect(odd.length).toBeLessThanOrEqual(17);
      expect(rpm.length - odd.length).toBeGreaterThanOrEqual(40);
      expect(baseSpeed).not.toBeNull();
      const table = study(text).markdown().split('Most torque at each speed')[1]!.split('\n\n')[1]!;
      const listed = table
        .split('\n')
        .slice(2)
        .map((row) => Number(row.split('|')[1]));
      expect(listed.length).toBeGreaterThanOrEqual(9);
      expect(listed.slice(0, -1)).toEqual(
        listed.slice(0, -1).map((_, i) => Number((i * listed[1]!).toPrecision(5))),
      );
    }
  });

  it('bends evenly beyond the corner, where the torque falls within few round speeds', () => {
    const ferry = readFileSync(new URL('../../examples/cable-ferry-drum.winding', import.meta.url), 'utf8');
    const { curve, topSpeed, torque } = operationOf(ferry);
    const beyond = curve.filter(({ angle }) => angle > 0);
    expect(beyond.length).toBeGreaterThan(15);
    // How far each point lies from the straight between its neighbors, in shares of the whole torque.
    const off = beyond.slice(1, -1).map((point, index) => {
      const [before, after] = [beyond[index]!, beyond[index + 2]!];
      const share = (point.speed - before.speed) / (after.speed - before.speed);
      return point.torque - before.torque - share * (after.torque - before.torque);
    });
    expect(beyond.at(-1)!.speed / topSpeed!).toBeCloseTo(1, 12);
    expect(Math.max(...off.map(Math.abs)) / torque!).toBeLessThan(0.01);
  });

  it('a current above the characteristic one knows no top speed', () => {
    const strong = withLine(drive, 'current 120', '  current 700 A');
    const { topSpeed, topSpeedUnlimited, characteristicCurrent } = operationOf(strong);
    expect(characteristicCurrent).toBeLessThan(700);
    expect([topSpeed, topSpeedUnlimited]).toEqual([null, true]);
    const limited = study(`${strong}require { top-speed >= 90000 rpm }\n`);
    expect(limited.limits.map(({ met }) => met)).toEqual([true]);
    expect(limited.markdown()).toContain('| top-speed | at least 90000 rpm | no limit |');
    expect(limited.report({ orders: 1 }).limits[0]).toMatchObject({ actual: null, met: true });
    expect(
      limited.report({ orders: 1 }).missing.some(({ quantity }) => quantity === 'operation.topSpeed'),
    ).toBe(false);
    // From a number to no limit is no number that moved.
    expect(
      compare(study(drive), study(strong)).numbers.every(
        ({ difference }) => difference !== Number.POSITIVE_INFINITY,
      ),
    ).toBe(true);
  });
});

describe('a voltage that does not reach', () => {
  it('54 slots: 476 V are needed where 320 V are stated; an angle that fits is told with its torque', () => {
    const { operation } = study(tall).report({ orders: 1 });
    expect(operation!.terminalVoltage!).toBeGreaterThan(320);
    const [found] = findingsOf(tall, 'voltage-too-low');
    expect(found).toMatchObject({ severity: 'warning', words: 'voltage 320 V' });
    expect(found!.message).toContain(`needs ${operation!.terminalVoltage!.toPrecision(4)} V`);
    const speed = Number(/speed ([\d.]+) rpm/.exec(tall)![1]);
    expect(found!.message).toContain(`at ${operation!.current} A and ${speed} rpm`);
    const [, angle, torque] = /current-angle ([\d.]+) edeg fits and leaves ([\d.]+) Nm/.exec(found!.message)!;
    const fitting = tall.replace('  voltage', `  current-angle ${Number(angle) + 0.05} edeg\n  voltage`);
    expect(findingsOf(fitting, 'voltage-too-low')).toEqual([]);
    expect(operationOf(fitting).torque! / Number(torque)).toBeCloseTo(1, 2);
    // In a delta the current of the message is that of the terminals, too.
    const delta = withLine(tall.replace('star', 'delta'), 'voltage', '  voltage 180 V');
    expect(findingsOf(delta, 'voltage-too-low')[0]!.message).toContain(`at ${operation!.current} A and`);
    // A smaller angle does not.
    expect(
      findingsOf(
        fitting.replace(/current-angle [\d.]+/, `current-angle ${Number(angle) - 1}`),
        'voltage-too-low',
      ),
    ).toHaveLength(1);
  });

  it('a written angle is an error, and so is a voltage that no angle fits', () => {
    const written = tall.replace('  voltage', '  current-angle 10 edeg\n  voltage');
    expect(findingsOf(written, 'voltage-too-low')[0]).toMatchObject({ severity: 'error' });
    const hopeless = withLine(tall, 'voltage', '  voltage 60 V');
    const [found] = findingsOf(hopeless, 'voltage-too-low');
    expect(found).toMatchObject({ severity: 'error' });
    expect(found!.message).toContain('fits at no angle');
    expect(findingsOf(hopeless, 'voltage-below-emf')[0]).toMatchObject({ severity: 'warning' });
    expect(findingsOf(withLine(tall, 'voltage', '  voltage 500 V'), 'voltage-too-low')).toEqual([]);
  });

  it('five phases: the largest line voltage counts', () => {
    const five = drive
      .replace('slots 24', 'slots 20')
      .replace('phases 3', 'phases 5')
      .replace('span 6', 'span 5');
    const { operation, assumptions } = study(five).report({ orders: 1 });
    expect(assumptions.some((line) => line.includes('any two line terminals'))).toBe(true);
    const largest = operation!.terminalVoltage! * (Math.sin((2 * Math.PI) / 5) / Math.sin(Math.PI / 5));
    const at = (voltage: number) =>
      findingsOf(withLine(five, 'voltage', `  voltage ${voltage} V`), 'voltage-too-low');
    expect(at(largest * 1.001)).toEqual([]);
    const [lacking] = at(largest * 0.999);
    expect(lacking!.message).toContain(`needs ${Number(largest.toPrecision(4))} V`);
  });

  it('limits: line voltage, power factor, speeds and currents', () => {
    const { limits } = study(
      `${drive}require { terminal-voltage <= 36 V  power-factor >= 0.9  base-speed >= 4600 rpm  top-speed <= 10000 rpm  characteristic-current >= 300 A  short-circuit-current <= 1 kA }\n`,
    );
    expect(limits.map(({ quantity, met }) => [quantity, met])).toEqual([
      ['terminal-voltage', true],
      ['power-factor', true],
      ['base-speed', true],
      ['top-speed', true],
      ['characteristic-current', true],
      ['short-circuit-current', true],
    ]);
  });
});

// Which figures go missing without a statement, worked out by hand from the formulas.
const all = [
  'inductance.d',
  'inductance.q',
  'inductance.magnetizing',
  'inductance.differential',
  'inductance.slot',
  'current',
  'angle',
  'terminalVoltage',
  'powerFactor',
  'apparentPower',
  'shaftPower',
  'torque',
  'baseSpeed',
  'topSpeed',
  'characteristicCurrent',
  'shortCircuitCurrent',
];
const point = ['terminalVoltage', 'powerFactor', 'apparentPower'];
const speeds = ['baseSpeed', 'topSpeed'];
const ofMachine = [...point, ...speeds, 'shortCircuitCurrent'];
const ofAxes = ['inductance.d', 'inductance.q', 'characteristicCurrent', ...ofMachine];
const gap = ['inductance.magnetizing', 'inductance.differential', ...ofAxes];
const slot = ['inductance.slot', ...ofAxes];
const required: Readonly<Record<string, readonly string[]>> = {
  bore: [...gap, ...ofMachine],
  stack: [...gap, ...slot],
  'air-gap': gap,
  'magnet-height': gap,
  speed: [...point, 'shaftPower', 'shortCircuitCurrent'],
  flux: [...ofMachine, 'shaftPower', 'torque', 'characteristicCurrent'],
  'current 120': ['current', 'angle', ...point, 'shaftPower', 'torque', ...speeds],
  voltage: speeds,
  'winding-temperature': ofMachine,
  'end-temperature': [],
  'magnet-permeability': [],
  carter: [],
  'current-angle': [],
  'side-conductance': [],
  'width 4.6': slot,
  depth: slot,
  'opening ': slot,
  'opening-height': slot,
  'width 3.6': ofMachine,
  'height 3 ': slot,
  'end-straight': ofMachine,
  'end-clearance': ofMachine,
  'joint-straight': ofMachine,
  star: [...point, 'shaftPower', 'torque', ...speeds, 'characteristicCurrent', 'shortCircuitCurrent'],
};

describe('leaving out one statement', () => {
  const missingOf = (text: string) =>
    told('operation', study(text).facts!.operation())
      .missing.map(({ quantity }) => quantity.replace('operation.', ''))
      // The end windings are left out of these texts' studies; all else is known without them.
      .filter((quantity) => quantity !== 'inductance.end');

  it('the full text lacks nothing', () => {
    expect(missingOf(drive)).toEqual([]);
    expect(
      all.every(
        (name) =>
          name
            .split('.')
            .reduce<unknown>((found, key) => (found as Record<string, unknown>)[key], operationOf(drive)) !==
          null,
      ),
    ).toBe(true);
  });

  it.each(Object.entries(required))(
    '%s: exactly the figures that follow from it go missing',
    (start, expected) => {
      const text =
        start === 'star'
          ? drive.slice(0, drive.indexOf('connect {')).concat('connect { route paths 2 }\n')
          : withLine(drive, start, null);
      expect([...new Set(missingOf(text))].sort()).toEqual([...new Set(expected)].sort());
    },
  );
});
