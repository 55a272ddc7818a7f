import { describe, expect, it } from 'vitest';
import { compare } from '../../core/review/compare.ts';
import { summaryText } from '../../core/review/summary.ts';
import { smallHairpins } from '../space/machines.ts';
import { study } from '../support/study.ts';
import { generatedFerry } from './texts.ts';

const summary = (old: string, now: string) => summaryText(compare(study(old), study(now)));

describe('the summary of a comparison', () => {
  const hairpins = smallHairpins();
  const changed = (words: string, other: string) => {
    expect(hairpins).toContain(words);
    return summary(hairpins, hairpins.replace(words, other));
  };

  it('tells that bars are made otherwise where layout and joints are the same', () => {
    const section = /height ([\d.]+) mm/.exec(hairpins.slice(hairpins.indexOf('bar {')))![0];
    const thinner = changed(section, 'height 1.2 mm');
    expect(thinner).toContain('The same layout, paths and joints. ');
    expect(thinner).toContain(' Bars are made otherwise: another section and another mean length. ');
    expect(changed('bend-radius 3 mm', 'bend-radius 3.5 mm')).toContain(
      ' Bars are made otherwise: another mean length. ',
    );
    // Some thousandths of a millimeter are no other bar to the shop.
    expect(changed('bend-radius 3 mm', 'bend-radius 3.002 mm')).not.toContain('made otherwise');
    // A corner that is not written is sharp.
    const corner = /corner [\d.]+ mm/.exec(hairpins)![0];
    expect(changed(corner, '')).toContain(' Bars are made otherwise: another section');
    const metal = changed('bend-radius 3 mm', 'metal aluminium  bend-radius 3 mm');
    expect(metal).toContain(' Bars are made otherwise: another metal. ');
    expect(changed('Bars in space', 'Another name')).not.toContain('made otherwise');
    const without = hairpins.replace(/bar \{[^}]*\}/, '');
    expect(summary(without, hairpins)).not.toContain('made otherwise');
    expect(summary(generatedFerry, generatedFerry.replace('210 A', '220 A'))).not.toContain('made otherwise');
  });

  it('tells another connection of the same layout from another layout', () => {
    const halves = summary(generatedFerry, generatedFerry.replace('paths 2', 'paths 4'));
    expect(halves).toMatch(
      /^The same layout, connected otherwise\. .*, \d+ bars in another path, \d+ joints added, /,
    );
    expect(halves).not.toContain('bar places changed');
    const leaning = generatedFerry
      .replace('span   6', 'span   6\n  skew all 1 slot')
      .replace('paths 2', 'paths 4');
    expect(summary(generatedFerry, leaning)).toMatch(/^The winding changed\. /);
    const broken = generatedFerry.replace('route paths 2', 'route paths 7');
    expect(summary(generatedFerry, broken)).toMatch(/^The winding changed\. /);
  });

  it('does not call a limit failed that cannot be computed', () => {
    const text = (more: string, rest = '') =>
      generatedFerry.replace(/require \{[^}]*\}/, `require { differential-leakage <= 9 % ${more} }`) + rest;
    const jumpers = text('jumpers <= 9');
    const refused = jumpers.replace('route paths 2', 'route paths 7');
    expect(summary(jumpers, refused)).toContain(' 1 of 2 limits cannot be computed (1 held before). ');
    expect(summary(jumpers, refused)).not.toContain('fail');
    const both = (paths: string) =>
      text('jumpers <= 9 winding-factor harmonic 1 >= 0.99').replace('paths 2', `paths ${paths}`);
    expect(summary(both('2'), both('7'))).toContain(
      ' 1 of 3 limits fails. 1 of 3 limits cannot be computed (1 held before). ',
    );
  });

  it('counts new shapes of bars and of joints each, after saying how the limits stand', () => {
    const shorter = generatedFerry.replace('span   6', 'span   5');
    const { shapes } = compare(study(generatedFerry), study(shorter));
    const [bars, joints] = [shapes.bars.added.length, shapes.joints.added.length];
    expect(bars).toBeGreaterThan(1);
    expect(joints).toBeGreaterThan(1);
    const text = summary(generatedFerry, shorter);
    expect(text).toContain(`, ${bars} new bar shapes and ${joints} new joint shapes. `);
    expect(text).toMatch(/^The winding changed\. .*Both limits hold\. 1 statement changed, /);
  });
});
