import { describe, expect, it } from 'vitest';
import { specify } from '../../core/language/specification/specify.ts';
import { parse } from '../../core/language/text/parser.ts';
import { deriveWinding } from '../../core/winding/derive.ts';
import { layoutRefused } from '../../core/winding/layoutFindingKinds.ts';
import { expectFindings } from '../support/marked.ts';
import { study } from '../support/study.ts';
import { windingText } from '../support/windingText.ts';

const derived = (text: string) => deriveWinding(specify(parse(text)));
const findingsOf = (text: string) => derived(text).findings;

describe('what a file must have', () => {
  it.each([
    ['', ['title-missing', 'block-missing']],
    ['winding "x"\n', ['block-missing']],
    ['winding "x"\nmachine { slots 12 poles 2 phases 3 }\n', ['block-missing']],
    [
      'winding "x"\nmachine { }\nlayout { layers 2 span 5 }\n',
      ['statement-missing', 'statement-missing', 'statement-missing'],
    ],
    ['winding "x"\nmachine { slots 12 phases 3 }\nlayout { layers 2 span 5 }\n', ['statement-missing']],
    ['winding "x"\nmachine { slots 12 poles 2 phases 3 }\nlayout { span 5 }\n', ['statement-missing']],
    ['winding "x"\nmachine { slots 12 poles 2 phases 3 }\nlayout { layers 2 }\n', ['layout-undetermined']],
  ])('%j', (text, codes) => {
    const { winding, findings } = derived(text);
    expect(findings.map(({ code }) => code)).toEqual(codes);
    expect(winding).toBeNull();
  });

  it('is not asked for twice where it was written wrongly', () => {
    for (const text of [
      windingText({ machine: 'slots 1e9 poles 2 phases 3' }),
      windingText({ machine: 'slots 12 poles 3 phases 3' }),
      windingText({ layout: 'layers 2 span five' }),
      windingText({}).replace('layout', 'lay-out'),
      windingText({}).replace('machine', 'machin'),
      windingText({}).replace('"Sluice gate drive"', '"Sluice gate drive'),
    ]) {
      const { findings } = study(text);
      expect(
        findings.map(({ code }) => code),
        text,
      ).toHaveLength(1);
    }
  });
});

describe('findings about the machine', () => {
  it.each([
    ['slots 12 poles 2 phases «6»', ['phases-need-angle']],
    ['slots 12 poles 2 phases «3 apart 30 edeg»', ['phases-apart-unexpected']],
    ['slots 12 poles 2 phases 3 air-gap «0.8 mm 0.9 mm»', ['gap-lengths']],
    ['slots 12 poles 2 phases 3 gap outer magnet-height «5 mm 6 mm»', ['gap-lengths']],
    ['slots 12 poles 2 phases 3 gap both air-gap 0.8 mm 0.9 mm', []],
    ['slots 12 poles 2 phases 3 speed 3000 rpm frequency «60 Hz»', ['speed-disagrees']],
    ['slots 12 poles 2 phases 3 speed 3000 rpm frequency 50 Hz', []],
  ])('%s', (machine, codes) => {
    expectFindings(windingText({ machine }), codes, findingsOf);
  });
});

describe('findings about how phases are joined', () => {
  it.each([
    ['«connect» { route paths 2 }', ['connection-missing']],
    ['connect { star  «delta» }', ['connection-repeated']],
    ['connect { star  delta  «open» }', null],
    ['connect { star joined }', []],
  ])('%s', (rest, codes) => {
    if (codes === null) expect(findingsOf(windingText({ rest: rest.replace(/[«»]/g, '') })).length).toBe(2);
    else {
      const findings = (text: string) =>
        findingsOf(text).filter(({ code }) => code.startsWith('connection-'));
      expectFindings(windingText({ rest }), codes, findings);
    }
  });
});

describe('rows', () => {
  const machine = 'slots 6 poles 2 phases 3';

  it.each([
    ['layers 1 layer a «+U -W +V -U +W»', ['row-length']],
    ['layers 1 layer a «+U -W +V repeat 3»', ['row-length']],
    ['layers 1 layer a «(+U -W +V)*3»', ['row-length']],
    ['layers 1 layer a +U -W «+X» -U +W -V', ['phase-unknown']],
    ['layers 1 layer a +U -W «+1U» -U +W -V', ['phase-unknown']],
    ['layers «2» layer a +U -W +V -U +W -V', ['layer-missing']],
    ['layers 1 layer a +U -W +V -U +W -V layer «b = layer a»', ['layer-outside']],
    ['layers 1 layer a +U -W +V -U +W -V «layer a = layer a moved 1»', ['layer-repeated']],
    ['layers 1 layer a = layer «a» moved 1', ['layer-circular']],
    ['layers 2 layer a = layer «b» layer b = layer «a» negated', ['layer-circular', 'layer-circular']],
    ['layers 1 layer a +U -W +V -U +W -V «span 3»', ['layout-twofold']],
    ['layers 1 «stagger 1» layer a +U -W +V -U +W -V', ['layout-twofold']],
    ['layers 1 layer a +U -W +V -U +W -V skew «b 1 slot»', ['layer-outside']],
    ['layers 1 layer a +U -W +V -U +W -V skew all 1 slot «skew a 2 deg»', ['layer-repeated']],
  ])('%s', (layout, codes) => {
    expectFindings(windingText({ machine, layout }), codes, findingsOf);
  });

  it('that would expand beyond reason are counted, not expanded', () => {
    const layout = 'layers 1 layer a «((((+U)*2400)*2400)*2400)*2400»';
    const [finding] = expectFindings(windingText({ machine, layout }), ['expansion-too-long'], findingsOf);
    expect(finding!.message).toContain('33177600000000 items; at most 200000');
  });
});

describe('generated layouts', () => {
  it.each([
    ['slots «10» poles 2 phases 3', 'layers 2 span 5', 'unbalanced'],
    ['slots 12 poles 2 phases 3', 'layers «3» span 5', 'odd-layers'],
    ['slots 12 poles 2 phases 3', 'layers 2 span «12»', 'span-out-of-range'],
    ['slots 24 poles 4 phases 3', 'layers 2 span «12»', 'span-links-no-fundamental'],
    ['slots 12 poles 2 phases 3', 'layers 2 span 5 belt «90 edeg»', 'belt-refused'],
    ['slots 12 poles 2 phases 3', 'layers 4 span 5 stagger «6»', 'stagger-cancels-fundamental'],
    ['slots 24 poles 2 phases «6 apart 20 edeg»', 'layers 2 span 10', 'two-sets-need-30'],
  ])('%s, %s: refused as %s, where it stands', (machine, layout) => {
    const [finding] = expectFindings(windingText({ machine, layout }), ['layout-refused'], findingsOf);
    expect(finding!.message.length).toBeGreaterThan(20);
  });

  it('that are refused name slot counts which work', () => {
    const { findings } = derived(
      windingText({ machine: 'slots 50 poles 8 phases 3', layout: 'layers 2 span 6' }),
    );
    const named = /work: ([\d, ]+)/.exec(findings[0]!.message)![1]!.split(', ').map(Number);
    expect(named.length).toBeGreaterThan(1);
    for (const slots of named) {
      const text = windingText({ machine: `slots ${slots} poles 8 phases 3`, layout: 'layers 2 span 6' });
      expect(derived(text).findings, String(slots)).toEqual([]);
    }
  });

  it('in one layer name spans which close', () => {
    const { findings } = derived(
      windingText({ machine: 'slots 48 poles 8 phases 3', layout: 'layers 1 span 4' }),
    );
    const spans = /do: ([\d, ]+)/.exec(findings[0]!.message)![1]!.split(', ').map(Number);
    for (const span of spans) {
      const text = windingText({ machine: 'slots 48 poles 8 phases 3', layout: `layers 1 span ${span}` });
      expect(derived(text).findings, String(span)).toEqual([]);
    }
  });

  it('have a wording for every reason', () => {
    expect(layoutRefused.message({ kind: 'odd-layers', layers: 3 })).toContain('not 3');
  });
});

describe('angles', () => {
  const leanOf = (skew: string) =>
    derived(windingText({ machine: 'slots 48 poles 8 phases 3', layout: `layers 2 span 6 skew ${skew}` }))
      .winding!.lean;

  it('in degrees, electrical degrees and slots are the same lean', () => {
    // One slot of 48 is 7.5 degrees; with 4 pole pairs 30 electrical degrees.
    const expected = (7.5 * Math.PI) / 180;
    for (const skew of ['a 7.5 deg', 'a 30 edeg', 'a 1 slot']) {
      expect(leanOf(skew)[0], skew).toBeCloseTo(expected, 14);
      expect(leanOf(skew)[1], skew).toBe(0);
    }
    expect(leanOf('all -1 slot')).toEqual([-expected, -expected].map((angle) => expect.closeTo(angle, 14)));
  });

  it('between two sets lag within one turn', () => {
    const axes = (apart: string) =>
      derived(
        windingText({
          machine: `slots 24 poles 2 phases 6 apart ${apart}`,
          layout: 'layers 1 layer a +1U repeat 24',
        }),
      ).winding!.phases.axes;
    expect(axes('30 edeg')).toEqual([0, 120, 240, 30, 150, 270]);
    expect(axes('-30 edeg')).toEqual([0, 120, 240, 330, 90, 210]);
    expect(axes('2 slot')).toEqual([0, 120, 240, 30, 150, 270]);
  });
});
