import { describe, expect, it } from 'vitest';
import { format } from '../core/language/format/formatter.ts';
import { pictureToSvg } from '../core/picture/svg.ts';
import { type Study, study } from '../core/study.ts';
import { examples, soundExamples } from './support/files.ts';

function example(name: string): Study {
  const found = examples.find((candidate) => candidate.name === `${name}.winding`);
  if (!found) throw new RangeError(`no example ${name}`);
  return study(found.text);
}

/** The largest wave of an order relative to the working wave, and its direction. */
function wave({ facts }: Study, order: number): { relative: number; direction: string } {
  const [largest] = [...facts!.wavesOf(order)].sort((a, b) => (b.relative ?? 0) - (a.relative ?? 0));
  return largest
    ? { relative: largest.relative!, direction: largest.direction }
    : { relative: 0, direction: 'none' };
}

describe('every example', () => {
  it('is one of at least eight, and at least one is broken', () => {
    expect(soundExamples.length).toBeGreaterThanOrEqual(7);
    expect(examples.length).toBeGreaterThan(soundExamples.length);
  });

  it.each(examples.map(({ name, text }) => [name, text] as const))(
    'is in canonical form and says what it teaches: %s',
    (_name, text) => {
      expect(text).toMatch(/^# [A-Z]/);
      expect(format(text)).toBe(text);
    },
  );

  it.each(soundExamples.map(({ name, text }) => [name, text] as const))(
    'has no errors, holds its limits and draws: %s',
    (_, text) => {
      const studied = study(text);
      expect(studied.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
      expect(studied.limits.length).toBeGreaterThan(0);
      expect(studied.limits.filter(({ met }) => met !== true)).toEqual([]);
      const svg = pictureToSvg(studied.layoutPicture()!);
      expect(svg).toContain('</svg>');
      expect(svg).not.toMatch(/NaN|undefined|Infinity/);
    },
  );

  it.each(soundExamples.map(({ name, text }) => [name, text] as const))(
    'has limits that can fail: %s',
    (_, text) => {
      for (const { quantity, relation, actual, limit } of study(text).limits) {
        // A limit far from the actual value guards nothing.
        const room = relation === '<=' ? limit - actual! : actual! - limit;
        expect(room, quantity).toBeLessThanOrEqual(
          Math.max(0.6 * Math.abs(limit), 0.6 * Math.abs(actual!), 1),
        );
      }
    },
  );
});

describe('what the examples claim', () => {
  it('harbor ferry: full pitch gives the largest working wave, and weakens neither fifth nor seventh', () => {
    const ferry = example('harbor-ferry-pod-drive');
    const { facts } = ferry;
    for (const harmonic of [1, 5, 7])
      expect(Math.abs(facts!.factorRow(4 * harmonic).pitch!)).toBeCloseTo(1, 12);
    // q = 2: sin 30 / (2 sin 15).
    expect(facts!.factorRow(4).winding).toBeCloseTo(Math.cos(Math.PI / 12), 12);
    for (const span of [4, 5, 7, 8]) {
      const other = study(ferry.text.replace(/span {3}6/, `span ${span}`));
      expect(other.facts!.factorRow(4).winding).toBeLessThan(facts!.factorRow(4).winding);
    }
  });

  it('bow thruster: chording and stagger each cost about two percent and take most of the fifth and seventh', () => {
    const thruster = example('bow-thruster');
    const changed = (changes: Readonly<Record<string, string>>) =>
      study(
        Object.entries(changes).reduce(
          (text, [word, value]) => text.replace(new RegExp(`^( *${word}) +\\d+$`, 'm'), `$1 ${value}`),
          thruster.text,
        ),
      );
    const working = (studied: Study) => studied.facts!.factorRow(4).winding;
    for (const other of [changed({ span: '9' }), changed({ stagger: '0' })]) {
      const cost = 1 - working(thruster) / working(other);
      expect(cost).toBeGreaterThan(0.01);
      expect(cost).toBeLessThan(0.02);
    }
    const plain = changed({ span: '9', stagger: '0' });
    for (const harmonic of [5, 7])
      expect(wave(thruster, 4 * harmonic).relative).toBeLessThan(0.5 * wave(plain, 4 * harmonic).relative);
    expect(wave(thruster, 20).relative).toBeLessThan(wave(example('harbor-ferry-pod-drive'), 20).relative);
  });

  it('lock gate: the pattern repeats after half the bore, and order 2 lies below the working order 4', () => {
    const winch = example('lock-gate-winch');
    expect(winch.facts!.symmetry()).toMatchObject({ slotsPerPolePerPhase: '5/4', rotationSlots: 15 });
    expect(winch.winding!.polePairs).toBe(4);
    expect(wave(winch, 2).relative).toBeGreaterThan(0.01);
    expect([1, 3].map((order) => wave(winch, order).relative)).toEqual([0, 0]);
  });

  it('tidal pump: order 7 is nearly as large as the working order 5 and runs backward', () => {
    const pump = example('tidal-pump');
    const seventh = wave(pump, 7);
    // Equal winding factors, so 5/7 of the working wave.
    expect(seventh.relative).toBeCloseTo(5 / 7, 10);
    expect(seventh.direction).toBe('backward');
    expect(pump.facts!.factorRow(7).winding).toBeCloseTo(pump.facts!.factorRow(5).winding, 12);
  });

  it('cable ferry: the lean costs the working wave little and the slot harmonics a lot', () => {
    const { facts, winding } = example('cable-ferry-drum');
    expect(winding!.lean[0]).toBe(winding!.lean[1]);
    expect(winding!.lean[2]).toBe(-winding!.lean[0]!);
    expect(winding!.lean[0]).toBeCloseTo((2 * Math.PI) / 48, 14);
    expect(Math.abs(facts!.factorRow(4).skew!)).toBeGreaterThan(0.97);
    for (const harmonic of [11, 13]) expect(Math.abs(facts!.factorRow(4 * harmonic).skew!)).toBeLessThan(0.3);
  });

  it('dredge pump: fifth and seventh waves of the two sets cancel', () => {
    const pump = example('dredge-pump');
    for (const harmonic of [5, 7]) expect(wave(pump, 3 * harmonic).relative).toBeLessThan(1e-9);
    // Each set alone has them.
    for (const harmonic of [5, 7])
      expect(Math.abs(pump.facts!.factorRow(3 * harmonic).winding)).toBeGreaterThan(0.01);
  });

  it('sluice fan: three layers, c as a moved by one slot', () => {
    const { winding } = example('sluice-fan');
    const { cells, slots } = winding!.table;
    expect(winding!.layers).toBe(3);
    for (let slot = 0; slot < slots; slot++)
      expect(cells[2 * slots + ((slot + 1) % slots)]).toBe(cells[slot]);
  });

  it('ballast pump: each block holds a mistake', () => {
    expect(example('broken-ballast-pump').findings.map(({ code }) => code)).toEqual([
      'unit-missing',
      'word-unknown',
      'unit-without-blank',
      'phase-unknown',
      'connection-repeated',
      'unit-wrong',
    ]);
  });

  it('unequal paths: every bar is used once, but the voltages of the paths differ', () => {
    const codes = example('broken-unequal-paths').findings.map(({ code }) => code);
    expect(codes).toContain('paths-unequal-voltage');
    expect(codes).not.toContain('bar-used-twice');
    expect(codes).not.toContain('bar-unused');
  });
});
