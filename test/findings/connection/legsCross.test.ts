import { describe, expect, it } from 'vitest';
import { study } from '../../support/study.ts';

/**
 * Two paths a phase whose joints on the connection side reach over 7, 8, 10 and 11 slots, where 9 are regular:
 * some legs begin behind others and end before them, however they are bent.
 */
const text = (bar: string, paths?: string) => `winding "Overtaking legs"
machine { slots 36 poles 4 phases 3 bore 114.6 mm stack 60 mm }
slot { width 4.6 mm depth 10 mm opening 1 mm opening-height 1 mm }
${bar}
layout { layers 2 span 9 }
connect { star
  ${
    paths ??
    `path U 1 from U1 1a +9b +11a +9b +8a +9b +8a +9b +11a +9b +8a +9b to N
  path U 2 from U1 1b -9a -7b -9a -10b -9a -10b -9a -7b -9a -10b -9a to N
  repeat U as V shift 6
  repeat U as W shift 12`
  }
}
`;
const bar = (straight: number, more = '') =>
  `bar { width 4 mm height 3 mm end-straight 8 mm end-clearance 0.6 mm joint-straight ${straight} mm ${more} }`;
const found = (source: string) => study(source).findings.filter(({ code }) => code === 'legs-cross');

describe('legs that run through joints', () => {
  it('are an error at the step of the longer joint, with both bars and what frees them', () => {
    const source = text(bar(8));
    const findings = found(source);
    expect(findings.length).toBeGreaterThan(0);
    for (const { severity, range } of findings) {
      expect(severity).toBe('error');
      expect(source.slice(range.start, range.end)).toMatch(/^[+-](7|8|10|11)[ab]$/);
    }
    expect(findings[0]!.message).toMatch(
      /^On the connection side the leg of \d+[ab] runs through the joint of \d+[ab] however they are bent/,
    );
    expect(findings[0]!.message).toContain("'specials crowns'");
  });

  it('are a warning where no sizes tell how high they stand', () => {
    expect(new Set(found(text('')).map(({ severity }) => severity))).toEqual(new Set(['warning']));
  });

  it('are never what the router returns where another connection is free', () => {
    expect(found(text(bar(8), 'route paths 2'))).toEqual([]);
  });
});
