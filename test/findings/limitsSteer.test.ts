// Takes its time: searches connections.

import { describe, expect, it } from 'vitest';
import { whyNotSteered } from '../../core/facts/limitSteering.ts';
import { orNull } from '../../core/figures/figure.ts';
import { finished } from '../../core/figures/steps.ts';
import { quantityValue } from '../../core/findings/quantities.ts';
import { quantities } from '../../core/review/numbers/scales.ts';
import { examples } from '../support/files.ts';
import { study } from '../support/study.ts';

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
    expect(both.messages[0]).toMatch(
      /^voltage-in-slot is .* route met no connection that holds all limits\.$/,
    );
    const wide = steered(twoPoles, 'voltage-in-slot <= 60 %\n joint-shapes <= 3');
    expect(wide.facts.hash()).toBe(free.facts.hash());
    expect(wide.codes).toEqual([]);
  });
});

/** A sized machine: what it has of its limit, and what is said of it. */
function sized(machine: string, span: number, limit: string, wish = 'least voltage') {
  const { facts, findings } = study(`winding "Lock gate"
machine {
  ${machine}  phases 3  stack 96 mm  air-gap 0.8 mm  magnet-height 5 mm
  speed 3000 rpm  current 100 A  winding-temperature 90 degC
}
slot { width 4.6 mm  depth 8.4 mm  opening 1.2 mm  opening-height 0.8 mm  liner 0.25 mm }
bar {
  width 3.6 mm  height 3 mm  corner 0.5 mm  coating 0.09 mm  bend-radius 4 mm  end-straight 8 mm
  end-clearance 1.2 mm  joint-straight 10 mm  lead-length 25 mm
}
layout { layers 2  span ${span} }
connect { star  route paths 2 ${wish} }
require { ${limit} }
`);
  const about = findings.filter(({ code }) => code.startsWith('limit-'));
  return { facts: facts!, about: about.map(({ code, message }) => [code, message]) };
}

describe('limits that only the whole winding tells', () => {
  const two = 'slots 12  poles 2  bore 40.5 mm';

  it('take a candidate that meets them, and say what the one without them would have', () => {
    for (const [limit, otherwise] of [
      ['copper-mass <= 0.495 kg', '0.5033 kg'],
      ['phase-resistance <= 0.91 mohm', '0.92506 mohm'],
      ['copper-loss <= 27.5 W', '27.773 W'],
      ['current-density <= 4.8 A/mm2', '4.8476 A/mm2'],
      ['path-current-deviation <= 1 %', '2.666 %'],
    ] as const) {
      const { about } = sized(two, 6, limit);
      expect(about.map(([code]) => code)).toEqual(['limit-decides-connection']);
      expect(about[0]![1]).toContain(`would have ${otherwise}`);
    }
  });

  it('are met by what is measured of joined bars, too, where nothing else leads there', () => {
    const { about } = sized(two, 6, 'voltage-between-slots <= 110 %', '');
    expect(about).toEqual([['limit-decides-connection', expect.stringContaining('would have 123.9 %')]]);
  });

  it('fail where no candidate meets them, and change nothing', () => {
    const { about, facts } = sized(two, 6, 'copper-mass <= 0.4 kg');
    expect(about.map(([code]) => code)).toEqual(['limit-failed']);
    expect(facts.connection).toMatchObject({ facts: { explanation: { limitsDecided: [] } } });
  });
});

describe('a limit that fails says why no other connection was taken', () => {
  it.each([
    [
      'joint-shapes >= 3',
      'route looks for connections that have little of it, not for those that have much.',
    ],
    ['winding-factor harmonic 1 >= 0.99', 'Every connection has the same: layout, sizes and load decide it.'],
  ])('%s', (limit, words) => {
    const { codes, messages } = steered(twoPoles, limit);
    expect(codes).toEqual(['limit-failed']);
    expect(messages[0]!.endsWith(`. ${words}`)).toBe(true);
  });

  it('and what is said to be the same in every connection is', () => {
    const pod = examples.find(({ name }) => name === 'harbor-ferry-pod-drive.winding')!.text;
    const facts = study(pod).facts!;
    const { connection } = facts;
    if (connection.kind !== 'connected' || !connection.facts.candidates) throw new Error(connection.kind);
    const candidates = finished(connection.facts.candidates());
    expect(candidates.length).toBeGreaterThan(2);
    const others = candidates.map((candidate) => facts.connectedBy(candidate.facts));
    let told = 0;
    for (const entry of quantities) {
      const nowhere = { start: 0, end: 0 };
      const limit = { entry, scope: null, point: null, limit: 0, written: '0', limitRange: nowhere };
      if (whyNotSteered({ ...limit, relation: '<=' }) !== 'same') continue;
      const own = orNull(quantityValue(limit, facts));
      if (own !== null) told++;
      for (const other of others) {
        const value = orNull(quantityValue(limit, other));
        if (own === null) expect(value, entry.word).toBeNull();
        else expect(Math.abs(value! - own), entry.word).toBeLessThanOrEqual(1e-9 * Math.abs(own) + 1e-12);
      }
    }
    expect(told).toBeGreaterThan(8);
  });

  it('but not of written paths', () => {
    const { findings } = study(`winding "Lock gate"
machine { slots 6 poles 2 phases 3 }
layout { layers 2 span 3 }
connect { star
path U 1 from U1 1a +3b to N
path U 2 from U1 4b -3a to N
repeat U as V shift 2
repeat U as W shift 4 }
require { winding-factor >= 2 }`);
    const failed = findings.find(({ code }) => code === 'limit-failed')!;
    expect(failed.message).toMatch(/required is at least 2\.$/);
  });
});

it('a lead that would run through a joint bent otherwise is laid elsewhere, whatever was wished for', () => {
  const { facts } = sized('slots 24  poles 4  bore 81 mm', 6, 'end-clearance-left >= 0.5 mm');
  const left = facts.spaceFigures().clearanceLeft();
  expect(left.known && left.value).toBeGreaterThan(0.5e-3);
  expect(facts.connection).toMatchObject({ facts: { explanation: { measure: { jointShapes: 2 } } } });
});
