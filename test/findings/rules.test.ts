import { describe, expect, it } from 'vitest';
import { leanDiffersInSlot, phasesUnbalanced, unbalancedPull } from '../../core/findings/rules.ts';
import { expectFindings } from '../support/marked.ts';
import { study } from '../support/study.ts';
import { windingText } from '../support/windingText.ts';

/** Findings of the given codes. */
const only =
  (...codes: readonly string[]) =>
  (text: string) =>
    study(text).findings.filter(({ code }) => codes.includes(code));

describe('balance of the phases', () => {
  const balance = only('phases-unbalanced');

  it.each([
    ['phase W one bar short', 'layers «1» layer a +U -W +V -U . -V'],
    ['one phase alone', 'layers «1» layer a +U . . -U . .'],
    ['no field of this number of poles', 'layers «1» layer a +U +V +W +U +V +W'],
  ])('%s', (_, layout) => {
    const source = windingText({ machine: 'slots 6 poles 2 phases 3', layout });
    const [finding] = expectFindings(source, ['phases-unbalanced'], balance);
    expect(finding!.severity).toBe('error');
    expect(finding!.related.length).toBe(3);
  });

  it('does not depend on the direction the field runs in', () => {
    const layout = 'layers 1 layer a +V -W +U -V +W -U';
    expect(balance(windingText({ machine: 'slots 6 poles 2 phases 3', layout }))).toEqual([]);
  });

  it('is not complained of where it holds', () => {
    expect(balance(windingText({}))).toEqual([]);
    expect(
      balance(
        windingText({ machine: 'slots 6 poles 2 phases 3', layout: 'layers 1 layer a +U -W +V -U +W -V' }),
      ),
    ).toEqual([]);
  });

  it('says by how much', () => {
    expect(phasesUnbalanced.message({ phase: 'W', percent: -12.3456, degrees: 4.5 })).toContain('-12.35 %');
    expect(phasesUnbalanced.message({ phase: 'W', percent: -100, degrees: null })).toContain(
      'no fundamental',
    );
  });
});

describe('sides of the phases', () => {
  it('are counted', () => {
    const layout = 'layers «1» layer a +U -W +V +U +W -V';
    const source = windingText({ machine: 'slots 6 poles 2 phases 3', layout });
    const [finding] = expectFindings(source, ['phase-sides-unequal'], only('phase-sides-unequal'));
    expect(finding!.message).toBe('Phase U has 2 + bars but 0 - bars.');
  });
});

describe('radial pull', () => {
  it('is possible without a common divisor of slots and poles', () => {
    const source = windingText({ machine: 'slots «9» poles 8 phases 3', layout: 'layers 2 span 1' });
    const [finding] = expectFindings(source, ['unbalanced-pull'], only('unbalanced-pull'));
    expect(finding!.message).toBe(unbalancedPull.message({ slots: 9, poles: 8, radialSymmetry: 1 }));
    expect(finding!.severity).toBe('warning');
  });

  it('is not expected of 12 slots and 10 poles', () => {
    expect(
      only('unbalanced-pull')(
        windingText({ machine: 'slots 12 poles 10 phases 3', layout: 'layers 2 span 1' }),
      ),
    ).toEqual([]);
  });
});

describe('layers of slots and bars', () => {
  const machine = 'slots 48 poles 8 phases 3 gap both';
  const layout = 'layers 4 span 6 skew a b +1 slot skew c d -1 slot';

  it.each([
    ['«slot» { width 6 mm }', ['lean-differs-in-slot']],
    ['«slot» a b c { width 6 mm } slot d { width 6 mm }', ['lean-differs-in-slot']],
    ['slot a b { width 6 mm } slot c d { width 6 mm }', []],
    ['«slot» a b { width 6 mm } slot c { width 6 mm }', ['slot-layers-missing']],
    ['slot a b { width 6 mm } slot c d «e» { width 6 mm }', ['layer-outside']],
    ['slot a b { width 6 mm } slot c d «b» { width 6 mm }', ['layer-repeated']],
    ['slot a b { width 6 mm } slot c d { width 6 mm } bar { height «e 3 mm» }', ['layer-outside']],
    ['slot a b { width 6 mm } slot c d { width 6 mm } bar { width 3 mm strands «a z 2» }', ['layer-outside']],
  ])('%s', (rest, codes) => {
    expectFindings(
      windingText({ machine, layout, rest }),
      codes,
      only('lean-differs-in-slot', 'slot-layers-missing', 'layer-outside', 'layer-repeated'),
    );
  });

  it('are named in the message', () => {
    const [finding] = only('lean-differs-in-slot')(
      windingText({ machine, layout, rest: 'slot { width 6 mm }' }),
    );
    const runs = "'slot a b { ... }', 'slot c d { ... }'";
    expect(finding!.message).toBe(leanDiffersInSlot.message({ runs }));
    expect(finding!.message).toContain(`write ${runs}.`);
  });
});
