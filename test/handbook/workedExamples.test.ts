// biome-ignore-all lint/suspicious/noApproximativeNumericConstant: values as the tables print them
import { describe, expect, it } from 'vitest';
import { factorRow, factorSpectrum } from '../../core/analysis/factors/factors.ts';
import { explicit, generated } from '../analysis/windings.ts';

// Worked examples of textbooks, seen as re-worked in the FOSSEE (IIT Bombay) Python Textbook Companions.
// Example and page numbers are the books'.

const pairsOf = (poles: number) => poles / 2;

function factorsOf(slots: number, poles: number, span: number, harmonic = 1, belt = 60) {
  const winding = generated(slots, poles, span, { belt });
  return factorRow(winding, factorSpectrum(winding), harmonic * pairsOf(poles));
}

describe('distribution factors', () => {
  it.each([
    // book, slots, poles, printed value, digits
    ['Nagrath & Kothari, Electric Machines, 4th ed. 2010, ex. 5.1 p. 148', 36, 4, 0.959795, 6],
    ['Bhattacharya, Electrical Machines, 3rd ed. 2009, ex. 5.8 p. 429', 48, 4, 0.957662, 6],
    ['Bhattacharya, ex. 5.5 p. 427', 48, 8, 0.965926, 6],
    ['Kosow, Electric Machinery and Transformers, 2nd ed. 2007, ex. 2.6 p. 56', 48, 8, 0.966, 3],
    ['Kosow, ex. 2.6 p. 56', 96, 8, 0.958, 3],
    ['Kosow, ex. 2.6 p. 56', 168, 8, 0.956, 3],
    ['McPherson, Electrical Machines and Transformers, ex. 2.3 p. 17', 36, 6, 0.9659, 4],
    ['Guru & Hiziroglu, Electric Machinery and Transformers, 3rd ed. 2004, ex. 7.3 p. 414', 108, 12, 0.96, 2],
    ['Salam, Fundamentals of Electrical Machines, 2nd ed. 2009, ex. 9.4 p. 302', 48, 4, 0.96, 2],
  ] as const)('%s: %d slots, %d poles', (_, slots, poles, printed, digits) => {
    expect(Math.abs(factorsOf(slots, poles, slots / poles).distribution! - printed)).toBeLessThanOrEqual(
      0.51 * 10 ** -digits,
    );
  });

  it('Deshpande, Electrical Machines, PHI 2011, ex. 13.3 p. 293: 0.9597, cut off after four decimals', () => {
    expect(Math.trunc(factorsOf(18, 2, 9).distribution! * 1e4) / 1e4).toBe(0.9597);
  });

  it('Nagrath & Kothari, ex. 5.1 p. 148: third and fifth harmonic', () => {
    expect(factorsOf(36, 4, 9, 3).distribution).toBeCloseTo(0.666667, 6);
    expect(factorsOf(36, 4, 9, 5).distribution).toBeCloseTo(0.217568, 6);
  });

  it('Theraja, ex. 37.9 p. 1417: q = 6, span 150 degrees', () => {
    const pitches = [0.9659, 0.707, 0.259];
    const distributions = [0.956, 0.644, 0.197];
    [1, 3, 5].forEach((harmonic, i) => {
      const row = factorsOf(72, 4, 15, harmonic);
      expect(row.pitch).toBeCloseTo(pitches[i]!, 3);
      expect(row.distribution).toBeCloseTo(distributions[i]!, 3);
    });
  });

  it('Theraja, ex. 37.3 p. 1414: six coils of 10 V spaced 30 degrees make 38.637 V', () => {
    const winding = explicit(2, ['+U +U +U +U +U +U . . . . . .']);
    expect(60 * factorRow(winding, factorSpectrum(winding), 1).distribution!).toBeCloseTo(38.637, 3);
  });

  it('Theraja, ex. 37.4 p. 1414: nine coils over 180 degrees', () => {
    const winding = explicit(2, ['+U +U +U +U +U +U +U +U +U . . . . . . . . .']);
    expect(factorRow(winding, factorSpectrum(winding), 1).distribution).toBeCloseTo(0.63986, 5);
  });
});

describe('pitch factors', () => {
  it.each([
    ['Bhattacharya, ex. 5.3 p. 426', 48, 4, 11, 0.991445, 6],
    ['Kosow, ex. 2.3 p. 53', 72, 4, 14, 0.94, 2],
    ['Kosow, ex. 2.4 p. 54: 13/16 of a pole', 96, 2, 39, 0.9569, 4],
    ['Salam, ex. 9.2 p. 299', 144, 8, 16, 0.98, 2],
    ['Salam, ex. 9.3 p. 301: 8/10 of a pole', 60, 2, 24, 0.95, 2],
    ['Nagrath & Kothari factor used in Deshpande, ex. 13.5 p. 295: 160 degrees', 144, 16, 8, 0.98481, 5],
    ['Guru & Hiziroglu, ex. 7.5 p. 420', 144, 16, 7, 0.93969, 5],
  ] as const)('%s', (_, slots, poles, span, printed, digits) => {
    expect(Math.abs(factorsOf(slots, poles, span).pitch! - printed)).toBeLessThanOrEqual(
      0.51 * 10 ** -digits,
    );
  });

  it('U. A. & M. V. Bakshi, DC Machines and Synchronous Machines 2008, ex. 4.6 p. 34: 13 of 15 slots', () => {
    for (const [harmonic, printed] of [
      [1, 0.9781],
      [3, 0.809],
      [5, 0.5],
    ] as const) {
      expect(factorsOf(90, 6, 13, harmonic).pitch).toBeCloseTo(printed, 4);
    }
  });
});

describe('a distribution factor read back from a printed EMF', () => {
  it('Theraja, ex. 37.8 p. 1416: 987.908 V with a span of 150 degrees of 9 slots a pole', () => {
    // 150 degrees is no whole number of slots of 20 degrees: the book multiplies kd by cos 15 degrees.
    // 144 x 4 conductors make 96 turns a phase; E = 4.44 f N kd kp Phi.
    const printed = 987.908 / (4.44 * 50 * 96 * Math.cos(Math.PI / 12) * 0.05);
    expect(factorsOf(144, 16, 9).distribution).toBeCloseTo(printed, 5);
  });
});
