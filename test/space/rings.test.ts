// Takes its time: measures bars in space.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Mark } from '../../core/space/clearance/body.ts';
import { pairDistances, roomForPairs } from '../../core/space/clearance/pairDistance.ts';
import { nearPairs } from '../../core/space/clearance/pairs.ts';
import { flatBarSagitta, type Standing, sorts, standingBodies } from '../../core/space/clearance/standing.ts';
import { placeAt } from '../../core/space/curve.ts';
import type { Space, SpaceResult } from '../../core/space/space.ts';
import { barName } from '../../core/winding/model.ts';
import { examples } from '../support/files.ts';
import { tries } from '../support/tries.ts';
import { unmeasured } from '../support/withoutEnds.ts';
import { writtenOut } from '../support/writtenOut.ts';
import { known, machineText, type Request, ringsOfMixedRadius, spaceOf, spaceResult } from './machines.ts';
import { worstMeeting } from './measure.ts';

/** What rings, and bar ends beyond their joints, run into, by the measured distances of their coated sections. */
function collisions(space: Space): readonly string[] {
  const allowance = flatBarSagitta(space) + 1e-5;
  const groupOf = (a: Mark, b: Mark) => {
    if (Math.max(a.sort, b.sort) < sorts.lead) return 0;
    return a.layer >= 0 && b.layer >= 0 && a.layer !== b.layer ? 2 : 1;
  };
  // Nothing of the first group is looked for.
  const groups = { count: 3, of: groupOf, reach: Float64Array.of(-1, 0, 0) };
  const pairs = nearPairs(space.slots, standingBodies(space), 1e-4);
  const counts = ({ make }: Standing) => make.body.segments.some(({ mark }) => mark.sort >= sorts.lead);
  return pairs.flatMap(({ first, second, turn }) => {
    if (!counts(first) && !counts(second)) return [];
    const [, alike, apart] = pairDistances(roomForPairs(), first.make.body, second.make.body, turn, groups);
    const into = (alike && alike.distance < -1e-6) || (apart && apart.distance < -allowance);
    return into ? [`${first.name} and ${second.name}`] : [];
  });
}

/** Those that are not told as themselves: ends without a place among the joints, and pieces without room. */
function untold({ problems, ...result }: SpaceResult): readonly string[] {
  const lost = problems.flatMap((problem) =>
    problem.kind === 'lead-without-place' ? [barName(problem.bar)] : [],
  );
  const crowded = problems.some(({ kind }) => kind === 'pieces-without-room');
  return collisions(known({ problems, ...result })).filter(
    (pair) => !lost.some((bar) => pair.split(' ').includes(bar)) && !(crowded && pair.includes('–')),
  );
}

/** Every ring lies on, or beside, the very ends of the bars that it joins, coating to coating. */
function expectJoined(space: Space): void {
  for (const { bars, side, piece, section, height } of space.rings) {
    const { radius } = piece.curve.path;
    const [from, to] = [placeAt(piece.curve, 0), placeAt(piece.curve, 1)];
    for (const { slot, layer } of bars) {
      const bar = space.bars[layer * space.slots + slot - 1]!;
      const { pieces, reach } = bar[side];
      const tip = placeAt(pieces.at(-1)!.curve, 1);
      const angle = tip.angle + bar.turn;
      const along = (((angle - from.angle) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
      expect(along).toBeLessThanOrEqual(to.angle - from.angle);
      const [half, tall] = [section.width, section.height].map((size) => size / 2 + section.coating);
      if (reach) {
        expect(Math.abs(radius - tip.radius)).toBeCloseTo(half!, 10);
        expect(tip.height).toBeCloseTo(height, 10);
      } else {
        expect(tip.height).toBeCloseTo(height - tall!, 10);
        expect(Math.abs(tip.radius - radius)).toBeLessThanOrEqual(half!);
      }
    }
  }
}

/** A text with rings, and with a section for them where it has none. */
function ringed(text: string, which: string): string {
  const asks = text
    .replace(/\n\s*rings \w+/, '')
    .replace(/\nconnect \{\n/, `\nconnect {\n  rings ${which}\n`);
  return /ring-width/.test(asks)
    ? asks
    : asks.replace(/\nbar \{\n/, '\nbar {\n  ring-width 8 mm\n  ring-height 4 mm\n');
}

const requests: fc.Arbitrary<Request> = fc
  .record({
    q: fc.constantFrom(1, 2, 3),
    poles: fc.constantFrom(2, 4, 8),
    layers: fc.constantFrom(1, 2, 4),
    paths: fc.constantFrom(1, 2, 4),
    form: fc.constantFrom<Request['form']>('hairpin', 'straight'),
    gap: fc.constantFrom<Request['gap']>('inner', 'inner', 'outer', 'both'),
    filled: fc.double({ min: 0.3, max: 0.45, noNaN: true }),
    slender: fc.double({ min: 0.6, max: 1.2, noNaN: true }),
    lead: fc.constantFrom('', 'lead-length 15 mm', 'lead-length 40 mm'),
    ring: fc.constantFrom('9 mm ring-height 2 mm', '3 mm ring-height 5 mm', '6 mm ring-height 4 mm'),
    connect: fc.constantFrom('rings all', 'rings star', 'rings terminals'),
  })
  .map(({ q, lead, ring, layers, paths, ...request }) => ({
    ...request,
    slots: 3 * q * request.poles,
    span: 3 * q,
    layers,
    paths: Math.min(paths, request.poles / (layers === 1 ? 2 : 1)),
    lean: [0, 0] as const,
    bar: `bend-radius 3 mm flat 2 mm ${lead} ring-width ${ring}`,
  }));

describe('rings', () => {
  it('run into nothing in any example, whichever ends they join', () => {
    // All of them, and by turns those of one kind alone.
    for (const [index, { name, text }] of examples.entries())
      for (const which of ['all', index % 2 === 0 ? 'star' : 'terminals']) {
        const { facts } = unmeasured(ringed(writtenOut(text), which));
        const result = facts?.space();
        if (!result?.space.known || result.space.value.rings.length === 0) continue;
        expect(untold(result), `${name}, ${which}`).toEqual([]);
        expectJoined(result.space.value);
      }
  });

  it('run into nothing in machines of any kind', () => {
    let rings = 0;
    let bent = 0;
    fc.assert(
      fc.property(requests, (request) => {
        const result = spaceResult(machineText(request));
        if (!result.space.known) return;
        const space = result.space.value;
        rings += space.rings.length;
        bent += space.ends.filter(({ reach }) => reach).length;
        expect(untold(result)).toEqual([]);
        expectJoined(space);
        for (const { pieces } of space.ends) {
          const { gap, kink } = worstMeeting(pieces);
          expect(Math.max(gap, kink)).toBeLessThan(1e-12);
        }
        space.rings.forEach(({ side, level, height, section }, index) => {
          const before = space.rings[index - 1];
          const lowest = before?.side !== side;
          expect(level).toBe(lowest ? 1 : before.level + 1);
          const between = lowest ? 1 : height - before.height - section.height - 2 * section.coating;
          expect(between).toBeGreaterThan(0.5e-3 - 1e-9);
        });
      }),
      { seed: 20261129, numRuns: tries(8) },
    );
    expect(rings).toBeGreaterThan(5);
    expect(bent).toBeGreaterThan(5);
  });

  it('lie behind the winding where ends of other rings stand between their own, which bend to them', () => {
    const space = spaceOf(machineText(ringsOfMixedRadius));
    expect(space.rings.map(({ name }) => name).sort()).toEqual(['N', 'U1', 'V1', 'W1']);
    const outermost = space.layers.at(-1)!;
    const face = outermost.radius + outermost.section.height / 2;
    const behind = space.rings.filter(
      ({ piece, section }) => piece.curve.path.radius - section.width / 2 > face,
    );
    expect(behind.length).toBeGreaterThan(1);
    // Ends in one angle: one steps aside, and comes to its ring beside the other.
    expect(space.ends.some(({ reach }) => reach && reach.round !== 0)).toBe(true);
    expect(collisions(space)).toEqual([]);
  });

  it('lie on their ends where nothing stands between them, and off the air gap as far as those allow', () => {
    const bar = 'bend-radius 3 mm ring-width 6 mm ring-height 4 mm';
    const one = { ...ringsOfMixedRadius, bar, layers: 2, paths: 1, connect: 'rings star' };
    const narrow = spaceOf(machineText(one));
    expect(narrow.ends.every(({ reach }) => reach === null)).toBe(true);
    const [ring] = narrow.rings;
    const inner = ring!.piece.curve.path.radius - ring!.section.width / 2 - ring!.section.coating;
    expect(inner).toBeGreaterThan((48 * 10e-3) / Math.PI / 2 - 1e-9);
  });
});
