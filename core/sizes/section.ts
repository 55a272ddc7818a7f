import { allOf, derive, deriveFigure, type Figure, known, missing } from '../figures/figure.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { Winding } from '../winding/model.ts';
import { barCorner, barSize } from './barInputs.ts';

/**
 * Area of a rectangular bar with rounded edges, m2: width height - (4 - pi) corner^2 (IEC 60317-0-2,
 * from memory). Throws RangeError where the corner is more than half the thinner side.
 */
export function roundedArea(width: number, height: number, corner: number): number {
  requireCorner(width, height, corner);
  return width * height - (4 - Math.PI) * corner * corner;
}

/**
 * Second moment of area, m4, of the same bar for bending across its width: h w^3/12 less the four
 * cut corners. Throws RangeError where the corner is more than half the thinner side.
 */
export function roundedSecondMoment(width: number, height: number, corner: number): number {
  requireCorner(width, height, corner);
  const area = (1 - Math.PI / 4) * corner * corner;
  // Centroid of a cut corner from the two faces it lies between, and its moment about that centroid.
  const offset = (corner * (10 - 3 * Math.PI)) / (12 - 3 * Math.PI);
  const own = corner ** 4 * (1 / 3 - Math.PI / 16 - 1 / (9 * (4 - Math.PI)));
  return (height * width ** 3) / 12 - 4 * (own + area * (width / 2 - offset) ** 2);
}

/** Copper area of each layer's bars, m2. */
export function barAreas(specification: Specification, winding: Winding): Figure<readonly number[]> {
  return allOf(Array.from({ length: winding.layers }, (_, layer) => barArea(specification, layer)));
}

/** Copper area of the bars of a layer (from 0), m2. */
export function barArea(specification: Specification, layer: number): Figure<number> {
  return withCorner(specification, layer, roundedArea);
}

/** Second moment of each layer's bars for bending in the tangential direction, m4. */
export function barSecondMoments(specification: Specification, winding: Winding): Figure<readonly number[]> {
  return allOf(
    Array.from({ length: winding.layers }, (_, layer) =>
      withCorner(specification, layer, roundedSecondMoment),
    ),
  );
}

function withCorner(
  specification: Specification,
  layer: number,
  compute: (width: number, height: number, corner: number) => number,
): Figure<number> {
  return deriveFigure(
    { size: barSize(specification, layer), corner: barCorner(specification) },
    ({ size, corner }) =>
      cornerFits(size.width, size.height, corner)
        ? known(compute(size.width, size.height, corner))
        : missing('bar corner of at most half the thinner side'),
  );
}

/** Largest current density of any layer, A/m2, for a current of one path. */
export function currentDensity(
  areas: Figure<readonly number[]>,
  pathCurrent: Figure<number>,
): Figure<number> {
  return derive({ areas, pathCurrent }, (given) => given.pathCurrent / Math.min(...given.areas));
}

/** Whether edges can be rounded by this radius. */
export function cornerFits(width: number, height: number, corner: number): boolean {
  return corner >= 0 && corner <= Math.min(width, height) / 2;
}

function requireCorner(width: number, height: number, corner: number): void {
  if (!cornerFits(width, height, corner)) {
    throw new RangeError(`corner must be from 0 to half of ${Math.min(width, height)} m, got ${corner}`);
  }
}
