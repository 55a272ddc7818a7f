// Takes its time: measures bars in space.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { finished } from '../../../core/figures/steps.ts';
import { bodyOf } from '../../../core/space/clearance/body.ts';
import {
  type ClearancePlace,
  type Clearances,
  clearanceSteps,
} from '../../../core/space/clearance/clearance.ts';
import { pairDistances, roomForPairs } from '../../../core/space/clearance/pairDistance.ts';
import { nearPairs } from '../../../core/space/clearance/pairs.ts';
import { edgePoint, probe, segmentsApart } from '../../../core/space/clearance/signedDistance.ts';
import { standingBodies } from '../../../core/space/clearance/standing.ts';
import { stationAt } from '../../../core/space/curve.ts';
import { pieceOf } from '../../../core/space/piece.ts';
import type { Section } from '../../../core/space/section.ts';
import type { Space } from '../../../core/space/space.ts';
import { distance, dot, type Vector } from '../../../core/space/vectors.ts';
import { barName } from '../../../core/winding/model.ts';
import { machineText, type Request, sluiceFan, spaceOf } from '../machines.ts';
import { edgesDistance, pointsDistance } from './pointSets.ts';

const asked = { bars: 0.5e-3, pieces: 0.5e-3 };
const small: Request = {
  slots: 12,
  poles: 4,
  layers: 2,
  paths: 1,
  form: 'hairpin',
  gap: 'inner',
  lean: [0, 0],
  filled: 0.35,
  slender: 0.8,
  bar: 'bend-radius 3.6 mm',
};

const place = ({ places }: Clearances, kind: string, side = 'connection') =>
  places.find((one) => one.kind === kind && one.side === side);

const section: Section = { width: 4e-3, height: 2e-3, corner: 0, coating: 0 };
/** A straight bar along the axis from a height on, its section's height along the radius. */
const upright = (
  radius: number,
  of: Section = section,
  height = 0,
  radialSide: 'height' | 'width' = 'height',
) => {
  const path = { radius, angle: 0, height, direction: Math.PI / 2, curvature: 0 };
  const profile = { kind: 'level', radius, extent: 0.05 } as const;
  const piece = pieceOf('leg' as const, { side: 1, face: 0.1, path, profile, radialSide });
  return bodyOf([piece], of, [{ sort: 0, layer: 0 }], { start: true, end: true });
};

describe('two bodies', () => {
  const distance = (a: ReturnType<typeof upright>, b: ReturnType<typeof upright>, turn = 0) =>
    pairDistances(roomForPairs(), a, b, turn, { count: 1, of: () => 0, reach: Float64Array.of(1) })[0]!
      .distance;

  it('one above another are as far apart as their faces, rounded edges or not', () => {
    for (const corner of [0, 0.5e-3]) {
      const of = { ...section, corner };
      expect(distance(upright(0.1, of), upright(0.103, of))).toBeCloseTo(1e-3, 9);
      expect(distance(upright(0.1, of), upright(0.1015, of))).toBeCloseTo(-0.5e-3, 9);
    }
  });

  it('side by side are nearest at their inner edges, by plane geometry', () => {
    const turn = 0.06;
    // The inner edge of one above the side face of the other, which is turned against it.
    const [x, y] = [0.1 - 1e-3, 2e-3];
    const gap = x * Math.sin(turn) - y * Math.cos(turn) - y;
    expect(distance(upright(0.1), upright(0.1), turn)).toBeCloseTo(gap, 5);
    expect(distance(upright(0.1), upright(0.1), -turn)).toBeCloseTo(gap, 5);
  });

  it.each([
    // Side by side, by less and by more than their edges are rounded; edge on edge; one nearly in the other.
    ['rounded', 0.1, 0.039],
    ['rounded', 0.1, 0.031],
    ['rounded', 0.1011, 0.033],
    ['rounded', 0.1009, 0.025],
    ['rounded', 0.1014, 0.002],
    ['rounded', 0.1001, 0.001],
    ['sharp', 0.1, 0.031],
    ['sharp', 0.1006, 0.008],
    ['sharp', 0.1004, 0.02],
  ] as const)(
    '%s ones within each other, at %d m and %d rad, are as deep as the deepest of dense points',
    (edges, radius, turn) => {
      const of = edges === 'rounded' ? { ...section, corner: 0.4e-3, coating: 0.1e-3 } : section;
      const edge = of.corner + of.coating;
      const [width, height] = [of.width / 2 + of.coating, of.height / 2 + of.coating];
      /** Signed distance from the rounded section about the origin, x along its height. */
      const signed = (x: number, y: number) => {
        const [h, v] = [Math.abs(x) - height + edge, Math.abs(y) - width + edge];
        return (Math.max(h, v) > 0 ? Math.hypot(Math.max(h, 0), Math.max(v, 0)) : Math.max(h, v)) - edge;
      };
      const deepest = (radius: number, turn: number) => {
        let least = 1;
        for (let x = -height; x <= height; x += 1e-5)
          for (let y = -width; y <= width; y += 2e-5) {
            if (signed(x, y) > 0) continue;
            // A point of the second, which stands at 0.1 m, as the first one has it, and the other way round.
            const [a, b] = [0.1 + x, y];
            const along = a * Math.cos(turn) + b * Math.sin(turn) - radius;
            least = Math.min(least, signed(along, b * Math.cos(turn) - a * Math.sin(turn)));
          }
        return least;
      };
      const brute = Math.min(deepest(radius, turn), deepest(0.2 - radius, -turn));
      const found = distance(upright(radius, of), upright(0.1, of), turn);
      expect(found).toBeGreaterThan(brute - 2e-5);
      expect(found).toBeLessThan(brute + 3e-5);
    },
  );

  it('across each other collide, though the edges of both are far from the other', () => {
    const [wide, high] = [
      upright(0.1, { ...section, height: 1e-3 }),
      upright(0.1, { ...section, width: 1e-3, height: 4e-3 }),
    ];
    expect(distance(wide, high)).toBeCloseTo(-0.5e-3, 9);
    expect(distance(high, wide)).toBeCloseTo(-0.5e-3, 9);
    // Of one section, as a bar and the riser of a connecting piece have it.
    const [bar, riser] = [upright(0.1), upright(0.1, section, 0, 'width')];
    expect(distance(bar, riser)).toBeCloseTo(-1e-3, 9);
    expect(distance(riser, bar)).toBeCloseTo(-1e-3, 9);
  });

  it('across each other collide, though the middles of their faces are beside each other', () => {
    const wide = upright(0.1, { ...section, height: 1e-3 });
    const high = upright(0.1008, { ...section, width: 1e-3, height: 4e-3 });
    // The middle of either lies beside the other, which reaches past its faces.
    const turn = 0.6e-3 / 0.1008;
    for (const found of [distance(high, wide, turn), distance(wide, high, -turn)]) {
      expect(found).toBeLessThan(-0.35e-3);
      expect(found).toBeGreaterThan(-0.51e-3);
    }
  });

  it('end to end are as far apart as their caps', () => {
    for (const corner of [0, 0.4e-3]) {
      const of = { ...section, corner };
      expect(distance(upright(0.1, of), upright(0.1, of, 0.06))).toBeCloseTo(0.01, 9);
    }
  });
});

describe('segments that run into each other', () => {
  it('are not told to be apart, however deep their bodies are known to: depths are measured across sections, which turn', () => {
    const [one, other] = [upright(0.1), upright(0.1)];
    const apart = (turn: number, within: number) =>
      segmentsApart(one, one.segments[0]!, other, other.segments[0]!, Math.cos(turn), Math.sin(turn), within);
    // A millimeter into each other along the width of 4 mm, and two apart.
    expect([-0.5e-3, -2e-3, -0.1].map((within) => apart(0.03, within))).toEqual([false, false, false]);
    expect([3e-3, 1e-3, -2e-3].map((within) => apart(0.06, within))).toEqual([false, true, true]);
  });
});

describe('what two bodies are to each other', () => {
  it('is the same where less than the smallest distance is looked for', () => {
    let [clear, close, colliding] = [0, 0, 0];
    for (const filled of [0.35, 0.42]) {
      const space = spaceOf(machineText({ ...small, bar: 'bend-radius 4.5 mm flat 8 mm', filled }));
      for (const { first, second, turn } of nearPairs(space.slots, standingBodies(space), 1e-3)) {
        const groups = { count: 1, of: () => 0, reach: Float64Array.of(1e-3) };
        const [one, other] = [first.make.body, second.make.body];
        const nearest =
          pairDistances(roomForPairs(), one, other, turn, groups)[0]?.distance ?? Number.POSITIVE_INFINITY;
        const found = pairDistances(roomForPairs(), one, other, turn, groups, (sought, group, distance) => {
          sought.below[group] = 0;
          sought.isFound = distance < 0;
        })[0];
        expect(found != null).toBe(nearest < 1e-3);
        expect((found?.distance ?? 1) < 0).toBe(nearest < 0);
        if (nearest >= 1e-3) clear++;
        else if (nearest < 0) colliding++;
        else close++;
      }
    }
    for (const count of [clear, close, colliding]) expect(count).toBeGreaterThan(3);
  });
});

describe('segments that are told to be apart', () => {
  it('have no point of either that is nearer to the other', () => {
    const space = spaceOf(machineText({ ...small, bar: 'bend-radius 4.5 mm flat 8 mm', filled: 0.35 }));
    const { found } = roomForPairs();
    let [apart, wrong] = [0, 0];
    for (const { first, second, turn } of nearPairs(space.slots, standingBodies(space), 1e-3)) {
      const [one, other] = [first.make.body, second.make.body];
      const [cosine, sine] = [Math.cos(turn), Math.sin(turn)];
      for (const [at, near] of one.segments.flatMap((a) => other.segments.map((b) => [a, b] as const))) {
        let least = Number.POSITIVE_INFINITY;
        for (const across of [-1, 1])
          for (const up of [-1, 1])
            for (const share of [0, 0.3, 0.5, 0.9]) {
              edgePoint(one, at, across, up, share, cosine, sine, found.point);
              probe(other, [near], 1, found, 0);
              least = Math.min(least, found.distance + other.rounding);
            }
        if (least > 5e-3) continue;
        wrong += Number(segmentsApart(one, at, other, near, cosine, sine, least));
        apart += Number(segmentsApart(one, at, other, near, cosine, sine, least / 2));
      }
    }
    expect(wrong).toBe(0);
    expect(apart).toBeGreaterThan(400);
  });
});

/** All clearances of a winding again, every two bodies by dense sets of points. */
function checkAgainstPoints(space: Space): void {
  const found = finished(clearanceSteps(space, asked));
  const brute = pointsDistance(space);
  expect(found.places.length).toBeGreaterThan(1);
  for (const { kind, side, distance } of found.places) {
    if (kind === 'piece') continue;
    const other = brute.get(`${kind} ${side}`);
    // The points see what is near.
    if (other === undefined || other > 1.4e-3) {
      expect(distance, `${kind} ${side}`).toBeGreaterThan(1.2e-3);
      continue;
    }
    // Points are never nearer than the bodies, nor much further apart than their spacing makes them.
    expect(distance, `${kind} ${side}`).toBeLessThan(other + 2e-5);
    expect(distance, `${kind} ${side}`).toBeGreaterThan(other - 1.2e-4);
  }
}

describe('clearances', () => {
  it('are those of dense sets of points on the bars of small windings', () => {
    const requests = fc.record({
      form: fc.constantFrom<Request['form']>('hairpin', 'straight'),
      filled: fc.double({ min: 0.3, max: 0.5, noNaN: true }),
      slender: fc.double({ min: 0.5, max: 1.1, noNaN: true }),
      bar: fc.constantFrom('bend-radius 3.6 mm', 'bend-radius 3 mm flat 2 mm lead-length 15 mm'),
    });
    fc.assert(
      fc.property(requests, (request) => checkAgainstPoints(spaceOf(machineText({ ...small, ...request })))),
      { seed: 20261128, numRuns: 2, endOnFailure: true },
    );
  });

  it('are as deep as the points along sharp edges, where crowns step out of their layer', () => {
    const text = machineText({
      ...small,
      layers: 4,
      filled: 0.485,
      slender: 0.86,
      bar: 'bend-radius 2.54 mm flat 6.31 mm lead-length 15 mm',
    }).replace('corner 0.3 mm', 'corner 0 mm');
    const space = spaceOf(text);
    const { distance, bars } = place(finished(clearanceSteps(space, asked)), 'crown-leg', 'far')!;
    const deepest = edgesDistance(space, bars, 'far');
    expect(deepest).toBeLessThan(-0.5e-3);
    // Points lie no deeper, and at their spacing hardly less.
    expect(distance).toBeLessThan(deepest + 1e-6);
    expect(distance).toBeGreaterThan(deepest - 1e-5);
  });

  it('of the legs of a ring are the end-clearance at least, and grow with it', () => {
    const legs = (clearance: number) => {
      const text = machineText(small).replace('end-clearance 0.5 mm', `end-clearance ${clearance} mm`);
      return place(finished(clearanceSteps(spaceOf(text), asked)), 'leg-leg')!.distance * 1e3;
    };
    for (const clearance of [0.3, 0.8, 2]) {
      expect(legs(clearance)).toBeGreaterThan(clearance - 0.01);
      expect(legs(clearance)).toBeLessThan(clearance * 1.2 + 0.3);
    }
  });

  it('count the bars that collide and those nearer than asked for', () => {
    const space = spaceOf(machineText({ ...small, bar: 'bend-radius 4.5 mm flat 8 mm', filled: 0.42 }));
    const { places, layerContact } = finished(clearanceSteps(space, { bars: 1e-3, pieces: 1e-3 }));
    const legs = places.find(({ kind, side }) => kind === 'leg-leg' && side === 'far')!;
    // Every bar has a neighbor on each side in its ring.
    expect(legs.close).toBe(24);
    expect(legs.colliding).toBe(0);
    const crowns = places.find(({ kind }) => kind === 'crown-leg')!;
    expect(crowns.distance).toBeLessThan(0);
    expect(crowns.colliding).toBeGreaterThanOrEqual(12);
    expect(layerContact).toBeLessThanOrEqual(crowns.distance);
    // The place of the worst lies within the sections of both.
    for (const name of crowns.bars) {
      const bar = space.bars.find((one) => one && barName(one.bar) === name)!;
      const stations = bar[crowns.side].pieces.flatMap(({ curve }) =>
        Array.from({ length: 201 }, (_, at) => stationAt(curve, at / 200, bar.turn)),
      );
      const off = stations.map(({ point }) => distance(point, crowns.at));
      const { point, width, height } = stations[off.indexOf(Math.min(...off))]!;
      const from = [0, 1, 2].map((axis) => crowns.at[axis]! - point[axis]!) as unknown as Vector;
      const { section } = space.layers[bar.bar.layer]!;
      expect(Math.abs(dot(from, width))).toBeLessThan(section.width / 2 + section.coating + 1e-4);
      expect(Math.abs(dot(from, height))).toBeLessThan(section.height / 2 + section.coating + 1e-4);
    }
  });

  it('that are too small, and the least, are the same where no others are looked for', () => {
    const seen = { near: 0, clear: 0 };
    const shapes = [
      ['hairpin', 0.42, 'bend-radius 4.5 mm flat 8 mm'],
      ['straight', 0.3, 'bend-radius 3.6 mm'],
    ] as const;
    for (const [form, filled, bar] of shapes) {
      const space = spaceOf(machineText({ ...small, form, bar, filled }));
      const { places, layerContact } = finished(clearanceSteps(space, asked));
      const least = (of: Clearances) => Math.min(...of.places.map(({ distance }) => distance));
      expect(least(finished(clearanceSteps(space, asked, 'nearest'))), bar).toBe(
        least({ places, layerContact }),
      );
      // Whatever is nearer than asked for by 0.01 mm is close: a little more is asked for than that, and a little less.
      const asks = places.flatMap(({ kind, distance }) =>
        kind === 'crown-leg' || distance < 0 ? [] : [distance + 8e-6, distance + 12e-6],
      );
      for (const each of [0, 0.3e-3, ...asks]) {
        const clearance = { bars: each, pieces: each };
        const [near, found] = (['all', 'near'] as const).map((looked) =>
          finished(clearanceSteps(space, clearance, looked)).places.filter(
            ({ colliding, close }) => colliding + close > 0,
          ),
        ) as [ClearancePlace[], ClearancePlace[]];
        expect(found, `${form} ${bar} ${filled} ${each}`).toEqual(near);
        seen[near.length > 0 ? 'near' : 'clear']++;
      }
    }
    expect(seen.near).toBeGreaterThan(4);
    expect(seen.clear).toBeGreaterThan(2);
  });

  it('leave connecting pieces that reach over each other room, beside each other', () => {
    const space = spaceOf(machineText({ ...small, form: 'straight' }));
    // Of three pieces in a ring the risers of one would pass through the level part of another.
    expect(space.links).toHaveLength(3);
    const [stepped] = space.links.filter(({ beside }) => beside !== 0);
    // Its width and the clearance, and what a level part that is round takes beside a flat riser.
    const { section } = stepped!;
    const bulge = (section.height + 2 * section.coating) ** 2 / (8 * space.layers[1]!.radius);
    const width = section.width + 2 * section.coating;
    // Behind the winding, not over the gap that lies within.
    expect(stepped!.beside).toBeCloseTo(width + asked.pieces + bulge, 9);
    const { distance, colliding, close } = place(finished(clearanceSteps(space, asked)), 'piece')!;
    expect([colliding, close]).toEqual([0, 0]);
    expect(distance).toBeGreaterThan(asked.pieces - 1e-5);
  });

  it('leave the axis clear where connecting pieces as wide as a half of the bore pass beside each other', () => {
    const { links, layers } = spaceOf(sluiceFan);
    const lanes = links.map(({ beside, section }) => Math.round(Math.abs(beside) / section.width));
    // Inwards the third would run beyond the axis: they step outwards.
    expect([...lanes].sort()).toEqual([0, 1, 2]);
    for (const { from, beside, section } of links)
      expect(layers[from.layer]!.radius + beside - section.width / 2).toBeGreaterThan(0.5 * section.width);
  });

  it('leave leads room: connecting pieces run beside those that stand in their way, and beside each other', () => {
    for (const [layers, paths] of [
      [2, 1],
      [4, 3],
    ] as const) {
      const space = spaceOf(`winding "Weir motor"
machine { slots 18  poles 6  phases 3  gap inner  bore 61 mm  stack 60 mm }
slot { width 4.6 mm  depth ${3.4 * layers + 1.6} mm  opening 1.2 mm  opening-height 0.8 mm  liner 0.25 mm }
bar {
  width 3.6 mm  height 3 mm  coating 0.09 mm  bend-radius 4 mm  end-straight 8 mm
  end-clearance 1.2 mm  joint-straight 10 mm  lead-length 25 mm
}
layout { layers ${layers}  span 3 }
connect { star  route paths ${paths} }
`);
      const { places } = finished(clearanceSteps(space, { bars: 1.2e-3, pieces: 1.2e-3 }));
      for (const kind of ['lead', 'piece'] as const)
        expect(place({ places, layerContact: null }, kind, 'connection')?.colliding ?? 0).toBe(0);
      // Leads stand higher than the pieces, and some between the ends of one.
      const tops = space.ends.filter(({ lead }) => lead > 0).map(({ top }) => top);
      expect(Math.max(...tops)).toBeGreaterThan(Math.min(...space.links.map(({ height }) => height)));
      expect(space.links.some(({ beside }) => beside !== 0)).toBe(true);
    }
  });

  it('are the same where the bars lean the other way', () => {
    const of = (lean: number) =>
      finished(
        clearanceSteps(spaceOf(machineText({ ...small, form: 'straight', lean: [lean, lean] })), asked),
      );
    const legs = (found: Clearances) => place(found, 'leg-leg', 'far')!.distance;
    expect(legs(of(0.5))).toBeCloseTo(legs(of(-0.5)), 6);
  });
});
