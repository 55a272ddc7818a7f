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
function barArea(specification: Specification, layer: number): Figure<number> {
  return withCorner(specification, layer, roundedArea);
}

/** Section of a bar as a beam. SI units. */
export interface BarSection {
  /** Across the slot and along its depth. */
  readonly width: number;
  /** Along the slot depth, m. */
  readonly height: number;
  /** m2. */
  readonly area: number;
  /** Second moments for bending along the circumference and along the radius. */
  readonly tangentialMoment: number;
  /** For bending along the radius, m4. */
  readonly radialMoment: number;
  /** m4. */
  readonly torsionConstant: number;
}

/** Section of each layer's bars as a beam; strands count as one bar. */
export function barSections(specification: Specification, winding: Winding): Figure<readonly BarSection[]> {
  return allOf(
    Array.from({ length: winding.layers }, (_, layer) =>
      withCorner(specification, layer, (width, height, corner) => ({
        width,
        height,
        area: roundedArea(width, height, corner),
        tangentialMoment: roundedSecondMoment(width, height, corner),
        radialMoment: roundedSecondMoment(height, width, corner),
        torsionConstant: rectangleTorsion(width, height),
      })),
    ),
  );
}

/**
 * Torsion constant of a rectangle, m4, within 0.4 % of the series for any sides: w h^3 (1/3 - 0.21 (h/w)
 * (1 - h^4/(12 w^4))), w >= h (Roark and Young, Formulas for Stress and Strain, from memory).
 */
export function rectangleTorsion(width: number, height: number): number {
  const long = Math.max(width, height);
  const short = Math.min(width, height);
  return long * short ** 3 * (1 / 3 - 0.21 * (short / long) * (1 - (short / long) ** 4 / 12));
}

function withCorner<T>(
  specification: Specification,
  layer: number,
  compute: (width: number, height: number, corner: number) => T,
): Figure<T> {
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
