// Takes its time: measures bars in space.

import { describe, expect, test } from 'vitest';
import { stationAt } from '../../core/space/curve.ts';
import { type Mesh, tubeMesh } from '../../core/views/space/mesh.ts';
import { barAt, type Solids, solidsOf } from '../../core/views/space/solids.ts';
import { barName } from '../../core/winding/model.ts';
import { smallHairpins } from '../space/machines.ts';
import { study } from '../support/study.ts';

const ringed = smallHairpins(' ring-width 6 mm ring-height 4 mm', 'rings star', 2);

/** Volume within a closed surface by the divergence theorem, m3. */
function volume({ positions, triangles }: Mesh): number {
  let sum = 0;
  const at = (corner: number) => positions.subarray(3 * triangles[corner]!, 3 * triangles[corner]! + 3);
  for (let first = 0; first < triangles.length; first += 3) {
    const [a, b, c] = [at(first), at(first + 1), at(first + 2)] as [Float32Array, Float32Array, Float32Array];
    sum +=
      a[0]! * (b[1]! * c[2]! - b[2]! * c[1]!) +
      a[1]! * (b[2]! * c[0]! - b[0]! * c[2]!) +
      a[2]! * (b[0]! * c[1]! - b[1]! * c[0]!);
  }
  return sum / 6;
}

/** The least cosine between a triangle and what its points are said to face. */
function worstFacing({ positions, normals, triangles }: Mesh): number {
  let worst = 1;
  for (let first = 0; first < triangles.length; first += 3) {
    const [a, b, c] = [0, 1, 2].map((corner) => 3 * triangles[first + corner]!) as [number, number, number];
    const side = (from: number, to: number) =>
      [0, 1, 2].map((axis) => positions[to + axis]! - positions[from + axis]!);
    const [u, v] = [side(a, b), side(a, c)] as [number[], number[]];
    const across = [0, 1, 2].map(
      (axis) => u[(axis + 1) % 3]! * v[(axis + 2) % 3]! - u[(axis + 2) % 3]! * v[(axis + 1) % 3]!,
    );
    const long = Math.hypot(...across);
    // Of a point's size: its direction says nothing.
    if (long < 1e-9) continue;
    for (const corner of [a, b, c]) {
      const cosine =
        [0, 1, 2].reduce((sum, axis) => sum + (across[axis]! * normals[corner + axis]!) / 127, 0) / long;
      worst = Math.min(worst, cosine);
    }
  }
  return worst;
}

describe('solids of the bars in space', () => {
  const { facts } = study(ringed);
  const space = facts!.space().space;
  if (!space.known) throw new Error('not known');
  const solids = solidsOf(facts!, () => 2)!;
  const { slots, stack, layers, bars, rings } = space.value;
  const places = slots * layers.length;
  const ofBars = ({ owners, side }: Solids['parts'][number], wanted: string | null) =>
    side === wanted && owners[0]! < places;

  test('every bar has a slot part and an end on each side, at its own angle', () => {
    for (const side of [null, 'connection', 'far'] as const) {
      const owners = solids.parts.filter((part) => ofBars(part, side)).flatMap((part) => [...part.owners]);
      expect(owners.sort((a, b) => a - b)).toEqual(Array.from({ length: places }, (_, place) => place));
    }
    for (const part of solids.parts)
      part.owners.forEach((owner, index) => {
        if (owner < places) expect(part.turns[index]).toBeCloseTo(bars[owner]!.turn, 6);
      });
    expect(barName(barAt(slots, slots))).toBe('1b');
    expect(solids.paths.slice(0, places).every((path) => path === 2)).toBe(true);
  });

  test('leads and rings stand for themselves, in the phase of their bar, with their names', () => {
    const leads = facts!.connection.kind === 'connected' ? facts!.connection.facts.joints().ends : [];
    const kinds = solids.others.map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === 'lead')).toHaveLength(leads.length);
    expect(kinds.filter((kind) => kind === 'ring')).toHaveLength(rings.length);
    leads.forEach(({ phase, number, terminal }, index) => {
      expect(solids.others[index]).toMatchObject({ joint: number, name: terminal });
      expect(solids.phases[places + index]).toBe(phase);
    });
    const named = solids.names.map(({ text }) => text);
    expect(named).toContain('N');
    expect(named).toContain('U1');
    const others = solids.parts
      .filter(({ owners }) => owners[0]! >= places)
      .flatMap(({ owners }) => [...owners]);
    expect(others.length).toBeGreaterThan(0);
    expect(new Set(others).size).toBe(others.length);
  });

  test('what is swept is closed, faces outwards and is as large as section times length', () => {
    const ring = rings[0]!;
    const part = solids.parts.at(-1)!;
    // The drawn edges are wider than 0: they take their corners away.
    const { width, height, corner } = ring.section;
    const drawn = Math.max(corner, 0.07 * Math.min(width, height));
    const area = width * height - 2 * drawn * drawn;
    expect(volume(part.fine) / (area * ring.piece.length)).toBeCloseTo(1, 2);
    expect(volume(part.coarse) / (width * height * ring.piece.length)).toBeCloseTo(1, 1);
    const tube = tubeMesh([0.05, 0.08], [-0.02, 0.03], 96);
    expect(volume(tube) / (Math.PI * (0.08 ** 2 - 0.05 ** 2) * 0.05)).toBeCloseTo(1, 2);
    for (const { fine, coarse } of solids.parts) {
      expect(worstFacing(fine)).toBeGreaterThan(0.6);
      expect(worstFacing(coarse)).toBeGreaterThan(0.6);
      expect(coarse.triangles.length).toBeLessThan(fine.triangles.length);
    }
    expect(worstFacing(tube)).toBeGreaterThan(0.99);
  });

  test('straight pieces have two rings, bends few, and fewer while they are turned', () => {
    const triangles = ({ triangles: list }: Mesh) => list.length / 3;
    for (const part of solids.parts.filter((one) => ofBars(one, null))) {
      // Eight sides of two triangles each.
      expect(triangles(part.fine)).toBe(16);
      expect(triangles(part.coarse)).toBe(8);
    }
    const ends = solids.parts.filter((one) => one.owners[0]! < places && one.side !== null);
    for (const { fine, coarse } of ends) {
      expect(triangles(fine)).toBeLessThan(16 * 22);
      expect(triangles(coarse)).toBeLessThan(8 * 14);
    }
    const all = (mesh: 'fine' | 'coarse') =>
      solids.parts.reduce((sum, part) => sum + triangles(part[mesh]) * part.turns.length, 0);
    expect(all('coarse')).toBeLessThan(0.45 * all('fine'));
  });

  test('where bar ends collide is told as a fault, but not with a bend radius that is assumed', () => {
    const sharp = ringed
      .replace('bend-radius 3 mm flat 2 mm', 'bend-radius 4.5 mm flat 8 mm')
      .replace(/width 4.5000 mm/, 'width 4.2 mm');
    const [first] = solidsOf(study(sharp).facts!)!.places;
    expect(first).toMatchObject({ letter: 'A', fault: true });
    expect(first!.owners.length).toBe(2);
    const z = Math.abs(first!.at[2]);
    expect(z).toBeGreaterThan(stack / 2);
    const assumed = solidsOf(study(sharp.replace('bend-radius 4.5 mm flat 8 mm', '')).facts!)!.places;
    for (const place of assumed) expect(place.fault).toBe(false);
    expect(solidsOf(study(ringed.replace('rings star', '')).facts!)!.places).toEqual([]);
  });

  test('bar ends begin at the faces of the stack and nothing is out of reach', () => {
    const { radius, low, high } = solids.reach;
    let [farthest, lowest, highest, nearest] = [0, 0, 0, 1];
    for (const { side, fine } of solids.parts)
      for (let at = 0; at < fine.positions.length; at += 3) {
        const [x, y, z] = fine.positions.subarray(at, at + 3) as unknown as [number, number, number];
        farthest = Math.max(farthest, Math.hypot(x, y));
        lowest = Math.min(lowest, z);
        highest = Math.max(highest, z);
        if (side !== null) nearest = Math.min(nearest, side === 'far' ? z : -z);
      }
    expect(farthest).toBeLessThan(radius * 1.001);
    expect(highest).toBeLessThan(high * 1.001);
    expect(lowest).toBeGreaterThan(low * 1.001);
    expect(nearest).toBeCloseTo(stack / 2, 6);
    const end = bars[0]!.far.pieces[0]!;
    expect(stationAt(end.curve, 0).point[2]).toBeCloseTo(stack / 2, 9);
  });

  test('bars that are not joined have none', () => {
    expect(solidsOf(study(ringed.replace(/connect \{[^}]*\}/, '')).facts!)).toBeNull();
  });
});
