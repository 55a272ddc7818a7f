// Takes its time: measures bars in space.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildSpace } from '../../core/space/buildSpace.ts';
import { placeAt, stationAt } from '../../core/space/curve.ts';
import { lengthOf } from '../../core/space/piece.ts';
import type { BarEnd, Space, SpaceBar } from '../../core/space/space.ts';
import { dot } from '../../core/space/vectors.ts';
import { farthest } from '../support/near.ts';
import { tries } from '../support/tries.ts';
import { known, machineText, mirrored, type Request, spaceInput, spaceOf } from './machines.ts';
import { walkedLength, worstMeeting } from './measure.ts';

const sides = ['connection', 'far'] as const;

/** Machines that can be connected and bent. */
const requests: fc.Arbitrary<Request> = fc
  .record({
    slots: fc.constant(0),
    poles: fc.constant(4),
    layers: fc.constantFrom(2, 4),
    paths: fc.constantFrom(1, 2),
    form: fc.constantFrom<Request['form']>('hairpin', 'straight'),
    gap: fc.constantFrom<Request['gap']>('inner', 'outer', 'both'),
    lean: fc.constantFrom<Request['lean']>([0, 0], [1, 1], [-0.5, -0.5], [1, -1]),
    filled: fc.double({ min: 0.3, max: 0.55, noNaN: true }),
    slender: fc.double({ min: 0.5, max: 1.2, noNaN: true }),
    bar: fc.constantFrom(
      '',
      'bend-radius 3 mm flat 2 mm joint-gap 0.05 mm lead-length 20 mm',
      'bend-radius 2 mm joint-plane level',
    ),
    connect: fc.constantFrom('', 'rings all'),
    q: fc.constantFrom(1, 2, 3),
    short: fc.constantFrom(0, 1),
  })
  .map(({ q, short, ...request }) => {
    const pole = 3 * q;
    const { slots: _, connect, ...rest } = request;
    const leaning = request.lean[0] !== request.lean[1];
    return {
      ...rest,
      connect,
      // Rings have a section of their own.
      bar: connect === '' ? rest.bar : `${rest.bar} ring-width 6 mm ring-height 4 mm`,
      slots: pole * request.poles,
      span: q > 1 ? pole - short : pole,
      // Layers of different lean lie in slots of their own, open to both gaps.
      gap: leaning ? ('both' as const) : request.gap,
    };
  });

/** All pieces of a bar from its connection-side end to its far-side end meet with one tangent. */
function barMeetings(space: Space, bar: SpaceBar): { readonly gap: number; readonly kink: number } {
  const slot = space.slotParts[bar.bar.layer]!;
  const ends = [bar.connection, bar.far].map(({ pieces }) => worstMeeting(pieces));
  const faces = ([bar.connection, bar.far] as const).map((end, index) => {
    const [own, out] = [stationAt(slot.curve, index), stationAt(end.pieces[0]!.curve, 0)];
    const sign = index === 0 ? -1 : 1;
    return {
      gap: Math.hypot(...own.point.map((value, axis) => value - out.point[axis]!)),
      kink: Math.max(1 - sign * dot(own.tangent, out.tangent), 1 - dot(own.height, out.height)),
    };
  });
  const all = [...ends, ...faces];
  return { gap: Math.max(...all.map(({ gap }) => gap)), kink: Math.max(...all.map(({ kink }) => kink)) };
}

/** The bars joined at each joint bent from its bars. */
function joined(space: Space, side: (typeof sides)[number]): readonly (readonly [SpaceBar, SpaceBar])[] {
  const byNumber = new Map<number, SpaceBar[]>();
  for (const bar of space.bars) {
    if (!bar || (bar[side].use !== 'joint' && bar[side].use !== 'crown')) continue;
    const number = side === 'far' ? bar.farNumber : bar.connectionNumber;
    byNumber.set(number, [...(byNumber.get(number) ?? []), bar]);
  }
  const pairs = [...byNumber.values()];
  expect(pairs.filter(({ length }) => length !== 2)).toEqual([]);
  return pairs as unknown as readonly (readonly [SpaceBar, SpaceBar])[];
}

const roundTurn = (angle: number) => Math.abs(Math.atan2(Math.sin(angle), Math.cos(angle)));
const tipOf = ({ pieces }: BarEnd) => placeAt(pieces.at(-1)!.curve, 1);

describe('bars of any machine', () => {
  it('run on with one tangent, stay outside the stack, and measure as their own polylines', () => {
    fc.assert(
      fc.property(requests, (request) => {
        const space = spaceOf(machineText(request));
        const distinct = new Map(
          space.bars.flatMap((bar) =>
            bar ? [[`${bar.connection.index} ${bar.far.index}`, bar] as const] : [],
          ),
        );
        const meetings = [
          ...[...distinct.values()].map((bar) => barMeetings(space, bar)),
          ...space.links.map(({ pieces }) => worstMeeting(pieces)),
        ].flatMap(({ gap, kink }) => [gap, kink]);
        expect(Math.max(...meetings)).toBeLessThan(1e-12);
        const ends = space.ends.map(({ length }) => length);
        expect(
          farthest(
            ends,
            space.ends.map(({ pieces }) => lengthOf(pieces)),
          ),
        ).toBeLessThan(5e-15);
        const ofEnds = space.ends.flatMap(({ pieces }) => pieces);
        const heights = ofEnds.flatMap(({ curve }) => [0, 0.5, 1].map((at) => placeAt(curve, at).height));
        expect(Math.min(...heights)).toBeGreaterThan(-1e-12);
        const ofLinks = space.links.flatMap(({ pieces }) => pieces);
        expect(Math.min(1, ...ofLinks.map(({ length }) => length))).toBeGreaterThan(0);
        const pieces = [...ofEnds, ...ofLinks];
        const walked = pieces.map(({ curve }) => walkedLength(curve, 30));
        const told = pieces.map(({ length }) => length);
        expect(farthest(walked, told)).toBeLessThan(5e-9);
      }),
      { seed: 20260511, numRuns: tries(4) },
    );
  });

  it('meet at one place: joints at one angle, height and within the joint gap, crowns in one apex', () => {
    fc.assert(
      fc.property(requests, (request) => {
        const space = spaceOf(machineText(request));
        for (const side of sides) {
          for (const [a, b] of joined(space, side)) {
            const [first, second] = [tipOf(a[side]), tipOf(b[side])];
            const turn = roundTurn(first.angle + a.turn - second.angle - b.turn);
            expect(Math.max(turn, 2 * Math.abs(first.height - second.height))).toBeLessThan(1e-12);
            if (a[side].use === 'crown') expect(first.radius).toBeCloseTo(second.radius, 12);
            else {
              const own = ({ bar }: SpaceBar) => space.layers[bar.layer]!;
              const apart = (a1: number, b1: number) =>
                Math.abs(a1 - b1) - (own(a).section.height + own(b).section.height) / 2;
              const standing = apart(own(a).radius, own(b).radius);
              const asked = request.bar?.includes('joint-gap') ? 0.05e-3 : standing;
              expect(apart(first.radius, second.radius)).toBeCloseTo(Math.min(standing, asked), 10);
            }
          }
        }
      }),
      { seed: 20260512, numRuns: tries(8) },
    );
  });

  it('keep the clearance at their inner faces, leg by leg, and end in one plane where they shall', () => {
    fc.assert(
      fc.property(requests, (request) => {
        const space = spaceOf(machineText(request));
        for (const side of sides) {
          space.layers.forEach(({ radius, section }, layer) => {
            const inner = radius - section.height / 2 - section.coating;
            const pitch = (2 * Math.PI * inner) / space.slots;
            // Distance of parallel legs one pitch apart, in the cylinder of the inner faces.
            const slope = Math.atan2(space.slopes[side][layer]!.rise, radius);
            const between = pitch * Math.sin(slope) - section.width - 2 * section.coating;
            expect(between).toBeGreaterThan(0.5e-3 - 1e-9);
          });
          const planes = space.jointPlanes[side];
          if (request.bar?.includes('level') && planes)
            expect(planes.highest - planes.lowest).toBeLessThan(1e-12);
        }
      }),
      { seed: 20260513, numRuns: tries(5) },
    );
  });

  it('are the mirror images of the mirrored machine, bar by bar', () => {
    fc.assert(
      fc.property(requests, (request) => {
        const input = spaceInput(machineText(request));
        const own = known(buildSpace({ ...input, winding: { ...input.winding, origin: { kind: 'paths' } } }));
        const other = known(buildSpace(mirrored(input)));
        const bars = own.bars.filter((bar) => bar !== null);
        const imageOf = ({ bar: { slot, layer } }: SpaceBar) =>
          other.bars[layer * own.slots + own.slots - slot]!;
        const madeOf = (bar: SpaceBar, sense: 1 | -1) =>
          sides.flatMap((side) => [bar[side].length, sense * (bar[side].turn ?? 0)]);
        const images = bars.flatMap((bar) => madeOf(imageOf(bar), 1));
        const originals = bars.flatMap((bar) => madeOf(bar, -1));
        expect(farthest(images, originals)).toBeLessThan(5e-11);
        expect(other.overhang.connection).toBeCloseTo(own.overhang.connection, 10);
        expect(lengthOf(other.links.flatMap(({ pieces }) => pieces))).toBeCloseTo(
          lengthOf(own.links.flatMap(({ pieces }) => pieces)),
          10,
        );
      }),
      { seed: 20260514, numRuns: tries(6) },
    );
  });
});
