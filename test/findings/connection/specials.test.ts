// Takes its time: searches connections.

import { describe, expect, it } from 'vitest';
import { study } from '../../support/study.ts';

function codes(connect: string): string[] {
  const text = `winding "Winch"
machine { slots 36 poles 6 phases 3 }
layout { layers 2 span 6 }
connect { star ${connect} }
`;
  return study(text).findings.map(({ code }) => code);
}

/** Four balanced paths with special crowns, found outside this project. */
const written = `
  path U 1 from U1 14a +6b +6a +5b +6a +6b to N
  path U 2 from U1 13b -6a -6b -5a -6b -6a to N
  path U 3 from U1 13a +6b +6a +7b +6a +6b to N
  path U 4 from U1 14b -6a -6b -7a -6b -6a to N
  repeat U as V shift 4
  repeat U as W shift 8
`;

describe('special spans in crowns', () => {
  it('are told to be out of place only where they belong in the joined legs', () => {
    expect(codes(written)).toContain('special-joint-on-far-side');
    expect(codes(`specials joined ${written}`)).toContain('special-joint-on-far-side');
    for (const place of ['crowns', 'either'])
      expect(codes(`specials ${place} ${written}`)).not.toContain('special-joint-on-far-side');
    expect(codes(written).filter((code) => code.startsWith('paths-unequal'))).toEqual([]);
  });

  it('are taken, and told, where regular crowns allow no such paths and nothing is stated', () => {
    expect(codes('route paths 4')).toContain('special-crowns-taken');
    expect(codes('route paths 4')).not.toContain('special-joint-on-far-side');
    expect(codes('specials crowns route paths 4')).not.toContain('special-crowns-taken');
  });

  it('are refused where they are to lie in the joined legs, with what special crowns allow', () => {
    const { findings } = study(`winding "Winch"
machine { slots 36 poles 6 phases 3 }
layout { layers 2 span 6 }
connect { star specials joined route paths 4 }
`);
    const refusal = findings.find(({ code }) => code === 'routing-refused')!;
    expect(refusal.message).toContain('4 does not divide');
    expect(refusal.message).toContain('write specials either');
  });
});

describe('a released sheet', () => {
  const text = (status: string) => `winding "Winch"
machine { slots 12 poles 4 phases 3 }
layout { layers 2 span 3 }
connect { star route paths 2 }
sheet { status "${status}" }
`;

  it('needs its paths written out, and the fix does it', () => {
    expect(study(text('In work')).findings.map(({ code }) => code)).not.toContain('released-paths-unwritten');
    const released = study(text('Released'));
    const found = released.findings.find(({ code }) => code === 'released-paths-unwritten')!;
    expect(found.severity).toBe('warning');
    const [edit] = found.fix!.edits;
    const fixed =
      released.text.slice(0, edit!.range.start) + edit!.text + released.text.slice(edit!.range.end);
    const written = study(fixed);
    expect(written.findings.map(({ code }) => code)).not.toContain('released-paths-unwritten');
    expect(written.report({ orders: 1 }).routing!.hash).toBe(released.report({ orders: 1 }).routing!.hash);
    expect(released.markdown({ orders: 1 })).toContain(
      `found, not written out (hash ${released.report({ orders: 1 }).routing!.hash})`,
    );
  });
});
