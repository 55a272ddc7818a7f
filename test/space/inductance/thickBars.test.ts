import { describe, expect, it } from 'vitest';
import { type Filament, filamentThrough } from '../../../core/space/inductance/filaments.ts';
import { rectangleMeanDistance } from '../../../core/space/inductance/meanDistance.ts';
import { mutualInductance } from '../../../core/space/inductance/mutualInductance.ts';

// Bars of a section as bundles of filaments, each with the mean distance of its own part of the section: a second
// way to the closed forms of thick bars, and what a single filament, as end windings have it, is off by. Parts are
// nearly square, so that neighbors are as far apart as their centers.

/** A filament along x at a place across it, m; in several segments where others are far nearer than it is long. */
function along(length: number, across: number, up: number, segments = 1): Filament {
  return filamentThrough(
    Array.from({ length: segments + 1 }, (_, index) => [(index * length) / segments, across, up] as const),
  );
}

/** A bar's section in equal parts: their places, and the mean distance of one from itself. */
function partsOf(width: number, height: number, across: number, up: number) {
  const [w, h] = [width / across, height / up];
  const places = Array.from({ length: across * up }, (_, index) => ({
    across: ((index % across) + 0.5) * w - width / 2,
    up: (Math.floor(index / across) + 0.5) * h - height / 2,
  }));
  return { places, own: rectangleMeanDistance(w, h) };
}

/** Inductance of a bar with itself, H: the mean over all pairs of its parts. */
function ownInductance(
  [length, width, height]: readonly [number, number, number],
  [across, up, segments]: readonly [number, number, number],
): number {
  const { places, own } = partsOf(width, height, across, up);
  const filaments = places.map((place) => along(length, place.across, place.up, segments));
  const sum = filaments.reduce(
    (all, one) =>
      all +
      filaments.reduce((part, other) => part + mutualInductance(one, other, one === other ? own : 0), 0),
    0,
  );
  return sum / filaments.length ** 2;
}

describe('a bar as a bundle of filaments', () => {
  it('of a cube comes to the constant 1.8823126 (double integral of 1/r over the unit cube, closed form)', () => {
    const root = Math.sqrt;
    const closed =
      2 * ((1 + root(2) - 2 * root(3)) / 5 - Math.PI / 3 + Math.log((1 + root(2)) * (2 + root(3))));
    expect(closed).toBeCloseTo(1.88231264438966, 12);
    const side = 0.01;
    const errors = [4, 8].map(
      (parts) => ownInductance([side, side, side], [parts, parts, 1]) / (1e-7 * side * closed) - 1,
    );
    expect(Math.abs(errors[1]!)).toBeLessThan(4e-3);
    expect(Math.abs(errors[1]!)).toBeLessThan(0.6 * Math.abs(errors[0]!));
  });

  it('of a thin strip comes to its exact 5.975779 nH; one filament is within the 0.6 % that Grover’s formula is off', () => {
    // 10 x 1.74 x 0.018 mm; the formula with (w + t)/l gives 5.941693549 nH (ftp.finetune.jp, Grover's formula).
    const [length, width, height] = [10e-3, 1.74e-3, 0.018e-3];
    const exact = 5.975779e-9;
    expect(Math.abs(ownInductance([length, width, height], [97, 1, 4]) / exact - 1)).toBeLessThan(5e-4);
    const bar = along(length, 0, 0);
    const single = mutualInductance(bar, bar, rectangleMeanDistance(width, height));
    expect(Math.abs(single / exact - 1)).toBeLessThan(0.01);
  });

  it.each([
    ['8 mm apart along the 5 mm side', 8, 0, 46.199493, -0.0055],
    ['4.2 mm apart along the 4 mm side', 0, 4.2, 57.308686, 0.014],
  ])('next to another of 5 x 4 mm and 100 mm, %s', (_, across, up, expected, filamentsOff) => {
    const { places } = partsOf(5e-3, 4e-3, 10, 8);
    const ones = places.map((place) => along(0.1, place.across, place.up));
    const others = places.map((place) => along(0.1, place.across + across / 1e3, place.up + up / 1e3));
    const sum = ones.reduce(
      (all, one) => all + others.reduce((part, other) => part + mutualInductance(one, other, 0), 0),
      0,
    );
    expect((sum / places.length ** 2) * 1e9).toBeCloseTo(expected, 1);
    expect(Math.abs((sum * 1e9) / places.length ** 2 / expected - 1)).toBeLessThan(3e-4);
    // What filaments at the centers, as neighboring bar ends have them, are off by.
    const centers = mutualInductance(along(0.1, 0, 0), along(0.1, across / 1e3, up / 1e3), 0);
    expect((centers * 1e9) / expected - 1).toBeCloseTo(filamentsOff, 3);
  });
});

describe('a filament at the mean distance', () => {
  it('is off by the arithmetic mean distance of the section, 0.521405 of a square side, less the geometric one', () => {
    // Mean distance of two points of a unit square, closed form.
    const mean = (2 + Math.SQRT2 + 5 * Math.asinh(1)) / 15;
    expect(mean).toBeCloseTo(0.521405, 6);
    const [length, side] = [0.1, 0.01];
    const geometric = rectangleMeanDistance(side, side);
    const bar = along(length, 0, 0);
    const single = mutualInductance(bar, bar, geometric);
    // Exact bar of 100 x 10 x 10 mm with uniform current: 57.042536 nH.
    const off = 57.042536e-9 - single;
    expect(off / (2e-7 * (mean * side - geometric))).toBeCloseTo(1, 1);
  });

  it('as far away as the radius of a round wire, with the field within it, is Rosa’s wire of 0.625574 nH', () => {
    // l 2 mm, d 1 mm, direct current: mu0/(8 pi) for each meter within the wire (Rosa 1908).
    const [length, radius] = [2e-3, 0.5e-3];
    const outside = mutualInductance(along(length, 0, 0), along(length, radius, 0), 0);
    expect((outside + 0.5e-7 * length) * 1e9).toBeCloseTo(0.625574, 5);
  });
});
