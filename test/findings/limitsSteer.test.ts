import { describe, expect, it } from 'vitest';
import { study } from '../../core/study.ts';

/** A small machine with limits: its routing, and its findings about limits. */
function steered(machine: string, limits: string, connect = 'route paths 2', layers = 2) {
  const { facts, findings, text } = study(`winding "Lock gate"
machine { ${machine} phases 3 }
layout { layers ${layers} span 6 }
connect { star ${connect} }
require { ${limits} }
`);
  const { connection } = facts!;
  if (connection.kind !== 'connected') throw new Error(connection.kind);
  const about = findings.filter(({ code }) => code.startsWith('limit-'));
  return {
    facts: connection.facts,
    codes: about.map(({ code }) => code),
    lines: about.map(({ range }) => text.slice(range.start, range.end)),
    messages: about.map(({ message }) => message),
  };
}

const twoPoles = 'slots 12 poles 2';
const free = steered(twoPoles, '');

describe('limits that a connection may meet', () => {
  it('go before shapes and joints, and say at their line that they decided', () => {
    expect(free.facts.gaps()!.inSlot!.value).toBeGreaterThan(0.5);
    const limited = steered(twoPoles, 'voltage-in-slot <= 40 %');
    expect(limited.facts.gaps()!.inSlot!.value).toBeLessThanOrEqual(0.4);
    expect(limited.facts.counts().specialShapes).toBeGreaterThan(free.facts.counts().specialShapes);
    expect(limited.codes).toEqual(['limit-decides-connection']);
    expect(limited.lines).toEqual(['voltage-in-slot <= 40 %']);
    expect(limited.messages[0]).toContain('would have 51.76 %');
  });

  it('count shapes, pieces and legs likewise', () => {
    for (const limits of ['bar-shapes <= 2', 'joint-shapes <= 1', 'legs-bent-apart <= 12', 'jumpers <= 0'])
      expect(steered(twoPoles, limits)).toMatchObject({ codes: [] });
    // The pieces that would meet the voltage alone are not needed: five shapes do.
    const both = steered('slots 24 poles 4', 'legs-bent-apart <= 24\n voltage-in-slot <= 70 %', undefined, 4);
    expect(both.facts.counts().jumpers).toBe(0);
    expect(both.codes).toEqual(['limit-decides-connection']);
    const legs = steered('slots 24 poles 4', 'legs-bent-apart <= 24');
    expect(legs.facts.legsBentApart()).toBeLessThanOrEqual(24);
    const wished = steered(twoPoles, '', 'route paths 2 least voltage');
    const shapes = steered(twoPoles, 'joint-shapes <= 1', 'route paths 2 least voltage');
    expect(wished.facts.counts().specialShapes).toBe(2);
    expect(shapes.facts.counts().specialShapes).toBe(1);
    expect(shapes.codes).toEqual(['limit-decides-connection']);
    const bars = steered(twoPoles, 'bar-shapes <= 3', 'route paths 2 least voltage');
    expect(bars.facts.barShapes().length).toBeLessThanOrEqual(3);
  });

  it('change nothing where no connection meets all of them, or the best one does', () => {
    const both = steered(twoPoles, 'voltage-in-slot <= 40 %\n joint-shapes <= 1');
    expect(both.facts.hash()).toBe(free.facts.hash());
    expect(both.codes).toEqual(['limit-failed']);
    const wide = steered(twoPoles, 'voltage-in-slot <= 60 %\n joint-shapes <= 3');
    expect(wide.facts.hash()).toBe(free.facts.hash());
    expect(wide.codes).toEqual([]);
  });
});
