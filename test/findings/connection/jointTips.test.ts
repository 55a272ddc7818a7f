// Takes its time: searches connections.

import { describe, expect, it } from 'vitest';
import { study } from '../../support/study.ts';
import { windingText } from '../../support/windingText.ts';

// Eight layers whose pairs are shifted by a slot: joint tips lie half a slot apart at best. A slot
// opening on a circle of 480 mm with 48 slots: a pitch of 10 mm at the bore, more at every layer.
const shifted = (bar: string) =>
  windingText({
    machine: `slots 48 poles 8 phases 3 bore ${480 / Math.PI} mm`,
    layout: 'layers 8 span 6 stagger 1',
    rest: `slot { width 7 mm depth 26 mm opening 2 mm opening-height 1 mm }\n${bar}\nconnect { star route paths 2 }`,
  });

const tipFindings = (text: string) => study(text).findings.filter(({ code }) => code === 'joint-tips-close');

describe('joint tips', () => {
  it('half a slot apart are a warning where bar sizes are not given', () => {
    const found = tipFindings(shifted(''));
    expect(found.map(({ severity }) => severity)).toEqual(['warning']);
    expect(found[0]!.message).toContain('0.5 slot pitches');
  });

  it('half a slot apart are a warning where the bars would pass', () => {
    // 4 mm and 0.5 mm of clearance in half of 10 mm and more.
    const found = tipFindings(shifted('bar { width 4 mm height 3 mm end-clearance 0.5 mm }'));
    expect(found.map(({ severity }) => severity)).toEqual(['warning']);
    // The inner faces of layer c lie 1 + 26 - 6 x 3 = 9 mm outside the bore, half a pitch there is 5 mm x
    // (240 / pi + 9) / (240 / pi) = 5.589 mm.
    expect(found[0]!.message).toBe(
      'On the connection side joint tips of layer c come as near as 5.589 mm however they are bent, less than a slot pitch; coated width and clearance need 4.5 mm.',
    );
  });

  it('nearer than coated width and clearance are an error, with both distances', () => {
    // Eight bars of 3.2 mm lie against the slot's outer end: the inner faces of layer c 1 + 0.4 + 2 x 3.2 =
    // 7.8 mm outside the bore. Half a pitch there is 5 mm x (240 / pi + 7.8) / (240 / pi) = 5.511 mm, against
    // 6 mm + 2 x 0.1 mm + 0.5 mm.
    const found = tipFindings(shifted('bar { width 6 mm height 3 mm coating 0.1 mm end-clearance 0.5 mm }'));
    expect(found.map(({ severity }) => severity)).toEqual(['error']);
    expect(found[0]!.message).toContain('layer c come as near as 5.51');
    expect(found[0]!.message).toContain('need 6.7 mm');
    expect(found[0]!.message).toMatch(/ Bars narrower by at least 1\.19 mm leave room\.$/);
    expect(found[0]!.fix).toBeUndefined();
  });

  it('are set apart by less clearance, where the coated bars pass', () => {
    // As above, 5 mm + 2 x 0.1 mm of 5.511 mm.
    const text = shifted('bar { width 5 mm height 3 mm coating 0.1 mm end-clearance 0.5 mm }');
    const [found] = tipFindings(text);
    expect(found!.message).toMatch(
      / An end-clearance of at most 0\.31 mm or bars narrower by at least 0\.19 mm leave room\.$/,
    );
    const [edit] = found!.fix!.edits;
    const mended = text.slice(0, edit!.range.start) + edit!.text + text.slice(edit!.range.end);
    expect(tipFindings(mended).map(({ severity }) => severity)).toEqual(['warning']);
  });

  it('guide the choice of paths: a wider bar gets other paths, with a full slot between tips', () => {
    const text = (bar: string) =>
      windingText({
        machine: `slots 54 poles 6 phases 3 bore ${540 / Math.PI} mm`,
        layout: 'layers 4 span 9',
        rest: `slot { width 7 mm depth 15 mm opening 2 mm opening-height 1 mm }\n${bar}\nconnect { star route paths 3 }`,
      });
    expect(tipFindings(text('')).map(({ severity }) => severity)).toEqual(['warning']);
    expect(tipFindings(text('bar { width 6 mm height 3 mm end-clearance 0.5 mm }'))).toEqual([]);
  });
});
