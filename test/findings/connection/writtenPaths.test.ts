// Takes its time: searches connections.

import { describe, expect, it } from 'vitest';
import { jumperNeeded } from '../../../core/findings/connection/findingKinds.ts';
import { expectFindings } from '../../support/marked.ts';
import { study } from '../../support/study.ts';
import { windingText } from '../../support/windingText.ts';

// 36 slots, 4 poles: a pole pair is 18 slots, so the axes of V and W lie 6 and 12 slots behind U's.
const machine = 'slots 36 poles 4 phases 3';
const layout = 'layers 2 span 9';
const first = 'path U 1 from U1 1a +9b +9a +9b +10a +9b +9a +9b | +8b -9a -9b -9a to N';
const second = 'path U 2 from U1 3a +9b +9a +9b | +8b -9a -9b -9a -8b -9a -9b -9a to N';

const connected = (parts: {
  readonly layout?: string;
  readonly first?: string;
  readonly second?: string;
  readonly copies?: string;
}) =>
  windingText({
    machine,
    layout: parts.layout ?? layout,
    rest: `connect {\nstar\n${parts.first ?? first}\n${parts.second ?? second}\n${parts.copies ?? 'repeat U as V shift 6\nrepeat U as W shift 12'}\n}`,
  });

/** Findings about which bars the paths use. */
const aboutBars = (text: string) =>
  study(text).findings.filter(({ code }) => /^(bar-|sense-against-layout|layout-against-paths)/.test(code));
/** The same without the one at the layout. */
const atPaths = (text: string) => aboutBars(text).filter(({ code }) => code !== 'layout-against-paths');

describe('written paths that agree with the layout', () => {
  it('have no findings about their bars', () => {
    expect(aboutBars(connected({}))).toEqual([]);
    expect(aboutBars(connected({ layout: 'layers 2' }))).toEqual([]);
  });
});

describe('paths of unequal voltage', () => {
  const blamed = (text: string) =>
    study(text).findings.flatMap(({ code, message }) =>
      code === 'paths-unequal-voltage' ? [/: (path \S+ \d) differs/.exec(message)?.[1]] : [],
    );

  it('blame the first of those that differ alike, not the one that rounding makes differ most', () => {
    const [one, two] = [first, second].map((path) => path.slice('path U 1'.length));
    const exchanged = connected({ first: `path U 1${two}`, second: `path U 2${one}` });
    for (const text of [connected({}), exchanged])
      expect(blamed(text)).toEqual(['path U 1', 'path V 1', 'path W 1']);
  });
});

describe('one mistake is one finding', () => {
  it('for each of two exchanged shifts, with the shift that fits', () => {
    const copies = '«repeat U as V shift 12»\n«repeat U as W shift 6»';
    const [v, w] = expectFindings(
      connected({ copies }),
      ['sense-against-layout', 'sense-against-layout'],
      atPaths,
    );
    expect(v!.message).toMatch(
      /^Phase V is laid where the layout has phase W: all its 24 bars \(13a, 22b, .* and 16 more\)\. 'shift 6' fits/,
    );
    expect(w!.message).toMatch(/^Phase W is laid where the layout has phase V: .*'shift 12' fits/);
    expect(v!.fix!.edits[0]!.text).toBe('6');
    expect(v!.related[0]!.message).toBe('the layout has +W at 13a');
    // And one at the layout, as the two places of a disagreement.
    expect(aboutBars(connected({ copies: copies.replace(/[«»]/g, '') }))).toHaveLength(3);
  });

  it('and the fix that it offers mends it', () => {
    const text = connected({ copies: 'repeat U as V shift 6\nrepeat U as W shift 13' });
    const [finding] = atPaths(text);
    const { range, text: written } = finding!.fix!.edits[0]!;
    expect(aboutBars(text.slice(0, range.start) + written + text.slice(range.end))).toEqual([]);
  });

  it('where a copy lies in the opposite sense', () => {
    // 9 slots are a pole pitch: half a period on.
    const copies = '«repeat U as V shift 15»\nrepeat U as W shift 12';
    const [finding] = expectFindings(connected({ copies }), ['sense-against-layout'], atPaths);
    expect(finding!.message).toMatch(
      /^Phase V passes all its 24 bars in the sense opposite to the layout's: /,
    );
  });

  it('where a shift is off by one slot: which bars, and as what', () => {
    const copies = '«repeat U as V shift 7»\nrepeat U as W shift 12';
    const [finding] = expectFindings(connected({ copies }), ['sense-against-layout'], atPaths);
    expect(finding!.message).toBe(
      "Phase V passes 8 of its 24 bars otherwise than the layout: 10a as +V where it has -U, 19b as -V where it has +U, 28a as +V where it has -U and 5 more. 'shift 6' fits the layout.",
    );
  });

  it('where one shift is given to two phases and no layout decides', () => {
    const copies = 'repeat U as V shift 6\n«repeat U as W shift 6»';
    const text = connected({ layout: 'layers 2', copies });
    const [finding] = expectFindings(text, ['bar-used-twice'], aboutBars);
    expect(finding!.message).toMatch(
      /^Phase W is laid where the bars of phase V are: all its 24 bars are already used \(7a, /,
    );
  });

  it.each([layout, 'layers 2'])('where a path starts at a wrong bar, copies and all (%s)', (laid) => {
    const text = connected({ layout: laid, second: second.replace('3a', '«2a»') });
    const [finding] = expectFindings(text, ['bar-used-twice'], aboutBars);
    expect(finding!.message).toBe(
      '8 of the 12 bars of path U 2 are already used by path U 1: 2a, 11b, 20a, 29b, 1b, 28a, 19b, 10a.',
    );
    expect(finding!.related[0]!.message).toBe('2a is first used here');
    expect(finding!.related.length).toBeLessThanOrEqual(6);
  });

  it('where a path passes a single bar wrongly: slot, layer and path', () => {
    // The last bar one slot too far: 36a is -V of the layout... told exactly, once for all copies.
    const text = connected({ second: second.replace(/-9a to N$/, '«-8a» to N') });
    const [finding] = expectFindings(text, ['sense-against-layout'], (source) =>
      atPaths(source).filter(({ code }) => code === 'sense-against-layout' || code === 'bar-used-twice'),
    );
    expect(finding!.message).toMatch(/^Path U 2 passes bar \d+a as -U, but the layout has [+-]?\w+ there\.$/);
  });

  it('where two paths share a single bar', () => {
    const text = windingText({
      machine: 'slots 6 poles 2 phases 3',
      layout: 'layers 1',
      rest: 'connect { star\npath U 1 from U1 1a 4a to N\npath V 1 from V1 3a 6a to N\npath W 1 from W1 5a «4a» to N\n}',
    });
    const [finding] = expectFindings(text, ['bar-used-twice'], aboutBars);
    expect(finding!.message).toBe('Bar 4a of path W 1 is already used by path U 1.');
    expect(finding!.related[0]!.message).toBe('first used here');
  });

  it('where a path meets itself', () => {
    const text = windingText({
      machine: 'slots 6 poles 2 phases 3',
      layout: 'layers 1',
      rest: 'connect { star\npath U 1 from U1 1a 4a «1a» «4a» to N\n}',
    });
    const [finding] = aboutBars(text.replace(/[«»]/g, ''));
    expect(finding!.message).toBe('Path U 1 passes 2 of its bars twice: 1a, 4a.');
  });
});

describe('bars that no path uses', () => {
  it('are told at the path that came out short', () => {
    const short = `«${first.replace(/-9b -9a to N$/, 'to N')}»`;
    const [finding] = expectFindings(connected({ first: short }), ['bar-unused'], aboutBars);
    // Two bars in each of three phases.
    expect(finding!.message).toMatch(
      /^Path U 1, like its copies, has 10 bars where an even share is 12; 6 bars belong to no path: /,
    );
  });

  it('are told at the block where a phase has no path', () => {
    const text = connected({ copies: 'repeat U as V shift 6' }).replace('connect', '«connect»');
    const [finding] = expectFindings(text, ['bar-unused'], aboutBars);
    expect(finding!.message).toMatch(/^Phase W has no path; 24 bars belong to no path: 4a, 5a, 6a, /);
  });
});

describe('joints that lean against their layer', () => {
  // Two poles in 12 slots: half a turn is 6 slots, and the regular joint of the connection side 7.
  const twoPoles = (last: string) =>
    windingText({
      machine: 'slots 12 poles 2 phases 3',
      layout: 'layers 2 span 6',
      rest: `connect { star\npath U 1 from U1 1a +6b +7a +6b | 2b -6a ${last} -6a to N\nrepeat U as V shift 4\nrepeat U as W shift 8\n}`,
    });
  const leaning = (text: string) => study(text).findings.filter(({ code }) => code === 'lean-collision');

  it('because a position was reached the wrong way round are told the hop, once for all copies', () => {
    const [finding] = expectFindings(twoPoles('«1b»'), ['lean-collision'], leaning);
    expect(finding!.message).toContain('3 joints');
    expect(finding!.message).toContain('write the hop -7b to go the other way');
    expect(leaning(twoPoles('-7b'))).toEqual([]);
  });

  it('though a hop says the way are told to be separate pieces', () => {
    const [finding] = expectFindings(twoPoles('«+5b»'), ['lean-collision'], leaning);
    expect(finding!.message).toContain('write | before the step');
  });
});

describe('counts', () => {
  const text = windingText({
    machine: 'slots 48 poles 8 phases 3',
    layout: 'layers 4 span 6',
    rest: 'connect { star }\nrequire { jumpers <= 0 }',
  });

  it('say whether they are of a phase or of all', () => {
    const { findings } = study(text);
    const pieces = findings.find(({ code }) => code === 'jumpers')!;
    const limit = findings.find(({ code }) => code === 'limit-failed')!;
    const [, all, one] = /^(\d+) separate connecting pieces in all, (\d+) a phase: /.exec(pieces.message)!;
    expect(Number(all)).toBe(3 * Number(one));
    const crossing = jumperNeeded.message({
      bars: '4c\u20131a',
      count: 6,
      phases: [2, 2, 2],
      crossing: true,
    });
    expect(crossing).toMatch(/^6 separate connecting pieces in all, 2 a phase, that cross the end winding: /);
    expect(limit.message).toBe(
      `jumpers is ${one} a phase; required is at most 0 a phase. route met no connection that holds all limits.`,
    );
  });
});
