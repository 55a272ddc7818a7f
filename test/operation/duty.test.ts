// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import { format } from '../../core/language/format/formatter.ts';
import { compare } from '../../core/review/compare.ts';
import { dutyTables } from '../../core/sheets/duty.ts';
import { withLine } from '../copper/machines.ts';
import { told, toldDuty } from '../support/told.ts';
import { study, unmeasured } from '../support/withoutEnds.ts';
import { smallDrive } from './machines.ts';

const block = `duty {
  point "cast off" speed 0 rpm current 150 A for 20 s
  point "climb" speed 2000 rpm torque 14 Nm for 2 min
  point "cruise" speed 6000 rpm torque 8 Nm for 0.25 h
  point "brake" speed 2000 rpm torque -10 Nm for 30 s
}
`;
const drive = smallDrive + block;
const dutyOf = (text: string) => toldDuty(study(text).facts!.duty());
/** A point of the duty, without the cycle of all of them. */
const pointOf = (text: string, name: string) =>
  toldDuty(unmeasured(text).facts!.duty()).points.find((point) => point.name === name)!;

describe('points of the duty', () => {
  it('a torque takes the least current; at the rated point that is the rated one', () => {
    const { torque } = told('operation', study(drive).facts!.operation());
    const rated = withLine(
      drive,
      'point "climb"',
      `  point "climb" speed 4500 rpm torque ${torque} Nm for 2 min`,
    );
    const point = pointOf(rated, 'climb');
    expect(point.current).toBeCloseTo(120, 6);
    expect(point.angle).toBeCloseTo(0, 6);
    const { operation, copper } = study(rated).report({ orders: 1 });
    expect(point.terminalVoltage! / operation!.terminalVoltage!).toBeCloseTo(1, 9);
    expect(point.powerFactor! / operation!.powerFactor!).toBeCloseTo(1, 9);
    expect(point.loss.dc! / copper!.loss.dc!).toBeCloseTo(1, 9);
    expect(point.loss.ac! / copper!.loss.ac!).toBeCloseTo(1, 9);
    expect(point.hotSpot! / copper!.heat.hotSpot!).toBeCloseTo(1, 9);
  });

  it('without current has neither an angle nor a power factor, which is no lack of the duty', () => {
    const idle = drive.replace(
      'point "brake" speed 2000 rpm torque -10 Nm',
      'point "wait" speed 2000 rpm current 0 A',
    );
    const point = pointOf(idle, 'wait');
    expect([point.current, point.torque, point.angle, point.powerFactor]).toEqual([0, 0, null, null]);
    expect(point.terminalVoltage).toBeGreaterThan(0);
    const { missing, points } = dutyOf(idle);
    expect(missing).toEqual([]);
    expect(points.filter(({ powerFactor }) => powerFactor === null).map(({ name }) => name)).toEqual([
      'wait',
    ]);
    const studied = study(`${idle}require { power-factor at "wait" >= 0.9 }\n`);
    expect(studied.findings.map(({ message }) => message).join()).toContain(
      'without current there is no power factor',
    );
    const words = 'Without current there is neither an angle nor a power factor.';
    expect(studied.markdown({ orders: 1 })).toContain(words);
    expect(studied.markdown({ orders: 1 })).toMatch(/^\| wait \|.*\| 0 \| \u2013 \|[^|]+\| \u2013 \|/m);
    const sheet = (text: string) => dutyTables(study(text).facts!, 'Machine')[0]!.remarks;
    expect(sheet(idle)).toContain(words);
    expect(sheet(drive)).not.toContain(words);
    const none = drive
      .replace(/point.*/g, '')
      .replace('duty {', 'duty { point "wait" speed 0 rpm current 0 A for 1 min');
    expect(pointOf(none, 'wait').powerFactor).toBeNull();
    expect(dutyOf(none).missing.map(({ quantity }) => quantity)).not.toContain('duty.points.powerFactor');
  });

  it('above base speed the voltage asks for more current, against the field', () => {
    const cruise = pointOf(drive, 'cruise');
    expect(cruise.torque).toBe(8);
    expect(cruise.terminalVoltage).toBeCloseTo(36, 6);
    expect(cruise.angle).toBeGreaterThan(10);
    const free = pointOf(withLine(drive, 'voltage', null), 'cruise');
    expect(free.current).toBeLessThan(cruise.current!);
    expect(free.angle).toBeCloseTo(0, 9);
    // The same torque all the same: the part of the current along the EMF is equal.
    const along = ({ current, angle }: typeof free) => current! * Math.cos((angle! * Math.PI) / 180);
    expect(along(cruise) / along(free)).toBeCloseTo(1, 9);
  });

  it('at standstill: torque of the flux, loss of direct current, twice that in the worst phase', () => {
    const { emf, copper } = study(drive).report({ orders: 1 });
    const point = pointOf(drive, 'cast off');
    expect(point.torque! / (emf!.torquePerAmpere! * 150)).toBeCloseTo(1, 9);
    expect(point.loss.total! / (3 * 150 ** 2 * copper!.resistance.phase!)).toBeCloseTo(1, 9);
    expect(point.loss.ac).toBeCloseTo(0, 9);
    // J^2 rho/c with twice the square: 0.0172414 ohm mm2/m warm, 3.45 MJ/(m3 K).
    const area = 3.6 * 3 - (4 - Math.PI) * 0.25;
    const rho = (1e-6 / 58) * (1 + 0.00393 * 100);
    expect(point.adiabaticRise! / ((2 * (150e6 / area) ** 2 * rho) / 3.45e6)).toBeCloseTo(1, 9);
    const turning = pointOf(
      withLine(drive, 'point "cast', '  point "cast off" speed 1 rpm current 150 A for 20 s'),
      'cast off',
    );
    expect(point.adiabaticRise! / turning.adiabaticRise!).toBeCloseTo(2, 9);
    expect(point.hotSpot!).toBeGreaterThan(turning.hotSpot!);
  });

  it('adiabatic rise at 20 degC: 0.49974 K/s at 10 A/mm2 (IEC 60949: 3.45 MJ/(m3 K))', () => {
    const area = 3.6 * 3 - (4 - Math.PI) * 0.25;
    const cold = withLine(drive, 'winding-temperature', '  winding-temperature 20 degC');
    const text = withLine(
      cold,
      'point "cast',
      `  point "cast off" speed 100 rpm current ${10 * area} A for 20 s`,
    );
    // The standard's 0.017241 ohm mm2/m against 1/58.
    expect(pointOf(text, 'cast off').adiabaticRise! * (0.017241 * 58)).toBeCloseTo(0.49974, 4);
  });

  it('braking feeds power back', () => {
    const brake = pointOf(drive, 'brake');
    expect(brake.torque).toBe(-10);
    expect(brake.powerFactor).toBeLessThan(0);
  });

  it('takes a frequency, and an angle', () => {
    const text = withLine(
      drive,
      'point "climb"',
      '  point "climb" frequency 50 Hz current 100 A angle 30 edeg for 1 s',
    );
    const point = pointOf(text, 'climb');
    expect(point.speed).toBeCloseTo(25, 12);
    expect(point.angle).toBeCloseTo(30, 9);
    expect(point.torque! / (told('emf', study(drive).facts!.emf()).torquePerAmpere! * 100)).toBeCloseTo(
      Math.cos(Math.PI / 6),
      9,
    );
    const torque = withLine(
      drive,
      'point "climb"',
      '  point "climb" speed 1500 rpm torque 5 Nm angle 30 edeg for 1 s',
    );
    expect(
      pointOf(torque, 'climb').current! *
        Math.cos(Math.PI / 6) *
        told('emf', study(drive).facts!.emf()).torquePerAmpere!,
    ).toBeCloseTo(5, 9);
  });
});

describe('the cycle', () => {
  it('what goes in comes out: electrical energy is work and copper loss, to 1e-6', () => {
    const { points, cycle } = dutyOf(drive);
    let taken = 0;
    let work = 0;
    let moved = 0;
    for (const { current, terminalVoltage, powerFactor, torque, speed, duration } of points) {
      taken += Math.sqrt(3) * terminalVoltage! * current! * powerFactor! * duration;
      work += torque! * 2 * Math.PI * speed * duration;
      moved += Math.abs(torque! * 2 * Math.PI * speed * duration);
    }
    expect(taken / (work + cycle.copperEnergy!)).toBeCloseTo(1, 6);
    expect(cycle.copperEfficiency! / (moved / (moved + cycle.copperEnergy!))).toBeCloseTo(1, 9);
    expect(cycle.duration).toBe(20 + 120 + 900 + 30);
    expect(cycle.meanCopperLoss! / (cycle.copperEnergy! / 1070)).toBeCloseTo(1, 12);
  });

  it.each([
    // Singhal and Gupta, Introduction to Electric Drives, 6.1 p. 173; Gupta, Elements of Electric Drives, 57
    // p. 152; seen in the FOSSEE Python Textbook Companions: powers, whose rms is that of currents alike.
    [[50, 100, 150, 120, 0], [20, 20, 10, 20, 15], 94.7442],
    [[100, 50, 0, 0], [10, 8, 5, 4], 66.6667],
  ])('rms of %j for %j min: %d', (values, minutes, rms) => {
    const points = values.map(
      (value, i) => `  point "${i}" speed 100 rpm current ${value} A for ${minutes[i]} min\n`,
    );
    expect(dutyOf(`${smallDrive}duty {\n${points.join('')}}\n`).cycle.rmsCurrent).toBeCloseTo(rms, 4);
  });
});

describe('findings and limits', () => {
  const findingsOf = (text: string, code: string) =>
    study(text)
      .findings.filter((found) => found.code === code)
      .map((found) => ({ ...found, words: text.slice(found.range.start, found.range.end) }));

  it('a point beyond the voltage is an error, with what is within reach', () => {
    expect(findingsOf(drive, 'point-out-of-reach')).toEqual([]);
    const far = withLine(drive, 'point "cruise"', '  point "cruise" speed 30000 rpm torque 40 Nm for 15 min');
    const [found] = findingsOf(far, 'point-out-of-reach');
    expect(found).toMatchObject({ severity: 'error' });
    expect(found!.words).toMatch(/^point "cruise" .* 15 min$/);
    const leaves = Number(/leaves ([\d.]+) Nm/.exec(found!.message)![1]);
    const within = (torque: number) =>
      findingsOf(
        withLine(far, 'point "cruise"', `  point "cruise" speed 30000 rpm torque ${torque} Nm for 15 min`),
        'point-out-of-reach',
      );
    expect(within(leaves * 0.998)).toEqual([]);
    expect(within(leaves * 1.002)).toHaveLength(1);
    expect(pointOf(far, 'cruise').current).toBeNull();
  });

  it('an angle at which the voltage does not do is told apart', () => {
    const text = withLine(
      drive,
      'point "cruise"',
      '  point "cruise" speed 6000 rpm torque 8 Nm angle 0 edeg for 15 min',
    );
    expect(findingsOf(text, 'point-out-of-reach')[0]!.message).toContain('at another it does');
  });

  it('names are given once', () => {
    const text = withLine(drive, 'point "brake"', '  point "climb" speed 2000 rpm torque -10 Nm for 30 s');
    expect(findingsOf(text, 'duty-point-repeated')).toHaveLength(1);
  });

  it('limits at a point, and of the cycle', () => {
    const text = `${drive}require {
  copper-loss at "climb" <= 900 W
  terminal-voltage at "cruise" <= 35 V
  terminal-current at "cast off" <= 150 A
  torque at "cast off" >= 8 Nm
  power-factor at "climb" >= 0.9
  hot-spot-temperature at "cruise" <= 155 degC
  copper-loss at "drift" <= 900 W
  cycle-copper-efficiency >= 90 %
  cycle-copper-loss <= 300 W
  cycle-copper-energy <= 300 kJ
  cycle-current <= 250 A
  cycle-hot-spot <= 105 degC
}
`;
    const { limits, markdown, report } = study(text);
    expect(limits.map(({ met }) => met)).toEqual([
      true,
      false,
      true,
      true,
      true,
      true,
      null,
      true,
      true,
      true,
      true,
      true,
    ]);
    expect(limits[6]!.reason).toBe('the duty has no point "drift"');
    expect(markdown()).toContain('terminal-voltage at "cruise"');
    expect(report({ orders: 1 }).limits[0]).toMatchObject({ quantity: 'copper-loss', point: 'climb' });
    expect(format(text)).toContain('copper-loss at "climb"');
    expect(format(format(text))).toBe(format(text));
    // A limit at another point is another limit.
    const other = text.replace('copper-loss at "climb"', 'copper-loss at "brake"');
    const changes = compare(study(text), study(other)).limits.flatMap(({ change }) => change ?? []);
    expect(changes.sort()).toEqual(['dropped', 'new']);
  });

  it('reads wrong values with what was expected', () => {
    const messages = (line: string) =>
      study(withLine(drive, 'point "climb"', line))
        .findings.filter(({ severity }) => severity === 'error')
        .map(({ message }) => message);
    expect(messages('  point "climb" torque 14 Nm for 2 min').join()).toContain("'speed'");
    expect(messages('  point "climb" speed 2000 rpm for 2 min').join()).toContain("'torque'");
    expect(messages('  point "climb" speed 2000 rpm torque 14 Nm').join()).toContain("'for'");
    expect(messages('  point "climb" speed 2000 rpm torque 14 Nm for 0 s').join()).toContain(
      'a time above 0 s',
    );
    expect(messages('  point climb speed 2000 rpm torque 14 Nm for 2 s').join()).toContain(
      'a text in quotes',
    );
  });
});

describe('leaving out one statement', () => {
  const missingOf = (text: string) =>
    dutyOf(text)
      .missing.map(({ quantity }) => quantity.replace('duty.', ''))
      .sort();
  const all = [
    'cycle.copperEfficiency',
    'cycle.copperEnergy',
    'cycle.meanCopperLoss',
    'cycle.rmsCurrent',
    'cycle.hotSpot',
    'points.adiabaticRise',
    'points.current',
    'points.hotSpot',
    'points.loss.total',
    'points.powerFactor',
    'points.terminalVoltage',
    'points.torque',
  ];
  const without = (...names: string[]) => all.filter((name) => !names.includes(name));
  const losses = [
    'cycle.copperEfficiency',
    'cycle.copperEnergy',
    'cycle.meanCopperLoss',
    'points.loss.total',
  ];
  const point = ['points.powerFactor', 'points.terminalVoltage'];
  // Without a voltage currents follow from torque alone.
  const free = withLine(drive, 'voltage', null);

  it('the full text lacks nothing, nor does one without a voltage', () => {
    expect([missingOf(drive), missingOf(free)]).toEqual([[], []]);
  });

  it.each<[string, readonly string[]]>([
    ['flux', all],
    ['bore', [...losses, ...point]],
    ['air-gap', point],
    ['opening ', point],
    ['end-temperature', ['cycle.hotSpot', 'points.hotSpot']],
    ['winding-temperature', [...losses, ...point, 'points.adiabaticRise']],
    ['end-straight', [...losses, ...point]],
    ['width 4.6', [...losses, ...point, 'points.hotSpot', 'cycle.hotSpot']],
    ['speed', []],
    ['current 120', []],
  ])('without %s', (start, expected) => {
    expect(missingOf(withLine(free, start, null))).toEqual([...expected].sort());
  });

  it('with a voltage the current waits for what the voltage depends on', () => {
    expect(missingOf(withLine(drive, 'air-gap', null))).toEqual(without().sort());
  });

  it('without a duty nothing changes', () => {
    const { duty, limits } = study(`${smallDrive}require { cycle-current <= 100 A }\n`).report({ orders: 1 });
    expect(duty).toBeNull();
    expect(limits[0]!.met).toBeNull();
  });
});

describe('heat of the whole path', () => {
  const cooled = withLine(drive, 'end-straight', '  end-straight 6 mm\n  end-conductance 0.8 W/(m K)');
  const heatOf = (text: string) => study(text).report({ orders: 1 }).copper!.heat;

  it('bars whose end winding is poorly cooled are hottest there, and hotter than the stack alone tells', () => {
    const [stack, path] = [heatOf(drive), heatOf(cooled)];
    expect(stack.place).toBe('slot');
    expect(path.place).toBe('overhang');
    expect(path.hotSpot!).toBeGreaterThan(stack.hotSpot! + 5);
    expect(path.endShare! + path.coreShare!).toBeCloseTo(1, 12);
    expect(Math.max(...path.profile.map(({ temperature }) => temperature))).toBeCloseTo(path.hotSpot!, 9);
    expect(path.rise).toBeCloseTo(path.hotSpot! - 90, 9);
    // Well cooled ends come near to held ones.
    const well = heatOf(cooled.replace('0.8 W/(m K)', '2000 W/(m K)'));
    expect(well.place).toBe('slot');
    expect(Math.abs(well.rise! / stack.rise! - 1)).toBeLessThan(0.15);
  });

  it('all heat of a path leaves to core and surroundings', () => {
    const { copper } = study(cooled).report({ orders: 1 });
    // Without a core to leave to, the end winding takes all of it.
    const alone = heatOf(withLine(cooled, 'side-conductance', null));
    expect(alone.coreShare).toBeCloseTo(0, 12);
    expect(alone.hotSpot!).toBeGreaterThan(copper!.heat.hotSpot!);
    // By hand: with the same loss everywhere and no gradient, p'/G over the share of the bar outside.
    expect(alone.hotSpot! - 90).toBeGreaterThan(20);
  });

  it('a core of its own temperature moves the slot parts, and is told', () => {
    const hot = withLine(drive, 'end-temperature', '  end-temperature 90 degC\n  core-temperature 120 degC');
    expect(heatOf(hot).hotSpot!).toBeGreaterThan(heatOf(drive).hotSpot! + 5);
    expect(study(cooled).report({ orders: 1 }).assumptions).toContain(
      'machine core-temperature: that of the ends (default)',
    );
    expect(
      study(hot)
        .report({ orders: 1 })
        .assumptions.some((line) => line.includes('core-temperature')),
    ).toBe(false);
    // A core as warm as the ends: the chain is the fin in closed form, but for the local resistivity.
    const same = withLine(drive, 'end-temperature', '  end-temperature 90 degC\n  core-temperature 90 degC');
    expect(Math.abs(heatOf(same).rise! / heatOf(drive).rise! - 1)).toBeLessThan(3e-3);
  });

  it('the cycle lies between its coolest and its hottest point', () => {
    const { duty } = study(cooled).report({ orders: 1 });
    const spots = duty!.points.map(({ hotSpot }) => hotSpot!);
    expect(duty!.cycle.hotSpot!).toBeGreaterThan(Math.min(...spots));
    expect(duty!.cycle.hotSpot!).toBeLessThanOrEqual(Math.max(...spots) + 0.1);
    // One point for ever is its own steady state.
    const one = `${smallDrive}duty { point "on" speed 2000 rpm current 120 A for 1 h }\n`;
    const on = study(one).report({ orders: 1 }).duty!;
    expect(on.cycle.hotSpot!).toBeCloseTo(on.points[0]!.hotSpot!, 1);
  });
});

describe('a core that the bars heat', () => {
  const core = '  core-heat 4 kJ/K\n  core-cooling 12 W/K\n  coolant-temperature 50 degC';
  const heated = withLine(
    withLine(drive, 'end-straight', '  end-straight 6 mm\n  end-conductance 0.8 W/(m K)'),
    'end-temperature',
    `  end-temperature 90 degC\n${core}`,
  );
  const report = (text: string) => study(text).report({ orders: 1 });

  it('takes the temperature at which what enters leaves to the coolant', () => {
    const { copper, assumptions } = report(heated);
    const { coreTemperature, coreShare } = copper!.heat;
    // The loss at the temperatures of the bars, not at the winding temperature: within a few percent.
    const entering = copper!.loss.total! * coreShare!;
    expect((coreTemperature! - 50) * 12).toBeGreaterThan(0.85 * entering);
    expect((coreTemperature! - 50) * 12).toBeLessThan(1.1 * entering);
    expect(assumptions.some((line) => line.startsWith('core: one node'))).toBe(true);
    expect(assumptions.join()).not.toContain('machine core-temperature');
    // Held at that temperature the bars are as hot.
    const held = withLine(
      withLine(withLine(heated, 'core-heat', null), 'core-cooling', null),
      'coolant-temperature',
      `  core-temperature ${coreTemperature} degC`,
    );
    expect(report(held).copper!.heat.hotSpot!).toBeCloseTo(copper!.heat.hotSpot!, 5);
    expect(report(held).copper!.heat.coreTemperature).toBeNull();
  });

  it('heats by the mean of the phases at standstill, while the worst bar is hotter', () => {
    const still = withLine(
      heated,
      'point "cast off"',
      '  point "cast off" speed 0 rpm current 60 A for 20 s',
    );
    const slowly = withLine(
      heated,
      'point "cast off"',
      '  point "cast off" speed 1 rpm current 60 A for 20 s',
    );
    // What the core takes over the whole duty heats each point of it.
    const castOff = (text: string) => dutyOf(text).points.find(({ name }) => name === 'cast off')!;
    const [at, turning] = [castOff(still), castOff(slowly)];
    expect(at.hotSpot!).toBeGreaterThan(turning.hotSpot! + 1);
    // All bars at sqrt(2) times the current would heat the core as well.
    const all = withLine(
      heated,
      'point "cast off"',
      `  point "cast off" speed 1 rpm current ${60 * Math.SQRT2} A for 20 s`,
    );
    expect(at.hotSpot!).toBeLessThan(castOff(all).hotSpot! - 1);
  });

  it('follows the duty: a light core swings, a heavy one takes the mean', () => {
    const cycleOf = (heat: string) =>
      report(heated.replace('core-heat 4 kJ/K', `core-heat ${heat}`)).duty!.cycle;
    const [light, heavy] = [cycleOf('200 J/K'), cycleOf('400 kJ/K')];
    expect(light.coreTemperature!).toBeGreaterThan(heavy.coreTemperature! + 1);
    expect(report(drive).assumptions.some((line) => line.includes('the core is held'))).toBe(true);
    expect(report(heated).assumptions.some((line) => line.includes('the core is held'))).toBe(false);
  });

  const missingOf = (text: string) =>
    report(text)
      .missing.filter(({ quantity }) => /^(duty|copper.heat)/.test(quantity))
      .map(({ quantity, needs }) => `${quantity}: ${needs}`)
      .sort();

  it.each([
    ['core-heat', ['duty.cycle.coreTemperature', 'duty.cycle.hotSpot']],
    [
      'core-cooling',
      [
        'copper.heat.coreShare',
        'copper.heat.coreTemperature',
        'copper.heat.endShare',
        'copper.heat.hotSpot',
        'copper.heat.rise',
        'duty.cycle.coreTemperature',
        'duty.cycle.hotSpot',
        'duty.points.hotSpot',
      ],
    ],
  ])('without %s exactly what depends on it is missing', (word, quantities) => {
    expect(missingOf(heated)).toEqual([]);
    expect(missingOf(withLine(heated, word, null))).toEqual(
      quantities.map((each) => `${each}: machine ${word}`),
    );
  });

  it('a held core and one that is heated are two answers', () => {
    const both = withLine(
      heated,
      'coolant-temperature',
      '  coolant-temperature 50 degC\n  core-temperature 95 degC',
    );
    const found = study(both).findings.find(({ code }) => code === 'core-held-and-heated')!;
    expect(both.slice(found.range.start, found.range.end)).toBe('core-temperature 95 degC');
    expect(study(heated).findings.some(({ code }) => code === 'core-held-and-heated')).toBe(false);
  });
});
