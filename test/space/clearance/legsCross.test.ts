import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { finished } from '../../../core/figures/steps.ts';
import { clearanceSteps } from '../../../core/space/clearance/clearance.ts';
import { type BendInput, bendEnd } from '../../../core/space/ends/bends.ts';
import type { EndForm } from '../../../core/space/ends/endForms.ts';
import type { EndSizes } from '../../../core/space/ends/endSizes.ts';
import { endSlopes } from '../../../core/space/ends/endSlopes.ts';
import { jointHeights } from '../../../core/space/ends/tipSizes.ts';
import { coatedWidth } from '../../../core/space/section.ts';
import type { BarEnd, Space } from '../../../core/space/space.ts';
import type { Bends } from '../../../core/winding/joints/bends.ts';
import { type JointHeight, legsCross, passedFrom } from '../../../core/winding/joints/crossing.ts';

/** Two joined ends of one layer, the second one's foot some slots beyond the first one's. */
interface Pair {
  readonly slots: number;
  readonly apart: number;
  /** Half slots from foot to tip. */
  readonly turns: readonly [number, number];
  /** Slots that the joint's other leg turns further. */
  readonly higher: readonly [number, number];
  readonly filled: number;
  readonly clearance: number;
  readonly jointStraight: number;
}

const bends: Bends = {
  base: 'wave',
  direction: 1,
  far: [],
  connection: [],
  betweenPairs: null,
  unpairedSpan: null,
};
const pitch = 10e-3;

/** What the condition says of a pair, how near its tips are in slots, and the two ends in space. */
function standing({ slots, apart, turns, higher, filled, clearance, jointStraight }: Pair) {
  const radius = (slots * pitch) / (2 * Math.PI);
  const section = { width: filled * pitch, height: 3e-3, corner: 0.3e-3, coating: 0.1e-3 };
  const sizes: EndSizes = {
    slots,
    stack: 0.08,
    layers: [{ radius, lean: 0, section }],
    endStraight: 8e-3,
    jointStraight,
    endClearance: clearance,
    bendRadius: 1e-3,
    flatRadius: 1e-3,
    jointGap: null,
    levelPlane: false,
    leadLength: null,
    pieceWidth: null,
    pieceHeight: null,
    pieceClearance: clearance,
    rings: null,
  };
  const slopes = endSlopes(sizes, bends, 'far');
  const height: JointHeight = jointHeights(sizes, slopes)![0]!;
  const input: BendInput = { sizes, slopes: { connection: slopes, far: slopes } };
  const ends = turns.map((turn, index): BarEnd => {
    const angle = (turn / 2) * ((2 * Math.PI) / slots);
    const plane = sizes.endStraight + (Math.abs(turn) / 2 + higher[index]!) * height.rise + jointStraight;
    const form: EndForm = {
      side: 'far',
      layer: 0,
      use: 'joint',
      turn: angle,
      crownLayer: null,
      shift: 0,
      plane,
      lead: 0,
      reach: null,
    };
    return { index, ...form, ...bendEnd(input, form, { edge: 1e-3, flat: 1e-3 }) };
  });
  const legs = turns.map((turn, index) => ({
    turn: turn / 2,
    passedFrom: passedFrom(height, higher[index]! * height.rise),
  }));
  const bars = Array.from({ length: slots }, (_, slot) => {
    const end = slot === 0 ? ends[0] : slot === apart ? ends[1] : null;
    if (!end) return null;
    const bar = { slot: slot + 1, layer: 0 };
    // Ends of other joints on the side that is not looked at.
    const common = { bar, turn: (2 * Math.PI * slot) / slots, connection: end, far: end };
    return { ...common, connectionNumber: 10 + slot, farNumber: 1 + slot };
  });
  const space = { slots, layers: sizes.layers, ends, bars, links: [], rings: [] } as unknown as Space;
  const overtaken = turns[0] / 2 - apart - turns[1] / 2;
  const shorter = Math.abs(turns[0]) < Math.abs(turns[1]) ? 0 : 1;
  const tip = apart + turns[1] / 2;
  const above = Math.abs(shorter === 1 ? tip : apart - turns[0] / 2) - Math.abs(turns[shorter]! / 2);
  return {
    space,
    crosses: legsCross(legs[0]!, legs[1]!, apart),
    tips: Math.abs(overtaken),
    /** Slots from where passing above begins. */
    margin: Math.abs(above - legs[shorter]!.passedFrom),
    width: coatedWidth(section) / pitch,
  };
}

const pairs: fc.Arbitrary<Pair> = fc.record({
  slots: fc.constantFrom(24, 36, 48),
  apart: fc.integer({ min: 1, max: 4 }),
  turns: fc.tuple(
    fc.integer({ min: 3, max: 16 }),
    fc.oneof({ weight: 4, arbitrary: fc.integer({ min: 3, max: 12 }) }, fc.integer({ min: -12, max: -3 })),
  ),
  higher: fc.tuple(fc.constantFrom(0, 0.5, 1), fc.constantFrom(0, 0.5, 1)),
  filled: fc.double({ min: 0.25, max: 0.5, noNaN: true }),
  clearance: fc.double({ min: 0.3e-3, max: 2e-3, noNaN: true }),
  jointStraight: fc.double({ min: 2e-3, max: 12e-3, noNaN: true }),
});

const least = (space: Space) =>
  Math.min(
    ...finished(clearanceSteps(space, { bars: 1e-3, pieces: 1e-3 })).places.map(({ distance }) => distance),
    1,
  );

describe('legs of one layer', () => {
  const seen = { crossing: 0, above: 0, beside: 0 };

  it('that cross by the condition collide in space, those that do not are free', () => {
    fc.assert(
      fc.property(pairs, (pair) => {
        const { space, crosses, tips, margin, width } = standing(pair);
        // Tips too near each other are another matter, and the very limit is one of rounding.
        fc.pre(tips > width + 0.05 && margin > 0.05);
        const distance = least(space);
        if (crosses) expect(distance).toBeLessThan(-1e-5);
        else expect(distance).toBeGreaterThan(-1e-6);
        const overtaken = pair.apart * (pair.apart + (pair.turns[1] - pair.turns[0]) / 2) < 0;
        seen[crosses ? 'crossing' : overtaken ? 'above' : 'beside']++;
      }),
      { seed: 20261128, numRuns: 60, endOnFailure: true },
    );
    // All three are met.
    expect(Math.min(seen.crossing, seen.above, seen.beside)).toBeGreaterThan(3);
  });
});
