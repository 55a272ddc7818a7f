// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import { limitMargin } from '../../core/facts/limitMargin.ts';
import { limitFailed, marginShare } from '../../core/findings/limits.ts';
import { unitNamed } from '../../core/language/vocabulary/units.ts';
import { vocabulary } from '../../core/language/vocabulary/vocabulary.ts';
import { soundExamples } from '../support/files.ts';
import { expectFindings } from '../support/marked.ts';
import { study } from '../support/study.ts';
import { withMore } from '../support/tries.ts';
import { windingText } from '../support/windingText.ts';
import { writtenOut } from '../support/writtenOut.ts';

const limitsOnly = (text: string) => study(text).findings.filter(({ code }) => code.startsWith('limit-'));

// 48 slots, 8 poles, full pitch: q = 2, kd1 = sin 30 / (2 sin 15) = 0.9659, kp1 = 1 (any textbook on
// windings); kd5 = sin 150 / (2 sin 75) = 0.2588.
const machine = 'slots 48 poles 8 phases 3 bore 162 mm current 210 A';
const layout = 'layers 2 span 6';
const requiring = (limits: string) => windingText({ machine, layout, rest: `require {\n${limits}\n}` });

describe('limits', () => {
  it.each([
    ['winding-factor harmonic 1 >= 0.9659', true],
    ['winding-factor harmonic 1 >= 0.966', false],
    ['winding-factor harmonic 1 <= 0.966', true],
    ['winding-factor >= 0.966', false],
    ['winding-factor order 4 >= 0.966', false],
    ['winding-factor order 4 >= 0.965', true],
    ['winding-factor harmonic 5 <= 0.2589', true],
    ['winding-factor harmonic 5 <= 0.2588', false],
    ['distribution-factor harmonic 5 <= 0.2588', false],
    ['pitch-factor harmonic 1 >= 1', true],
    ['skew-factor harmonic 1 >= 1', true],
    ['winding-factor order 3 <= 0', true],
    ['phase-voltage-difference <= 0 %', true],
  ])('%s: %s', (limit, holds) => {
    const found = holds
      ? expectFindings(requiring(limit), [], limitsOnly)
      : expectFindings(requiring(`«${limit}»`), ['limit-failed'], limitsOnly);
    for (const finding of found) expect(finding.severity).toBe('error');
  });

  it.each(['>=', '<='] as const)('a count is met at the limit itself: %s', (relation) => {
    const routed = (limit: string) =>
      windingText({
        machine,
        layout: 'layers 4  span 6',
        rest: `connect { star  route paths 2 }
require {
${limit}
}`,
      });
    const beyond = relation === '>=' ? 7 : 5;
    expectFindings(routed(`special-joints ${relation} 6`), [], limitsOnly);
    expectFindings(routed(`«special-joints ${relation} ${beyond}»`), ['limit-failed'], limitsOnly);
  });

  it('say the actual value in the unit of the limit', () => {
    const [leakage] = limitsOnly(requiring('differential-leakage <= 0.1 %'));
    // q = 2, full pitch: 2.84 % (Pyrhonen, Jokinen, Hrabovcova, Design of Rotating Electrical Machines, fig. 4.9, as 0.0285).
    expect(leakage!.message).toMatch(/^differential-leakage is 2\.84\d* %; required is at most 0\.1 %\.$/);
    const [factor] = limitsOnly(requiring('winding-factor harmonic 1 >= 0.97'));
    expect(factor!.message).toBe(
      limitFailed.message({
        what: 'winding-factor harmonic 1',
        actual: '0.9659',
        relation: '>=',
        limit: '0.97',
        route: null,
      }),
    );
  });

  it.each([
    'winding-factor harmonic 0.3 <= 1',
    'winding-factor order 0 <= 1',
    'wave-relative order -1 <= 1 %',
    'winding-factor harmonic 0 >= 0',
  ])('of an order that does not exist cannot be computed: %s', (limit) => {
    expectFindings(requiring(`«${limit}»`), ['limit-not-computable'], limitsOnly);
  });

  it('are met, failed or not computable, never silent', () => {
    const quantities = vocabulary.filter(({ role }) => role === 'quantity');
    const text = requiring(quantities.map(({ example }) => example).join('\n'));
    const { limits, findings } = study(text);
    expect(limits.length).toBe(quantities.length);
    for (const { quantity, met, actual, range } of limits) {
      const codes = findings
        .filter((finding) => finding.range.start === range.start)
        .map(({ code }) => code)
        .filter((code) => code.startsWith('limit-'));
      expect([quantity, codes]).toEqual([
        quantity,
        met === null ? ['limit-not-computable'] : met ? [] : ['limit-failed'],
      ]);
      expect(met === null, quantity).toBe(actual === null);
    }
  });

  it('that cannot be computed name what would supply them', () => {
    for (const limit of ['torque >= 80 Nm', 'slot-fill <= 78 %', 'copper-loss <= 900 W']) {
      const [finding] = limitsOnly(requiring(limit));
      expect(finding!.code, limit).toBe('limit-not-computable');
      expect(finding!.message, limit).toMatch(/cannot be computed: it needs '[a-z]+ [a-z-]+/);
    }
  });

  it('without a slot table say what is missing, on their line', () => {
    for (const [text, reason] of [
      [
        'winding "x"\nmachine { slots 48 poles 8 phases 3 }\nrequire {\n«winding-factor >= 0.9»\n}',
        "it needs 'layout' or written paths",
      ],
      [
        'winding "x"\nlayout { layers 2 span 6 }\nmachine { slots 48 poles 8 }\nrequire {\n«winding-factor >= 0.9»\n}',
        "it needs 'machine phases'",
      ],
      [
        windingText({ machine, layout: 'layers 3 span 6', rest: 'require {\n«jumpers <= 0»\n}' }),
        'there is no slot table; the other errors say why',
      ],
      [
        windingText({ machine, layout: 'layers 2 span six', rest: 'require {\n«torque >= 3 Nm»\n}' }),
        'there is no slot table; the other errors say why',
      ],
    ] as const) {
      const [finding] = expectFindings(text, ['limit-not-computable'], limitsOnly);
      expect(finding!.message.split(' cannot be computed: ')[1]).toBe(`${reason}.`);
    }
  });

  it.each([
    [
      'winding-factor harmonic -1 >= 0.9',
      'with 4 pole pairs harmonic -1 is order -4, and an order is a whole number from 1 to 10 000 000',
    ],
    [
      'winding-factor harmonic 0.3 >= 0.9',
      'with 4 pole pairs harmonic 0.3 is order 1.2, and an order is a whole number from 1 to 10 000 000',
    ],
    [
      'winding-factor harmonic 1e15 >= 0.9',
      'with 4 pole pairs harmonic 1000000000000000 is order 4000000000000000, and an order is a whole number from 1 to 10 000 000',
    ],
    ['wave-relative order -3 <= 3 %', 'an order is a whole number from 1 to 10 000 000'],
    ['jumpers <= 0', "it needs 'connect star', 'delta' or 'open'"],
  ])('%s says why not', (limit, reason) => {
    const [finding] = limitsOnly(requiring(limit));
    expect(finding!.message.split(' cannot be computed: ')[1]).toBe(`${reason}.`);
  });

  it('name an order as it was written', () => {
    const [finding] = limitsOnly(requiring('wave-relative order 99999999999 <= 3 %'));
    expect(finding!.message).toMatch(/^wave-relative order 99999999999 cannot/);
  });

  it('that just hold hold, whatever the last digit', () => {
    const { limits } = study(requiring('winding-factor harmonic 1 >= 0'));
    const actual = limits[0]!.actual!;
    expect(limitsOnly(requiring(`winding-factor harmonic 1 >= ${actual}`))).toEqual([]);
    expect(limitsOnly(requiring(`winding-factor harmonic 1 <= ${actual}`))).toEqual([]);
    expect(limitsOnly(requiring(`winding-factor harmonic 1 >= ${actual + 1e-6}`))).toHaveLength(1);
  });
});

describe('the value of a limit', () => {
  /** Follows a path such as `mmf.waves[].relative` for an order. */
  function atPath(report: unknown, path: string, order: number | null): unknown {
    let value: unknown = report;
    for (const step of path.split('.')) {
      const name = step.replace('[]', '');
      value = value === null || value === undefined ? null : (value as Record<string, unknown>)[name];
      if (step.endsWith('[]')) {
        const rows = (value as { order: number; relative?: number }[] | null) ?? [];
        const ofOrder = rows.filter((row) => row.order === order);
        value = ofOrder.sort((a, b) => (b.relative ?? 0) - (a.relative ?? 0))[0] ?? null;
      }
    }
    return Array.isArray(value) ? value.length : (value ?? null);
  }

  const quantities = vocabulary.filter(({ role }) => role === 'quantity');
  const somewhere = new Set<string>();
  const rich = ['slipway-carriage', 'harbor-ferry-pod-drive', 'ramp-hoist', 'tidal-pump'];
  const isRich = ({ name }: { readonly name: string }) => rich.includes(name.replace('.winding', ''));
  const texts = [
    ...withMore(
      soundExamples.filter(isRich),
      soundExamples.filter((each) => !isRich(each)),
    ),
    { name: 'paths', text: windingText({ machine, layout, rest: 'connect { star route paths 2 }' }) },
  ];

  it.each(texts.map(({ name, text }) => [name, text] as const))(
    'stands in the report at its path: %s',
    (_, text) => {
      const limits = quantities.map(({ example }) => example).join('\n');
      const withPaths = writtenOut(text);
      const required = `${withPaths.replace(/require \{[^}]*\}/, '')}\nrequire {\n${limits}\n}\n`;
      const studied = study(required);
      const report = studied.report();
      let computed = 0;
      for (const { quantity, actual, order } of studied.limits) {
        const path = quantities.find(({ word }) => word === quantity)!.reportPath!;
        const reported = atPath(report, path, order);
        // A wave far below the working wave is left out of the report.
        if (reported === null && quantity === 'wave-relative' && actual !== null && actual < 1e-8) continue;
        if (actual === null && path.startsWith('shapes.')) continue;
        // Without a bend radius the report has what an assumed one leaves; no limit goes by that.
        if (actual === null && quantity === 'end-clearance-left') continue;
        expect([quantity, actual], path).toEqual([quantity, reported]);
        if (actual === null) continue;
        computed++;
        somewhere.add(quantity);
      }
      expect(computed).toBeGreaterThanOrEqual(5);
    },
  );

  it('is a number for every quantity in one of them', () => {
    expect(quantities.map(({ word }) => word).filter((word) => !somewhere.has(word))).toEqual([]);
  });

  it('is compared in the unit it is written in', () => {
    for (const [a, b] of [
      ['12 A/mm2', 1.2e7],
      ['20 mohm', 0.02],
      ['2 kNm/rad', 2000],
      ['20 MPa', 2e7],
      ['155 degC', 155],
      ['78 %', 0.78],
    ] as const) {
      const [amount, unit] = [Number(a.split(' ')[0]), unitNamed(a.split(' ')[1]!)!];
      expect(amount * unit.factor).toBeCloseTo(b, 10);
    }
  });
});

describe('the margin of a limit', () => {
  it('is what it leaves, and nothing where only the last digits differ', () => {
    const most = { relation: '<=', limit: 0.3 } as const;
    expect(limitMargin(most, 0.1 + 0.2)).toBe(0);
    expect(0.1 + 0.2 > 0.3).toBe(true);
    expect(limitMargin(most, 0.25)).toBeCloseTo(0.05, 12);
    expect(limitMargin({ relation: '>=', limit: 0.9 }, 0.8)).toBeCloseTo(-0.1, 12);
  });

  it('a share is left of a limit below zero too', () => {
    const [limit] = study(requiring('torque >= 1 Nm')).limits;
    const share = (least: number, actual: number | null) =>
      marginShare({ ...limit!, relation: '>=', limit: least, actual });
    expect(share(-10, -5)).toBeCloseTo(0.5, 12);
    expect(share(-10, -12)).toBeCloseTo(-0.2, 12);
    expect([share(0, 1), share(1, null)]).toEqual([null, null]);
  });
});
