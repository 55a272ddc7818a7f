import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chordsFor, curveLength, placeAt, stationAt } from '../../core/space/curve.ts';
import {
  type EndFinish,
  type EndLeg,
  type EndStart,
  endGeometry,
  endRooms,
} from '../../core/space/ends/barEnd.ts';
import { integrate } from '../../core/space/quadrature.ts';
import { cross, distance, dot } from '../../core/space/vectors.ts';
import { tries } from '../support/tries.ts';
import { lengthsByKind, polyline, walkedLength, worstMeeting } from './measure.ts';

const mm = 1e-3;

/** An upright bar whose legs rise by 30 degrees; a radian of turn is 100 mm at its radius. */
const plain: EndStart = {
  side: 1,
  stack: 100 * mm,
  radius: 100 * mm,
  lean: 0,
  endStraight: 8 * mm,
  jointStraight: 9 * mm,
  edge: 10 * mm,
  flat: 8 * mm,
};
const rise = 100 * mm * Math.tan(Math.PI / 6);

describe('a bar end worked by hand', () => {
  // Turn 0.4 rad: 40 mm round the axis, 40 tan 30 = 23.0940 mm up, 40/cos 30 = 46.1880 mm along the slope.
  // Both bends turn by 60 degrees at R = 10 mm: arc 10.4720 mm, tangent 10 tan 30 = 5.7735 mm.
  const leg: EndLeg = { turn: 0.4, rise };
  const plane = (8 + 23.094010767585033 + 9) * mm;

  it('joined: straight 2.2265, bend 10.4720, leg 34.6410, bend 10.4720, joint 3.2265 mm', () => {
    const end = endGeometry(plain, leg, { kind: 'axial', shift: 0, plane, lead: 12 * mm, reach: null });
    expect(end.pieces.map(({ kind }) => kind)).toEqual(['straight', 'bend', 'leg', 'bend', 'joint', 'lead']);
    const expected = [2.22649731, 10.47197551, 34.64101615, 10.47197551, 3.22649731, 12];
    end.pieces.forEach(({ length }, index) => {
      expect(length / mm).toBeCloseTo(expected[index]!, 8);
    });
    expect(end.length / mm).toBeCloseTo(73.03796179, 8);
    expect(end.tip).toEqual({ angle: 0.4, radius: 0.1, height: plane });
    expect(end.top).toBeCloseTo(plane + 12 * mm, 12);
  });

  it('a crown to a leg of its own layer: half of a 60 degree arc, 5.2360 mm, where the sharp corner had 5.7735', () => {
    const end = endGeometry(plain, leg, { kind: 'crown', otherRadius: 100 * mm, otherRise: rise });
    const { straight, bend, leg: slope, crown } = lengthsByKind(end.pieces);
    expect(straight! / mm).toBeCloseTo(8 - 5.77350269, 8);
    expect(bend! / mm).toBeCloseTo(10.47197551, 8);
    // 46.1880 less both tangents.
    expect(slope! / mm).toBeCloseTo(34.64101615, 8);
    expect(crown! / mm).toBeCloseTo(5.23598776, 8);
    // The rounding stands R (1/cos 30 - 1) below the sharp apex.
    expect(end.top / mm).toBeCloseTo(8 + 23.09401077 - 10 * (1 / Math.cos(Math.PI / 6) - 1), 8);
  });

  it('a step of 3 mm out of the layer: slope acos(1 - 3/16), each half sqrt(8 3 - 2.25) = 4.6637 mm of the leg', () => {
    const axial: EndFinish = { kind: 'axial', shift: 3 * mm, plane, lead: 0, reach: null };
    expect(endRooms(plain, leg, axial).step / mm).toBeCloseTo(2 * Math.sqrt(21.75), 10);
    const end = endGeometry(plain, leg, axial);
    const steps = end.pieces.filter(({ curve }) => curve.profile.kind === 'step');
    expect(steps).toHaveLength(2);
    const profiles = steps.map(({ curve }) => curve.profile) as { from: number; to: number }[];
    expect(profiles[0]!.to).toBeCloseTo(Math.acos(1 - 3 / 16), 12);
    expect(profiles[1]!.from).toBeCloseTo(Math.acos(1 - 3 / 16), 12);
    expect(end.tip.radius).toBeCloseTo(103 * mm, 12);
    // Each half is near an arc of 8 mm and that slope; the bore bends it further by little.
    for (const { length } of steps) expect(length / mm).toBeCloseTo(8 * Math.acos(1 - 3 / 16), 1);
  });

  it('a step of more than twice its radius: quarter arcs and 4 mm straight along the radius', () => {
    const axial: EndFinish = { kind: 'axial', shift: -20 * mm, plane: 60 * mm, lead: 0, reach: null };
    const end = endGeometry({ ...plain, radius: 120 * mm }, { turn: -0.6, rise: 60 * mm }, axial);
    const radial = end.pieces.filter(({ curve }) => curve.profile.kind === 'radial');
    expect(radial.map(({ length }) => length)).toEqual([expect.closeTo(4 * mm, 12)]);
    const { tangent, width, height } = stationAt(radial[0]!.curve, 0.5);
    const [x, y] = stationAt(radial[0]!.curve, 0.5).point;
    const outwards = [x / Math.hypot(x, y), y / Math.hypot(x, y), 0] as const;
    expect(dot(tangent, outwards)).toBeCloseTo(-1, 12);
    expect(dot(width, outwards)).toBeCloseTo(0, 12);
    expect(dot(height, tangent)).toBeCloseTo(0, 12);
  });

  it('straight out of the slot: one corner where the bar leans, none where it does not', () => {
    const upright = endGeometry(plain, null, {
      kind: 'axial',
      shift: 0,
      plane: 17 * mm,
      lead: 5 * mm,
      reach: null,
    });
    expect(upright.pieces.map(({ kind, length }) => [kind, Math.round(length / mm)])).toEqual([
      ['straight', 8],
      ['joint', 9],
      ['lead', 5],
    ]);
    // Leans by atan(0.05 100/100): the corner takes 10 tan(lean/2).
    const leaning = { ...plain, lean: 0.05 };
    const end = endGeometry(leaning, null, { kind: 'axial', shift: 0, plane: 17 * mm, lead: 0, reach: null });
    const lean = Math.atan(0.05);
    expect(end.pieces.map(({ kind }) => kind)).toEqual(['straight', 'bend', 'joint']);
    expect(end.length).toBeCloseTo(
      (8 * mm) / Math.cos(lean) + 10 * mm * lean - 20 * mm * Math.tan(lean / 2) + 9 * mm,
      12,
    );
  });

  it('bent to a ring: a quarter of the flat bend after the lead, then along the radius', () => {
    const reach = { round: 0, along: -20 * mm };
    const end = endGeometry(plain, leg, { kind: 'axial', shift: 0, plane, lead: 12 * mm, reach });
    const [lead, bend, radial] = end.pieces.slice(-3);
    expect(lead!.length).toBeCloseTo(12 * mm, 12);
    // R = 8 mm: 4 pi mm of arc, and 8 mm of each of its straights.
    expect(bend!.length / mm).toBeCloseTo(4 * Math.PI, 8);
    expect(radial!.length / mm).toBeCloseTo(12, 10);
    expect(end.pieces.slice(-3).every(({ kind }) => kind === 'lead')).toBe(true);
    expect(placeAt(radial!.curve, 1)).toEqual({
      angle: expect.closeTo(0.4, 12),
      radius: expect.closeTo(80 * mm, 12),
      height: expect.closeTo(plane + 20 * mm, 12),
    });
    expect(end.top).toBeCloseTo(plane + 20 * mm, 12);
    // Tip and rooms are those of the same end without a ring.
    expect(end.tip.height).toBe(plane);
  });

  it('steps aside to a ring: an edgewise quarter, round the axis, a flat quarter, along the radius', () => {
    const reach = { round: -0.3, along: 15 * mm };
    const end = endGeometry(plain, leg, { kind: 'axial', shift: 0, plane, lead: 12 * mm, reach });
    const [lead, corner, round, bend, radial] = end.pieces.slice(-5);
    expect(lead!.length).toBeCloseTo(12 * mm, 12);
    // R = 10 mm edgewise; 30 mm round the axis in all, of which the bends take 10 and 8.
    expect(corner!.length / mm).toBeCloseTo(5 * Math.PI, 8);
    expect(round!.length / mm).toBeCloseTo(12, 10);
    // Flatwise at R = 8 mm, outwards round a growing radius.
    expect(bend!.length / mm).toBeGreaterThan(4 * Math.PI);
    expect(bend!.length / mm).toBeLessThan(4 * Math.PI * 1.03);
    expect(radial!.length / mm).toBeCloseTo(7, 10);
    expect(placeAt(radial!.curve, 1)).toEqual({
      angle: expect.closeTo(0.1, 12),
      radius: expect.closeTo(115 * mm, 12),
      height: expect.closeTo(plane + 22 * mm, 12),
    });
    // The bar's width stands along the axis there.
    expect(Math.abs(stationAt(radial!.curve, 1).width[2])).toBeCloseTo(1, 12);
    const { gap, kink } = worstMeeting(end.pieces);
    expect(Math.max(gap, kink)).toBeLessThan(1e-12);
  });

  it('a crown without legs is a misuse', () => {
    expect(() => endGeometry(plain, null, { kind: 'crown', otherRadius: 0.1, otherRise: 0.1 })).toThrow(
      RangeError,
    );
  });
});

describe('developed length of a bend', () => {
  it('is that of the middle of its section, as DIN 6935 has it from r/s = 5 on (rule from public repositories)', () => {
    // Arc for 90 degrees: pi/2 (r + k s/2), k = 0.65 + 0.5 log10(r/s), at most 1.
    const [inner, thickness] = [10 * mm, 2 * mm];
    const factor = Math.min(1, 0.65 + 0.5 * Math.log10(inner / thickness));
    const rule = (Math.PI / 2) * (inner + (factor * thickness) / 2);
    const curve = {
      side: 1 as const,
      face: 0.05,
      path: { radius: 0.1, angle: 0, height: 0, direction: 0, curvature: 1 / (inner + thickness / 2) },
      profile: { kind: 'level' as const, radius: 0.1, extent: (Math.PI / 2) * (inner + thickness / 2) },
      radialSide: 'height' as const,
    };
    expect(factor).toBeCloseTo(0.9995, 4);
    expect(curveLength(curve) / rule - 1).toBeLessThan(1e-4);
    expect(walkedLength(curve) / rule - 1).toBeLessThan(1e-4);
  });
});

describe('curves', () => {
  it('quadrature is exact to its tolerance, also where a function turns sharply', () => {
    expect(integrate((x) => x ** 7, 1e-12)).toBeCloseTo(1 / 8, 14);
    expect(integrate((x) => Math.sqrt(x + 1e-4), 1e-10)).toBeCloseTo((2 / 3) * (1.0001 ** 1.5 - 1e-6), 9);
  });

  it('chords for a tolerance stay within it', () => {
    const end = endGeometry(
      plain,
      { turn: 0.4, rise },
      {
        kind: 'crown',
        otherRadius: 103 * mm,
        otherRise: rise,
      },
    );
    const tolerance = 0.02 * mm;
    for (const { curve, length } of end.pieces) {
      const chords = chordsFor(curve, length, tolerance);
      for (let chord = 0; chord < chords; chord++) {
        const [a, b] = [stationAt(curve, chord / chords).point, stationAt(curve, (chord + 1) / chords).point];
        const middle = stationAt(curve, (chord + 0.5) / chords).point;
        const aside = cross(
          [b[0] - a[0], b[1] - a[1], b[2] - a[2]],
          [middle[0] - a[0], middle[1] - a[1], middle[2] - a[2]],
        );
        expect(Math.hypot(...aside) / distance(a, b)).toBeLessThan(1.05 * tolerance);
      }
    }
  });
});

/** Any bar end that has room for its bends. */
const ends = fc
  .record({
    side: fc.constantFrom<1 | -1>(1, -1),
    stack: fc.double({ min: 0.03, max: 0.5, noNaN: true }),
    radius: fc.double({ min: 0.04, max: 0.6, noNaN: true }),
    leanShare: fc.double({ min: -0.4, max: 0.4, noNaN: true }),
    edge: fc.double({ min: 0.002, max: 0.02, noNaN: true }),
    flat: fc.double({ min: 0.001, max: 0.01, noNaN: true }),
    slope: fc.double({ min: 0.15, max: 1.2, noNaN: true }),
    reach: fc.double({ min: 0.01, max: 0.2, noNaN: true }),
    sense: fc.constantFrom(1, -1),
    shift: fc.double({ min: -0.02, max: 0.02, noNaN: true }),
    crown: fc.boolean(),
    lead: fc.double({ min: 0, max: 0.05, noNaN: true }),
    ring: fc.option(
      fc.record({
        aside: fc.option(fc.double({ min: 1, max: 3, noNaN: true })),
        along: fc.double({ min: 1, max: 3, noNaN: true }),
        senses: fc.tuple(fc.constantFrom(1, -1), fc.constantFrom(1, -1)),
      }),
    ),
  })
  .map((random) => {
    const start: EndStart = {
      side: random.side,
      stack: random.stack,
      radius: random.radius,
      lean: (random.leanShare * random.stack) / random.radius,
      endStraight: 0.03,
      jointStraight: 0.03,
      edge: random.edge,
      flat: random.flat,
    };
    const turn = (random.sense * random.reach) / random.radius;
    const leg = { turn, rise: random.radius * Math.tan(random.slope) };
    const plane = start.endStraight + Math.abs(turn) * leg.rise + start.jointStraight + 0.002;
    const finish: EndFinish = random.crown
      ? { kind: 'crown', otherRadius: random.radius + random.shift, otherRise: leg.rise * 0.95 }
      : { kind: 'axial', shift: random.shift, plane, lead: random.lead, reach: reachOf(random) };
    return { start, leg, finish };
  })
  .filter(({ start, leg, finish }) => {
    const { straight, leg: slope, joint } = endRooms(start, leg, finish);
    return straight > 0 && slope > 0 && joint >= 0 && (finish.kind === 'crown') === (joint === 0);
  });

/** On to a ring, or not: by so many times what its bends take. */
function reachOf({
  ring,
  radius,
  shift,
  edge,
  flat,
}: {
  readonly ring: {
    readonly aside: number | null;
    readonly along: number;
    readonly senses: readonly number[];
  } | null;
  readonly radius: number;
  readonly shift: number;
  readonly edge: number;
  readonly flat: number;
}) {
  if (!ring) return null;
  const [aside, along] = ring.senses as [number, number];
  return {
    round: (aside * (ring.aside ?? 0) * (edge + flat)) / (radius + shift),
    along: along * Math.min(ring.along * flat, (radius + shift) / 2),
  };
}

describe('any bar end', () => {
  it('runs on with one tangent and one frame from piece to piece, from the slot on', () => {
    fc.assert(
      fc.property(ends, ({ start, leg, finish }) => {
        const { pieces } = endGeometry(start, leg, finish);
        const { gap, kink } = worstMeeting(pieces);
        expect(gap).toBeLessThan(1e-12);
        expect(kink).toBeLessThan(1e-12);
        const first = stationAt(pieces[0]!.curve, 0);
        const lean = Math.atan((start.lean * start.radius) / start.stack);
        expect(first.tangent[2]).toBeCloseTo(start.side * Math.cos(lean), 12);
        expect(first.point[2]).toBeCloseTo((start.side * start.stack) / 2, 12);
      }),
      { seed: 20260501, numRuns: tries(40) },
    );
  });

  it('is as long as a fine polyline through its own points, and every frame is square', () => {
    fc.assert(
      fc.property(ends, ({ start, leg, finish }) => {
        for (const { curve, length } of endGeometry(start, leg, finish).pieces) {
          expect(Math.abs(walkedLength(curve) - length)).toBeLessThan(1e-9 + 1e-7 * length);
          expect(polyline(curve, 50)).toBeLessThanOrEqual(length + 1e-9);
          const wrong = [0, 0.3, 0.7, 1].flatMap((fraction) => {
            const { tangent, height, width } = stationAt(curve, fraction, 0.7);
            const off = [
              dot(tangent, tangent) - 1,
              dot(width, width) - 1,
              dot(tangent, width),
              dot(cross(height, tangent), width) - 1,
            ];
            return off.every((each) => Math.abs(each) < 5e-13) ? [] : [[fraction, ...off]];
          });
          expect(wrong).toEqual([]);
        }
      }),
      { seed: 20260502, numRuns: tries(25) },
    );
  });

  it('stays outside the stack, ends at its tip, and is the mirror image of its mirrored self', () => {
    fc.assert(
      fc.property(ends, ({ start, leg, finish }) => {
        const end = endGeometry(start, leg, finish);
        const heights = end.pieces.flatMap(({ curve }) =>
          [0, 0.25, 0.5, 0.75, 1].map((fraction) => placeAt(curve, fraction).height),
        );
        expect(heights.filter((height) => !(height > -1e-12))).toEqual([]);
        const last = placeAt(end.pieces.at(-1)!.curve, 1);
        const reach = finish.kind === 'axial' ? finish.reach : null;
        expect(last.radius).toBeCloseTo(end.tip.radius + (reach?.along ?? 0), 12);
        expect(last.angle).toBeCloseTo(end.tip.angle + (reach?.round ?? 0), 12);
        const otherWay: EndFinish =
          finish.kind === 'axial' && reach ? { ...finish, reach: { ...reach, round: -reach.round } } : finish;
        const mirrored = endGeometry({ ...start, lean: -start.lean }, { ...leg, turn: -leg.turn }, otherWay);
        expect(mirrored.length).toBeCloseTo(end.length, 12);
        expect(mirrored.tip.angle).toBeCloseTo(-end.tip.angle, 12);
        const otherSide = endGeometry(
          { ...start, side: -start.side as 1 | -1, lean: -start.lean },
          leg,
          finish,
        );
        expect(otherSide.length).toBeCloseTo(end.length, 12);
      }),
      { seed: 20260503, numRuns: tries(40) },
    );
  });
});
