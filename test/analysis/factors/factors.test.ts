import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  defaultOrders,
  type FactorRow,
  factorRow,
  factorRows,
  factorSpectrum,
  windingFactor,
} from '../../../core/analysis/factors/factors.ts';
import { factorRowsByPhase, phasesDiffer } from '../../../core/analysis/factors/phaseFactors.ts';
import type { Winding } from '../../../core/winding/model.ts';
import { phaseSystem } from '../../../core/winding/phases.ts';
import { tries } from '../../support/tries.ts';
import { referenceFactors } from '../reference.ts';
import { asRows, explicit, generated, tableOf, windingOf } from '../windings.ts';

const degree = Math.PI / 180;
const lean = 7.5 * degree;

/** Three layers without any pairing: one per phase order, some places empty. */
const threeLayers = explicit(4, [
  '+U +U -W -W +V +V -U -U +W +W -V -V +U +U -W -W +V +V -U -U +W +W -V -V',
  '+U -W -W +V +V -U -U +W +W -V -V +U +U -W -W +V +V -U -U +W +W -V -V +U',
  '. +U . -W . +V . -U . +W . -V . +U . -W . +V . -U . +W . -V',
]);

const crossed = (steps: number | null) =>
  generated(48, 8, 5, {
    layers: 4,
    lean: [lean, lean, -lean, -lean],
    rotorSkew: { angle: 5 * degree, steps },
  });

const cases: readonly [string, Winding][] = [
  ['integer q, full pitch', generated(48, 8, 6)],
  ['integer q, short pitch, four layers, staggered', generated(48, 8, 5, { layers: 4, stagger: 1 })],
  ['integer q, one layer', generated(36, 4, 9, { layers: 1 })],
  ['fractional q = 5/2', generated(30, 4, 7)],
  ['fractional q = 8/5', generated(48, 10, 4)],
  ['wide belts', generated(27, 6, 4, { belt: 120 })],
  ['tooth coils in two layers', generated(12, 10, 1)],
  ['tooth coils in two layers, even orders', generated(9, 8, 1)],
  ['tooth coils in one layer', generated(24, 22, 1, { layers: 1 })],
  ['five phases', generated(40, 4, 9, { phases: phaseSystem(5) })],
  ['seven phases', generated(42, 6, 6, { phases: phaseSystem(7) })],
  ['two sets 30 degrees apart', generated(48, 4, 11, { phases: phaseSystem(6, 30) })],
  ['two sets of tooth coils', generated(24, 22, 1, { phases: phaseSystem(6, 30) })],
  ['three written layers', threeLayers],
  ['a length with a large prime factor', generated(159, 4, 38)],
  ['leaning bars', generated(36, 4, 8, { lean: [10 * degree, 10 * degree] })],
  ['one layer leaning', generated(36, 4, 8, { lean: [10 * degree, 0] })],
  ['continuous rotor skew', generated(48, 8, 5, { rotorSkew: { angle: lean, steps: null } })],
  ['stepped rotor', generated(48, 8, 5, { rotorSkew: { angle: -lean, steps: 3 } })],
  ['rotor of many steps', generated(48, 8, 5, { rotorSkew: { angle: lean, steps: 12 } })],
  ['crossed bars', generated(48, 8, 6, { layers: 2, lean: [lean, -lean] })],
  ['crossed bars, continuous rotor skew', crossed(null)],
  ['crossed bars, stepped rotor', crossed(4)],
];

type Compared = readonly [what: string, actual: number | null, wanted: number | null];

/** Those of many numbers that are not what is wanted. */
function different(compared: readonly Compared[]): readonly Compared[] {
  return compared.filter(([, actual, wanted]) =>
    // Not `>=`, which nothing that is no number would be.
    actual === null || wanted === null ? actual !== wanted : !(Math.abs(actual - wanted) < 1e-9),
  );
}

describe('factors agree with the independent reference in every order', () => {
  it.each(cases)('%s', (_, winding) => {
    const rows = factorRows(winding);
    expect(rows.length).toBe(Math.max(4 * winding.slots, 10 * winding.poles));
    const compared = rows.flatMap((row): readonly Compared[] => {
      const wanted = referenceFactors(winding, row.order);
      return [
        [`distribution ${row.order}`, row.distribution, wanted.distribution],
        [`pitch ${row.order}`, row.pitch, wanted.pitch],
        // Where the unskewed sum is small the ratio magnifies rounding of both; the product is checked below.
        [`skew ${row.order}`, row.skew, wanted.skew],
        [`winding ${row.order}`, row.winding, wanted.winding],
      ];
    });
    expect(different(compared)).toEqual([]);
  });

  it.each(cases)('%s: every phase, one order at a time', (_, winding) => {
    const compared = winding.phases.names.flatMap((_name, phase) =>
      Array.from({ length: 2 * winding.slots }, (_each, index): Compared => {
        const order = index + 1;
        return [
          `order ${order} of phase ${phase}`,
          windingFactor(winding, order, phase),
          referenceFactors(winding, order, phase).winding,
        ];
      }),
    );
    expect(different(compared)).toEqual([]);
  });

  it('up to the largest machine', () => {
    const winding = generated(2400, 202, 12);
    const spectrum = factorSpectrum(winding);
    for (const order of [1, 2, 77, 101, 505, 707, 1199, 1200, 2299, 2501, 9599]) {
      const row = factorRow(winding, spectrum, order);
      const wanted = referenceFactors(winding, order);
      const compared: readonly Compared[] = [
        ['distribution', row.distribution, wanted.distribution],
        ['winding', row.winding, wanted.winding],
      ];
      expect([order, different(compared)]).toEqual([order, []]);
    }
  });
});

/** Random tables: any phase, sign or gap in any place. */
const randomWinding: fc.Arbitrary<Winding> = fc
  .tuple(fc.integer({ min: 3, max: 40 }), fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 4 }))
  .chain(([slots, polePairs, layers]) =>
    fc.record({
      rows: fc.array(fc.array(fc.integer({ min: -3, max: 3 }), { minLength: slots, maxLength: slots }), {
        minLength: layers,
        maxLength: layers,
      }),
      polePairs: fc.constant(polePairs),
      leans: fc.array(fc.double({ min: -0.3, max: 0.3, noNaN: true }), {
        minLength: layers,
        maxLength: layers,
      }),
      rotor: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
      steps: fc.option(fc.integer({ min: 1, max: 6 })),
    }),
  )
  .map(({ rows, polePairs, leans, rotor, steps }) =>
    windingOf(
      tableOf(rows),
      2 * polePairs,
      phaseSystem(3),
      { kind: 'rows' },
      {
        lean: leans,
        rotorSkew: { angle: rotor, steps },
      },
    ),
  );

describe('random tables', () => {
  it('winding factor = distribution x pitch x skew where all are defined', () => {
    fc.assert(
      fc.property(randomWinding, (winding) => {
        const orders = 2 * winding.slots;
        for (let phase = 0; phase < 3; phase++) {
          const rows = factorRows(winding, orders, factorSpectrum(winding, phase));
          const others = rows.filter(
            ({ distribution, pitch, skew, winding: whole }) =>
              distribution !== null &&
              pitch !== null &&
              skew !== null &&
              !(Math.abs(distribution * pitch * skew - whole) < 1e-12),
          );
          expect(others).toEqual([]);
        }
      }),
      { seed: 41, numRuns: tries(60) },
    );
  });

  it('agree with the reference', () => {
    fc.assert(
      fc.property(randomWinding, (winding) => {
        const spectrum = factorSpectrum(winding);
        if (spectrum.bars === 0) return;
        const compared = Array.from({ length: winding.slots + 2 }, (_, index) => {
          const order = index + 1;
          const wanted = referenceFactors(winding, order);
          const row = factorRow(winding, spectrum, order);
          return [
            [`distribution ${order}`, row.distribution, wanted.distribution],
            [`pitch ${order}`, row.pitch, wanted.pitch],
            [`winding ${order}`, row.winding, wanted.winding],
          ] satisfies readonly Compared[];
        });
        expect(different(compared.flat())).toEqual([]);
      }),
      { seed: 42, numRuns: tries(50) },
    );
  });

  it('read as phases of their own, differ exactly when the reference says so', () => {
    fc.assert(
      fc.property(randomWinding, (winding) => {
        const orders = 2 * winding.slots;
        const differ = [1, 2].some((phase) => {
          for (let order = 1; order <= orders; order++) {
            const a = referenceFactors(winding, order, 0);
            const b = referenceFactors(winding, order, phase);
            if (Math.abs(a.winding - b.winding) > 1e-8) return true;
            if (Math.abs((a.distribution ?? 0) - (b.distribution ?? 0)) > 1e-8) return true;
          }
          return false;
        });
        if (differ) expect(phasesDiffer(winding, orders)).toBe(true);
      }),
      { seed: 43, numRuns: tries(40) },
    );
  });
});

describe('symmetries of the factors', () => {
  it('repeat with the slots and mirror about half of them, without skew', () => {
    const winding = generated(27, 6, 4);
    const rows = factorRows(winding, 4 * 27);
    const of = (order: number) => {
      const { harmonic: _, order: __, ...factors } = rows[order - 1] as FactorRow;
      return factors;
    };
    for (let order = 1; order < 27; order++) {
      expect(of(order + 27)).toEqual(of(order));
      expect(of(54 - order)).toEqual(of(order));
    }
  });

  it('are undefined where their denominator vanishes', () => {
    const winding = generated(48, 8, 6);
    const spectrum = factorSpectrum(winding);
    expect(factorRow(winding, spectrum, 1)).toMatchObject({
      harmonic: '1/4',
      distribution: 0,
      pitch: null,
      skew: null,
      winding: 0,
    });
    // Even harmonics: belts of both signs in one layer cancel, though each coil links them.
    expect(factorRow(winding, spectrum, 8)).toMatchObject({ harmonic: '2', distribution: 0, pitch: null });
    const short = generated(30, 4, 6);
    // Span 6 of 7.5 slots removes the fifth harmonic: pitch zero, skew undefined.
    expect(factorRow(short, factorSpectrum(short), 10)).toMatchObject({
      harmonic: '5',
      pitch: 0,
      skew: null,
      winding: 0,
      coilPitch: 0,
    });
  });

  it('layers of different skew can link what the unskewed winding does not', () => {
    const winding = generated(30, 4, 6, {
      lean: [lean, -lean],
      rotorSkew: { angle: lean, steps: null },
    });
    const row = factorRow(winding, factorSpectrum(winding), 10);
    expect(row.pitch).toBe(0);
    expect(row.skew).toBeNull();
    expect(row.winding).toBeGreaterThan(0.01);
  });

  it('an absent phase has no distribution factor', () => {
    const winding = explicit(2, ['+U +U -U -U . .']);
    expect(factorRow(winding, factorSpectrum(winding, 1), 1)).toMatchObject({
      distribution: null,
      winding: 0,
    });
    expect(windingFactor(winding, 1, 1)).toBe(0);
  });
});

describe('rows by phase', () => {
  it('are not needed for generated layouts', () => {
    for (const [, winding] of cases) {
      if (winding.origin.kind === 'generated') expect(factorRowsByPhase(winding, 50)).toBeNull();
    }
  });

  it('are not needed where the phases are moved copies with other senses', () => {
    expect(factorRowsByPhase(asRows(generated(12, 10, 1)))).toBeNull();
  });

  it('are listed where the phases differ', () => {
    const winding = explicit(2, ['+U +U -W -W +V . -U -U +W +W -V .']);
    const rows = factorRowsByPhase(winding, 10)!;
    expect(rows.map((of) => of.length)).toEqual([10, 10, 10]);
    expect(rows[0]![0]!.winding).toBeCloseTo(0.9659258, 6);
    expect(rows[1]![0]!.winding).toBeCloseTo(1, 12);
  });

  it('mirrored phases share their factors though none is a moved copy', () => {
    const winding = explicit(2, ['+U +U . +U . . . -V . -V -V . . .']);
    expect(phasesDiffer({ ...winding, phases: { names: ['U', 'V'], axes: [0, 180], sets: 1 } })).toBe(false);
  });
});

describe('asking for orders', () => {
  it('lists max(4 Q, 20 p) unless told otherwise', () => {
    expect(defaultOrders(generated(12, 10, 1))).toBe(100);
    expect(defaultOrders(generated(48, 8, 6))).toBe(192);
    expect(factorRows(generated(12, 10, 1), 7).map((row) => row.harmonic)).toEqual([
      '1/5',
      '2/5',
      '3/5',
      '4/5',
      '1',
      '6/5',
      '7/5',
    ]);
  });

  it('refuses orders that are no positive integers', () => {
    const winding = generated(12, 10, 1);
    expect(() => factorRows(winding, 0)).toThrow(RangeError);
    expect(() => factorRow(winding, factorSpectrum(winding), 1.5)).toThrow(RangeError);
    expect(() => windingFactor(winding, -1)).toThrow(RangeError);
  });
});
