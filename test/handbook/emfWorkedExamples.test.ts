import { describe, expect, it } from 'vitest';
import { emf } from '../../core/analysis/emf/emf.ts';
import { mmf } from '../../core/analysis/mmf.ts';
import { missing, orNull } from '../../core/figures/figure.ts';
import { specify } from '../../core/language/specification/specify.ts';
import { parse } from '../../core/language/text/parser.ts';
import { explicit } from '../analysis/windings.ts';
import { examine } from '../copper/machines.ts';

// Worked examples of textbooks, seen as re-worked in the FOSSEE (IIT Bombay) Python Textbook Companions;
// example and page numbers are the books'. The books round sqrt2 pi to 4.44 (0.065 % low).
const rounded = (Math.SQRT2 * Math.PI) / 4.44;

interface Example {
  readonly slots: number;
  readonly poles: number;
  readonly span: number;
  readonly frequency: number;
  readonly flux: number;
  /** Series turns of a phase as in the book. */
  readonly turns: number;
}

/** Two bars a slot; the book's turns follow by scaling, as the EMF goes with them. */
function voltages({ slots, poles, span, frequency, flux, turns }: Example, connection = 'star') {
  const result = examine(`winding "example"
machine { slots ${slots}  poles ${poles}  phases 3  frequency ${frequency} Hz  flux ${flux} Wb }
layout { layers 2  span ${span} }
connect { ${connection} }
`);
  const scale = turns / ((2 * slots) / 3 / 2);
  return { phase: result.emf.phaseVoltage! * scale, line: result.emf.lineVoltage! * scale };
}

describe('phase and line EMF', () => {
  it.each([
    [
      'Nagrath & Kothari, Electric Machines, 4th ed. 2010, ex. 5.2 p. 149',
      144,
      16,
      9,
      50,
      240,
      0.04,
      2045.52,
      3542.94,
      3e-6,
    ],
    [
      'Deshpande, Electrical Machines 2011, ex. 13.5 p. 295 (book rounds its factors)',
      144,
      16,
      8,
      50,
      240,
      0.04,
      2014.22,
      3488.73,
      2e-4,
    ],
    [
      'Bhattacharya, Electrical Machines, 3rd ed. 2009, ex. 5.6 p. 428',
      144,
      16,
      9,
      50,
      240,
      0.03,
      1534.14,
      2657.2,
      4e-6,
    ],
    [
      'Guru & Hiziroglu, Electric Machinery and Transformers, 3rd ed. 2004, ex. 7.5 p. 420',
      144,
      16,
      7,
      50,
      240,
      0.025,
      1201.35,
      2081,
      2e-4,
    ],
  ] as const)('%s', (_, slots, poles, span, frequency, turns, flux, phase, line, tolerance) => {
    const computed = voltages({ slots, poles, span, frequency, flux, turns });
    expect(Math.abs(computed.phase / rounded / phase - 1)).toBeLessThan(tolerance);
    expect(Math.abs(computed.line / rounded / line - 1)).toBeLessThan(tolerance);
  });

  it('Bhattacharya, ex. 5.8 p. 429: 14785.69 V', () => {
    const { phase } = voltages({ slots: 48, poles: 4, span: 10, frequency: 50, flux: 1.5, turns: 48 });
    expect(phase / rounded).toBeCloseTo(14785.69, 2);
  });

  it('Bhattacharya, ex. 5.5 p. 427: 440 V lines, 32 turns, 50 Hz ask for 0.037021 Wb', () => {
    const { line } = voltages({ slots: 48, poles: 8, span: 6, frequency: 50, flux: 0.037021, turns: 32 });
    expect(line / rounded).toBeCloseTo(440, 1);
  });

  it('Kosow, Electric Machinery and Transformers, 2nd ed. 2007, ex. 2.7 p. 56: 5678 V', () => {
    const { phase } = voltages({ slots: 72, poles: 6, span: 10, frequency: 60, flux: 0.048, turns: 480 });
    expect(phase / rounded).toBeCloseTo(5677.7, 1);
    expect(phase).toBeCloseTo(5681.39, 1);
  });

  it('Salam, Fundamentals of Electrical Machines, 2nd ed. 2009, ex. 9.6 p. 305: 1230.19 V', () => {
    const { phase } = voltages({ slots: 72, poles: 4, span: 15, frequency: 50, flux: 0.05, turns: 120 });
    expect(phase / rounded).toBeCloseTo(1230.19, 1);
  });

  it('Burman, Special Electrical Machines, 2nd ed. 2013, ex. 4.8 p. 221: 173 V', () => {
    const { phase } = voltages({ slots: 72, poles: 8, span: 7, frequency: 100, flux: 0.0018, turns: 240 });
    expect(phase / rounded).toBeCloseTo(172.994, 2);
  });

  it('Deshpande, Electrical Machines 2011, ex. 13.6 p. 295: 363 conductors in series make 6.6 kV', () => {
    const { line } = voltages({ slots: 90, poles: 10, span: 8, frequency: 50, flux: 0.1, turns: 0.5 });
    expect(Math.round(6600 / (line / rounded))).toBe(363);
  });

  it('McPherson, Electrical Machines and Transformers, ex. 2.3 p. 17: 119.38 and 206.78 V', () => {
    // B = 0.96 T peak, l = 0.25 m, r = 0.15 m, 6 poles: flux 2 B l r/3; 50 Hz at 1000/min. 12 coils of
    // 2 turns in series a phase.
    const flux = (2 * 0.96 * 0.25 * 0.15) / 3;
    const computed = voltages({ slots: 36, poles: 6, span: 5, frequency: 50, flux, turns: 24 });
    expect(computed.phase).toBeCloseTo(119.3837, 3);
    expect(computed.line).toBeCloseTo(206.7786, 3);
  });

  it('Fitzgerald, Kingsley, Umans, Electric Machinery, 6th ed. 2003, ex. 4.5 p. 212: 25.7 kV', () => {
    // The book gives kw = 0.933, 18 turns, flux 3.31 Wb, 60 Hz; line voltage of the star.
    const winding = explicit(2, ['+U -W +V -U +W -V']);
    const specification = specify(
      parse('machine { slots 6 poles 2 phases 3 frequency 60 Hz flux 3.31 Wb }\nconnect { star }'),
    );
    const result = emf({
      winding,
      specification,
      windingFactor: 0.933,
      meanSquareFactor: null,
      differentialLeakage: null,
      copperLoss: missing('x'),
      harmonicFactor: () => null,
    });
    // One turn a phase here.
    expect((18 * orNull(result.lineVoltage)!) / 1e3).toBeCloseTo(25.7, 1);
  });
});

describe('harmonics of the rotor field', () => {
  it('U. A. & M. V. Bakshi, DC Machines and Synchronous Machines 2008, ex. 4.12 p. 45', () => {
    // 10 poles, 600/min, q = 3, pitch 8/9, B1 : B3 : B5 = 1 : 0.3 : 0.2 T, pole pitch 0.35 m, l = 0.30 m,
    // 120 turns. The line EMF drops the third.
    const flux = (2 / Math.PI) * 1 * 0.35 * 0.3;
    const result = examine(`winding "example"
machine {
  slots 90  poles 10  phases 3  speed 600 rpm  flux ${flux} Wb
  rotor-field harmonic 3 30 %
  rotor-field harmonic 5 20 %
}
layout { layers 2  span 8 }
connect { star }
`);
    const scale = 120 / 30 / rounded;
    expect(result.emf.harmonics!.phaseVoltage * scale).toBeCloseTo(1711.94, 0);
    expect(result.emf.harmonics!.lineVoltage! * scale).toBeCloseTo(2916.65, 0);
  });
});

const fortyEightSlots = `winding "example"
machine { slots 48  poles 8  phases 3  bore 160 mm  stack 100 mm  air-gap 1 mm  magnet-height 0 mm }
layout { layers 4  span 5 }
connect { star }
`;

describe('magnetizing inductance', () => {
  // Formula from memory: Kirtley, MIT OpenCourseWare 6.685 notes; Pyrhonen. Own case, also computed from
  // the MMF polygon: N = 32, kw = 0.9330127 (q = 2, span 5 of 6), R = 80 mm, l = 100 mm, p = 4, g = 1 mm.
  it('1.069686 mH, with differential leakage 1.094868 mH', () => {
    const result = examine(fortyEightSlots);
    expect(result.input.windingFactor).toBeCloseTo(0.9330127, 7);
    expect(result.emf.magnetizingInductance! * 1e3).toBeCloseTo(1.069686, 6);
    const total = result.emf.magnetizingInductance! + result.emf.differentialLeakageInductance!;
    expect(total * 1e3).toBeCloseTo(1.094868, 6);
  });

  it('equals the flux linkage of the working wave that the currents themselves make', () => {
    // B = mu0 F/g, flux per pole B D l/p, linkage N kw Phi, over the crest of the current that makes F.
    const { input, emf: computed } = examine(fortyEightSlots);
    const { waves } = mmf(input.winding, { current: 1 / Math.SQRT2, orders: 4 });
    const amplitude = waves.find(({ order, direction }) => order === 4 && direction === 'forward')!.amplitude;
    // 7.12769 A by hand: (m sqrt2/pi)(N kw/p) of 1/sqrt2 A.
    expect(amplitude).toBeCloseTo((3 / Math.PI) * ((32 * 0.9330127) / 4), 4);
    const flux = (4e-7 * Math.PI * amplitude * 0.16 * 0.1) / 1e-3 / 4;
    expect(computed.magnetizingInductance! / (32 * 0.9330127 * flux)).toBeCloseTo(1, 6);
  });
});
