// Takes its time: measures bars in space.

import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../core/language/finding.ts';
import { barName } from '../../../core/winding/model.ts';
import { ferryDrive, withLine } from '../../copper/machines.ts';
import { machineText, type Request, sluiceFan, spaceResult } from '../../space/machines.ts';
import { expectFindings, expectWithin } from '../../support/marked.ts';
import { study } from '../../support/study.ts';
import { unmeasured } from '../../support/withoutEnds.ts';
import { writtenOut } from '../../support/writtenOut.ts';

/** The drive with its paths written, which other sizes leave as they are. */
const joined = writtenOut(ferryDrive);

/** Findings of a code that needs nothing measured in space. */
const found = (text: string, code: string): readonly Finding[] =>
  unmeasured(text).findings.filter((finding) => finding.code === code);

/** The text with a finding's fix made. */
function mended(text: string, finding: Finding): string {
  const edits = [...(finding.fix?.edits ?? [])].sort((a, b) => b.range.start - a.range.start);
  expect(edits.length).toBeGreaterThan(0);
  return edits.reduce(
    (done, { range, text: written }) => done.slice(0, range.start) + written + done.slice(range.end),
    text,
  );
}

const withBar = (...lines: readonly string[]) =>
  joined.replace('  metal copper', `  metal copper\n${lines.map((line) => `  ${line}`).join('\n')}`);

/** The value a message names behind some words, as written there. */
function toldValue(finding: Finding, words: string): string {
  const value = new RegExp(`${words} (\\d+(?:\\.\\d+)? mm)`).exec(finding.message)?.[1];
  expect(value, finding.message).toBeDefined();
  return value!;
}

describe('bends that begin within the stack', () => {
  // R = 8 + 3.78/2 = 9.89 mm turns by 67 degrees or so: half of that takes 6.5 mm, the straight part is 6.
  const text = withLine(withBar('«bend-radius 8 mm»'), 'joint-straight', '  joint-straight 20 mm');

  it('are an error at the radius, on both sides, with the missing length', () => {
    const findings = expectFindings(text, ['bend-in-slot'], (marked) =>
      found(marked, 'bend-in-slot').slice(0, 1),
    );
    expect(findings[0]!.message).toContain('on the connection side');
    expect(findings[0]!.message).toMatch(/begin 0\.\d+ mm within the stack/);
    expect(found(text.replace(/[«»]/g, ''), 'bend-in-slot')).toHaveLength(2);
  });

  it('are freed by the end-straight that the fix writes, and by the radius that the message names', () => {
    const plain = text.replace(/[«»]/g, '');
    const findings = found(plain, 'bend-in-slot');
    expect(found(mended(plain, findings[0]!), 'bend-in-slot')).toEqual([]);
    const radius = toldValue(findings[0]!, 'bend-radius of at most');
    const smaller = withLine(plain, 'bend-radius', `  bend-radius ${radius}`);
    expect(found(smaller, 'bend-in-slot')).toEqual([]);
    // No more than needed: a tenth of a millimeter less does not do.
    const value = Number.parseFloat(toldValue(findings[0]!, 'end-straight of'));
    const short = withLine(plain, 'end-straight', `  end-straight ${value - 0.1} mm`);
    expect(found(short, 'bend-in-slot').length).toBeGreaterThan(0);
    expectWithin(plain, findings);
  });

  it('are no error where the radius is only assumed: it is taken as large as the straight parts hold', () => {
    const tight = withLine(joined, 'end-straight', '  end-straight 3 mm');
    expect(found(tight, 'bend-in-slot')).toEqual([]);
  });

  it('are one where not even the sharpest bend fits', () => {
    const none = withLine(joined, 'end-straight', '  «end-straight 1 mm»');
    expectFindings(none, ['bend-in-slot'], (marked) => found(marked, 'bend-in-slot').slice(0, 1));
    const [finding] = found(none.replace(/[«»]/g, ''), 'bend-in-slot');
    expect(finding!.message).not.toContain('bend-radius');
    expect(found(mended(none.replace(/[«»]/g, ''), finding!), 'bend-in-slot')).toEqual([]);
  });
});

describe('bends before a joint', () => {
  it('need its straight part, which the fix writes', () => {
    const text = withLine(
      withLine(withBar('bend-radius 6 mm'), 'end-straight', '  end-straight 9 mm'),
      'joint-straight',
      '  joint-straight 4 mm',
    );
    const findings = found(text, 'bend-in-joint');
    expect(findings).toHaveLength(1);
    expect(found(mended(text, findings[0]!), 'bend-in-joint')).toEqual([]);
    const radius = toldValue(findings[0]!, 'bend-radius of at most');
    expect(found(withLine(text, 'bend-radius', `  bend-radius ${radius}`), 'bend-in-joint')).toEqual([]);
  });
});

describe('steps along the radius', () => {
  it.each([
    ['behind the radius', 'bend-radius 4 mm flat 900 mm'],
    ['of its own', 'bend-radius 4 mm   flat 900 mm'],
  ])('that are longer than their leg are freed by the flat radius that the fix writes %s', (_, line) => {
    const text = withBar(line);
    const findings = found(text, 'radial-step-does-not-fit');
    expect(findings.map(({ severity }) => severity)).toEqual(['error']);
    expect(found(mended(text, findings[0]!), 'radial-step-does-not-fit')).toEqual([]);
  });
});

describe('crowns within one layer', () => {
  const oneLayer = ferryDrive.replace('layers 4', 'layers 1').replace('route paths 2', '«route paths 2»');

  it('cross where they reach over each other: an error for hairpins', () => {
    const findings = expectFindings(oneLayer, ['crowns-cross'], (text) => found(text, 'crowns-cross'));
    expect(findings[0]!.message).toContain('cross each other, such as');
    expect(findings[0]!.message).toContain('no connection of this layer has crowns that do not cross');
    expect(findings[0]!.message).toContain("'layers 2'");
    // Said once: what lies in each other there is no further finding.
    const others = study(oneLayer.replace(/[«»]/g, '')).findings;
    expect(others.filter(({ code }) => code === 'ends-collide')).toEqual([]);
  });

  it('are joined by pieces above one another where the bars are straight', () => {
    const straight = oneLayer.replace(/[«»]/g, '').replace('form hairpin', 'form straight');
    expect(found(straight, 'crowns-cross')).toEqual([]);
  });
});

describe('connecting pieces without room', () => {
  const narrow = writtenOut(
    machineText({
      slots: 12,
      poles: 10,
      layers: 4,
      paths: 1,
      form: 'straight',
      gap: 'inner',
      lean: [0, 0],
      filled: 0.42,
      slender: 0.8,
      bar: 'bend-radius 3 mm lead-length 60 mm',
    }),
  );
  const wide = narrow.replace('lead-length', '«piece-width 14 mm» lead-length');

  it('are an error that says what one takes, and not one of what they run into', () => {
    const findings = expectFindings(wide, ['pieces-without-room'], (text) =>
      study(text).findings.filter(({ code }) => code === 'pieces-without-room' || code === 'ends-collide'),
    );
    expect(findings[0]!.message).toMatch(
      /^The connecting pieces of joints 19, 20, 21 on the connection side find no way past leads and other pieces: a piece takes 14\.\d+ mm along the radius/,
    );
    const { problems } = spaceResult(narrow);
    expect(problems.map(({ kind }) => kind)).not.toContain('pieces-without-room');
  });

  it('are an error beside which others that collide are told, however many are as deep', () => {
    const slot = '{ width 4.75 mm  depth 6 mm  opening 1.9 mm  opening-height 0.8 mm  liner 0.25 mm }';
    const { findings, facts } = study(`winding "Oyster gate"
machine { slots 24  poles 2  phases 6 apart 30 edeg  gap inner  bore 60 mm  stack 90 mm }
slot a b ${slot}
slot c d ${slot}
bar {
  width 3.85 mm  height 1.32 mm  corner 0.36 mm  coating 0.09 mm  joint-gap 0.2 mm  bend-radius 2.08 mm
  end-straight 6 mm  end-clearance 0.73 mm  joint-straight 5 mm
}
layout { layers 4  span 12  skew a b 0.5 slot  skew c d -0.5 slot }
connect { delta  route paths 1 }
`);
    const codes = findings.map(({ code }) => code);
    expect(codes).toContain('pieces-without-room');
    const [told] = findings.filter(({ code }) => code === 'ends-collide');
    expect(told?.severity).toBe('error');
    // Of a piece that has no room and another no finding tells that they collide.
    const crowded = facts!.space().problems.find(({ kind }) => kind === 'pieces-without-room')!;
    const joints = 'joints' in crowded ? crowded.joints : [];
    const space = facts!.space().space;
    if (!space.known) throw new Error('not known');
    const pieces = space.value.links
      .filter(({ joint }) => joints.some((one) => one === joint))
      .map(({ from, to }) => `${barName(from)}–${barName(to)}`);
    expect(pieces.length).toBeGreaterThan(0);
    expect(
      (told!.data as { readonly bars: readonly string[] }).bars.filter((bar) => pieces.includes(bar)),
    ).toEqual([]);
  });

  it('are told where they reach over the air gap, by how much', () => {
    // As wide as a half of the bore: behind the winding is no room left for the third.
    const { space, problems } = spaceResult(sluiceFan);
    if (!space.known) throw new Error('not known');
    const innermost = Math.min(
      ...space.value.links.map(
        ({ from, beside, section }) =>
          space.value.layers[from.layer]!.radius + beside - section.width / 2 - section.coating,
      ),
    );
    const over = problems.find(({ kind }) => kind === 'pieces-over-gap');
    expect(over).toMatchObject({ side: 'connection' });
    expect(over && 'reach' in over ? over.reach : 0).toBeCloseTo(57.5e-3 - innermost, 9);
  });
});

describe('leads without a place', () => {
  // Layer a: half a pitch at its inner faces is 5.5 mm; bars of 5.18 mm with coating need 0.6 mm more.
  const text = ferryDrive
    .replace('width 4.6 mm', 'width 6 mm')
    .replace('width 3.6 mm', 'width 5 mm')
    .replace('joint-straight 8 mm', 'joint-straight 8 mm\n  bend-radius 2 mm');

  it('are an error that names the clearance with which they have one', () => {
    const findings = found(text, 'lead-without-place');
    expect(findings.length).toBeGreaterThan(0);
    for (const finding of findings) {
      expect(finding.severity).toBe('error');
      expect(finding.message).toContain('An end-clearance of at most');
      expectWithin(text, [finding]);
    }
    expect(found(mended(text, findings[0]!), 'lead-without-place')).toEqual([]);
  });

  it('have one where half a pitch is wide enough', () => {
    expect(found(joined, 'lead-without-place')).toEqual([]);
  });

  it('are not told where bends that do not fit keep them from it: those are', () => {
    const buoy = (endStraight: number) => `winding "Buoy winch"
machine { slots 12 poles 10 phases 3 bore 100 mm stack 60 mm }
slot { width 11.5 mm depth 16 mm opening 3 mm opening-height 1.5 mm liner 0.4 mm }
bar { width 5 mm height 6 mm corner 0.8 mm coating 0.1 mm bend-radius 5 mm end-straight ${endStraight} mm
  end-clearance 1 mm joint-straight 8 mm lead-length 25 mm }
layout { layers 2 span 1 }
connect { star route paths 2 }
`;
    expect(found(buoy(6), 'lead-without-place')).toEqual([]);
    expect(found(buoy(6), 'bend-in-slot').map(({ severity }) => severity)).toContain('error');
    expect(found(buoy(7), 'bend-in-slot')).toEqual([]);
    expect(found(buoy(7), 'lead-without-place')).toEqual([]);
  });
});

describe('legs of a hairpin', () => {
  const winch = (bar: string) => `winding "Winch"
machine { slots 12 poles 4 phases 3 bore 60 mm stack 50 mm }
slot { width 6 mm depth 16 mm opening 1.5 mm opening-height 0.8 mm }
bar { width 4 mm coating 0.1 mm ${bar} }
layout { layers 4 span 3 }
connect { star }
`;
  const differ = (bar: string) => found(winch(bar), 'hairpin-legs-differ');

  it('that have different sections are a warning, at the statement of the outer one', () => {
    const text = winch('height a 2 mm height b 3 mm height c d 3 mm');
    const [warning] = found(text, 'hairpin-legs-differ');
    expect(warning).toMatchObject({ severity: 'warning' });
    expect(text.slice(warning!.range.start, warning!.range.end)).toBe('height b 3 mm');
    expect(warning!.message).toContain(
      'Crowns join layers a and b, whose bars differ: 4 mm x 2 mm and 4 mm x 3 mm. A hairpin has one section',
    );
  });

  it('are none where crowns join layers alike, and where bars are straight', () => {
    expect(differ('height a b 2 mm height c d 3 mm')).toEqual([]);
    expect(differ('form straight height a 2 mm height b c d 3 mm')).toEqual([]);
    expect(differ('height a 2 mm')).toEqual([]);
  });
});

describe('joint planes', () => {
  it('that differ are told, and leveled by the fix', () => {
    const findings = found(joined, 'joint-planes-differ');
    expect(findings.map(({ severity }) => severity)).toEqual(['info']);
    expect(findings[0]!.message).toMatch(/connection side end at heights from 28\.\d+ mm to 33\.\d+ mm/);
    const level = mended(joined, findings[0]!);
    expect(level).toContain('joint-plane level');
    expect(found(level, 'joint-planes-differ')).toEqual([]);
    const free = withBar('joint-plane free');
    expect(mended(free, found(free, 'joint-planes-differ')[0]!)).toContain('joint-plane level');
  });
});

describe('bend radii', () => {
  it('below the width of the bars are a warning, settled by the fix', () => {
    const text = withBar('«bend-radius 2 mm»');
    const [finding] = expectFindings(text, ['bend-tight'], (plain) => found(plain, 'bend-tight'));
    expect(finding!.severity).toBe('warning');
    const plain = text.replace(/[«»]/g, '');
    expect(found(mended(plain, finding!), 'bend-tight')).toEqual([]);
    expect(found(withBar('bend-radius 3.6 mm'), 'bend-tight')).toEqual([]);
    expect(found(joined, 'bend-tight')).toEqual([]);
  });
});

describe('rings', () => {
  const ringed = joined.replace('connect {', 'connect {\n  «rings star»');

  it('need a section', () => {
    const [finding] = expectFindings(ringed, ['ring-size-missing'], (text) =>
      found(text, 'ring-size-missing'),
    );
    expect(finding!.message).toBe('Rings need ring-width and ring-height in the bar block.');
    const half = ringed.replace(/[«»]/g, '').replace('metal copper', 'metal copper\n  ring-width 8 mm');
    expect(found(half, 'ring-size-missing')[0]!.message).toBe('Rings need ring-height in the bar block.');
  });

  it('take ends of several layers, wide or narrow: over them, or behind the winding', () => {
    const sized = (width: number) =>
      ringed
        .replace(/[«»]/g, '')
        .replace('metal copper', `metal copper\n  ring-width ${width} mm\n  ring-height 4 mm`);
    for (const width of [3, 8, 14]) {
      expect(found(sized(width), 'ring-over-gap')).toEqual([]);
      expect(found(sized(width), 'lead-without-place')).toEqual([]);
    }
  });

  it('that reach over an air gap on both sides of the winding are told by how much', () => {
    const request: Request = {
      slots: 24,
      poles: 4,
      layers: 2,
      paths: 2,
      form: 'straight',
      gap: 'both',
      lean: [0, 0],
      filled: 0.4,
      slender: 0.8,
      bar: 'bend-radius 4 mm ring-width 20 mm ring-height 3 mm',
      connect: 'rings star',
    };
    const text = machineText(request);
    const [finding] = found(text, 'ring-over-gap');
    expect(finding!.severity).toBe('warning');
    expect(finding!.message).toMatch(
      /^The ring of N on the connection side reaches over the air gap, by [\d.]+ mm: no rotor passes there\./,
    );
    // Within the radii of the machine: two layers of 3.4 mm and 2 mm of openings on either side.
    const narrow = machineText({ ...request, bar: request.bar!.replace('20 mm', '9 mm') });
    expect(found(narrow, 'ring-over-gap')).toEqual([]);
  });
});

describe('files without sizes', () => {
  it('have no findings of bars in space', () => {
    const text =
      'winding "Sluice"\nmachine { slots 12 poles 4 phases 3 }\nlayout { layers 2 span 3 }\nconnect { star }\n';
    const codes = study(text).findings.map(({ code }) => code);
    expect(codes.filter((code) => /bend|joint-planes|crowns|lead-without|ring|piece/.test(code))).toEqual([]);
  });
});
