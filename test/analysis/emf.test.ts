import { describe, expect, it } from 'vitest';
import { examine, ferryDrive, joinedIn, withLine } from '../copper/machines.ts';
import { slottedGap } from '../copper/slottedGap.ts';

const fivePhases = ferryDrive
  .replace('phases 3', 'phases 5')
  .replace('slots 48', 'slots 40')
  .replace('span 6', 'span 5');
const twoSets = ferryDrive
  .replace('phases 3', 'phases 6 apart 30 edeg')
  .replace('slots 48', 'slots 96')
  .replace('span 6', 'span 12');
const twoGaps = ferryDrive
  .replace('gap inner', 'gap both\n  outside 195.6 mm')
  .replace('air-gap 0.9 mm', 'air-gap 0.9 mm 1.2 mm')
  .replace('magnet-height 4 mm', 'magnet-height 4 mm 5 mm');

/** Rms of the difference of two unit cosines, sampled over a period: no phasor formula in it. */
function sampledDifference(angle: number): number {
  const samples = 3600;
  let sum = 0;
  for (let i = 0; i < samples; i++) {
    const t = (2 * Math.PI * i) / samples;
    sum += (Math.SQRT2 * (Math.cos(t) - Math.cos(t - angle))) ** 2;
  }
  return Math.sqrt(sum / samples);
}

describe('phase EMF', () => {
  it('equals the rms of the voltages of all bars of a path, summed over time', () => {
    const { input, emf } = examine(ferryDrive);
    const [path] = joinedIn(input).paths;
    const { winding } = input;
    const samples = 720;
    let sum = 0;
    for (let i = 0; i < samples; i++) {
      const t = (2 * Math.PI * i) / samples;
      let voltage = 0;
      for (const { slot, layer } of path!.bars) {
        const sign = Math.sign(winding.table.cells[layer * 48 + slot - 1]!);
        // A bar sees the field pass: crest pi f Phi for the fundamental flux of a pole.
        voltage += sign * Math.PI * 240 * 4.1e-3 * Math.cos(t - (4 * 2 * Math.PI * (slot - 1)) / 48);
      }
      sum += voltage ** 2;
    }
    expect(emf.phaseVoltage).toBeCloseTo(Math.sqrt(sum / samples), 9);
  });

  it('falls with the number of parallel paths', () => {
    const four = examine(withLine(ferryDrive, 'route', '  route paths 4')).emf;
    expect(four.phaseVoltage! * 2).toBeCloseTo(examine(ferryDrive).emf.phaseVoltage!, 12);
  });
});

describe('line voltage', () => {
  it('three phases: star sqrt3, delta 1, open none', () => {
    const star = examine(ferryDrive).emf;
    expect(star.lineVoltage! / star.phaseVoltage!).toBeCloseTo(Math.sqrt(3), 12);
    expect(star.lineVoltages).toHaveLength(1);
    const delta = examine(withLine(ferryDrive, 'star', '  delta')).emf;
    expect(delta.lineVoltage).toBeCloseTo(delta.phaseVoltage!, 12);
    const open = examine(withLine(ferryDrive, 'star', '  open')).emf;
    expect(open.lineVoltage).toBeNull();
    expect(open.lineVoltages).toBeNull();
    expect(open.missing.find(({ quantity }) => quantity === 'emf.lineVoltage')?.needs).toEqual([
      'connect star or delta',
    ]);
  });

  it('five phases in star: adjacent and non-adjacent terminals', () => {
    const { lineVoltages, phaseVoltage, lineVoltage } = examine(fivePhases).emf;
    expect(lineVoltages!.map(({ apart }) => apart)).toEqual([1, 2]);
    lineVoltages!.forEach(({ apart, voltage }) => {
      expect(voltage / phaseVoltage!).toBeCloseTo(sampledDifference((2 * Math.PI * apart) / 5), 9);
    });
    expect(lineVoltage).toBe(lineVoltages![0]!.voltage);
    expect(lineVoltages![0]!.voltage / phaseVoltage!).toBeCloseTo(1.1756, 4);
    expect(lineVoltages![1]!.voltage / phaseVoltage!).toBeCloseTo(1.9021, 4);
  });

  it('five phases in a ring: one phase, or two in series', () => {
    const { lineVoltages, phaseVoltage } = examine(withLine(fivePhases, 'star', '  delta')).emf;
    expect(lineVoltages![0]!.voltage).toBeCloseTo(phaseVoltage!, 12);
    // Sum of two phasors 72 degrees apart.
    expect(lineVoltages![1]!.voltage / phaseVoltage!).toBeCloseTo(
      sampledDifference(Math.PI - (2 * Math.PI) / 5),
      9,
    );
  });

  it('two sets: sqrt3 within a set', () => {
    const { lineVoltage, phaseVoltage } = examine(twoSets).emf;
    expect(lineVoltage! / phaseVoltage!).toBeCloseTo(Math.sqrt(3), 12);
  });
});

describe('torque and power', () => {
  it('T = m E I/(2 pi n), P = m E I; the torque does not ask for the speed', () => {
    const { emf } = examine(ferryDrive);
    expect(emf.power).toBeCloseTo(3 * emf.phaseVoltage! * 210, 9);
    expect(emf.torque).toBeCloseTo(emf.power! / (2 * Math.PI * 60), 10);
    const still = examine(withLine(ferryDrive, 'speed', null)).emf;
    expect(still.torque).toBeCloseTo(emf.torque!, 12);
    expect(still.power).toBeNull();
  });

  it('delta: the same terminal current makes a torque lower by 2 sin(pi/m)', () => {
    const star = examine(ferryDrive).emf;
    const delta = examine(withLine(ferryDrive, 'star', '  delta')).emf;
    expect(star.torque! / delta.torque!).toBeCloseTo(Math.sqrt(3), 12);
    expect(delta.torquePerAmpere).toBeCloseTo(delta.torque! / 210, 12);
    const ring = examine(withLine(fivePhases, 'star', '  delta')).emf;
    expect(examine(fivePhases).emf.torque! / ring.torque!).toBeCloseTo(2 * Math.sin(Math.PI / 5), 12);
  });

  it('force on the bars: current sheet times field, averaged over time, is the torque', () => {
    // Every bar: current I/a in phase with its path's EMF, field crest from the flux of a pole.
    const { input, emf } = examine(ferryDrive);
    const { winding } = input;
    const crest = (4.1e-3 * 4) / (0.162 * 0.096); // B = Phi p/(D l)
    let torque = 0;
    const samples = 360;
    for (let i = 0; i < samples; i++) {
      const t = (2 * Math.PI * i) / samples;
      winding.table.cells.forEach((cell, place) => {
        const slot = place % 48;
        const phase = Math.abs(cell) - 1;
        // The phase EMF leads by the angle of its belt's middle, slots 1 and 2: 15 degrees.
        const current =
          Math.sign(cell) * Math.SQRT2 * 105 * Math.cos(t - (2 * Math.PI * phase) / 3 - Math.PI / 12);
        const field = crest * Math.cos(t - (4 * 2 * Math.PI * slot) / 48);
        torque += (field * current * 0.096 * 0.081) / samples;
      });
    }
    expect(torque).toBeCloseTo(emf.torque!, 9);
  });

  it('motor constant: torque over the root of the copper loss at speed', () => {
    const { emf, copper } = examine(ferryDrive);
    expect(emf.motorConstant).toBeCloseTo(emf.torque! / Math.sqrt(copper.loss.dc! + copper.loss.ac!), 12);
  });
});

describe('two gaps', () => {
  it('in series: 1/(g_i/D_i + g_o/D_o), each with its own magnets and Carter factor of the whole gap', () => {
    const { emf, input } = examine(twoGaps);
    const effective = (gap: number, diameter: number) =>
      slottedGap((Math.PI * diameter) / 48, 1.2, gap) / diameter;
    const gap = effective(0.9 + 4 / 1.06, 162) + effective(1.2 + 5 / 1.06, 195.6);
    const turns = 16 * input.windingFactor!;
    const expected = (3 * 4e-7 * Math.PI * 0.096 * turns ** 2) / (Math.PI * 16 * gap);
    expect(emf.magnetizingInductance! / expected).toBeCloseTo(1, 12);
    expect(emf.assumptions.join('\n')).toContain('the flux passes straight through the stator');
  });

  it('say so where one length holds for both', () => {
    const assumed = (text: string) =>
      examine(text).emf.assumptions.filter((each) => each.includes('for both'));
    const one = twoGaps.replace(/(air-gap|magnet-height) ([\d.]+ mm) [\d.]+ mm/g, '$1 $2');
    expect(assumed(twoGaps)).toEqual([]);
    expect(assumed(one).sort()).toEqual([
      'two gaps: one machine air-gap for both',
      'two gaps: one machine magnet-height for both',
    ]);
    expect(assumed(ferryDrive)).toEqual([]);
  });

  it('torques of both rotors add up to the torque; areas and stresses are those of each gap', () => {
    const { emf } = examine(twoGaps);
    expect(emf.gaps!.map(({ side }) => side)).toEqual(['inner', 'outer']);
    const sum = emf.gaps!.reduce((total, gap) => total + gap.shearStress * gap.area * (gap.diameter / 2), 0);
    expect(sum).toBeCloseTo(emf.torque!, 10);
    expect(emf.gaps![1]!.area).toBeCloseTo(Math.PI * 0.1956 * 0.096, 12);
  });

  it('one length stands for both gaps', () => {
    const one = examine(twoGaps.replace('0.9 mm 1.2 mm', '0.9 mm').replace('4 mm 5 mm', '4 mm')).emf;
    const two = examine(
      twoGaps.replace('0.9 mm 1.2 mm', '0.9 mm 0.9 mm').replace('4 mm 5 mm', '4 mm 4 mm'),
    ).emf;
    expect(one.magnetizingInductance).toBe(two.magnetizingInductance);
  });

  it('the same bars and flux make the same torque with one gap or two', () => {
    expect(examine(twoGaps).emf.torque).toBeCloseTo(examine(ferryDrive).emf.torque!, 12);
  });
});

describe('gap', () => {
  it('a magnet height of 0 asks for no permeability', () => {
    const text = withLine(
      withLine(ferryDrive, 'magnet-height', '  magnet-height 0 mm'),
      'magnet-permeability',
      null,
    );
    const { emf } = examine(text);
    expect(emf.magnetizingInductance).not.toBeNull();
    expect(emf.assumptions.join('\n')).not.toContain('permeability');
  });

  it('carter off leaves the gap as it is', () => {
    const off = examine(withLine(ferryDrive, 'carter', '  carter off')).emf;
    const gap = 0.9e-3 + 4e-3 / 1.06;
    const turns = 16 * examine(ferryDrive).input.windingFactor!;
    const expected = (3 * 4e-7 * Math.PI * 0.096 * turns ** 2 * 0.162) / (Math.PI * 16 * gap);
    expect(off.magnetizingInductance! / expected).toBeCloseTo(1, 12);
    expect(examine(ferryDrive).emf.magnetizingInductance!).toBeLessThan(off.magnetizingInductance!);
  });
});
