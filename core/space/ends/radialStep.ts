import type { Profile } from '../curve.ts';

/** Two arcs out of the surface and back that carry a path from one radius to another. */
export interface RadialStep {
  /** Meters from radius to radius, and the sense: 1 outwards, -1 inwards. */
  readonly size: number;
  readonly sense: 1 | -1;
  /** Radius of the arcs' center line, m. */
  readonly bend: number;
  /** Slope in the middle, radians, up to a quarter turn. */
  readonly slope: number;
  /** How far along the surface either half reaches, m. */
  readonly half: number;
  /** Meters straight along the radius between the arcs. */
  readonly radial: number;
}

/**
 * The step by a signed distance in m: two arcs that turn by acos(1 - d/(2 R)), each sqrt(R d - d^2/4)
 * long along the surface; beyond 2 R two quarter arcs and a radial straight between them.
 */
export function radialStep(distance: number, bend: number): RadialStep {
  const size = Math.abs(distance);
  const sense = distance < 0 ? -1 : 1;
  if (size > 2 * bend) {
    return { size, sense, bend, slope: Math.PI / 2, half: bend, radial: size - 2 * bend };
  }
  // The same as the arc cosine, without its loss of digits for small steps.
  const slope = 2 * Math.asin(Math.sqrt(size / (4 * bend)));
  return { size, sense, bend, slope, half: Math.sqrt(size * (bend - size / 4)), radial: 0 };
}

/** The part of a step's first half between two distances along the surface from its start. */
export function firstHalf(step: RadialStep, radius: number, from: number, to: number): Profile {
  const slopeAt = (distance: number) =>
    distance >= step.half ? step.slope : Math.asin(Math.max(0, distance / step.bend));
  const start = slopeAt(from);
  const reached = radius + step.sense * step.bend * (1 - Math.cos(start));
  return { kind: 'step', radius: reached, bend: step.bend, sense: step.sense, from: start, to: slopeAt(to) };
}

/** The straight between the arcs of a step that begins at `radius`. */
export function middlePart(step: RadialStep, radius: number): Extract<Profile, { readonly kind: 'radial' }> {
  const reached = radius + step.sense * step.bend * (1 - Math.cos(step.slope));
  return { kind: 'radial', radius: reached, sense: step.sense, extent: step.radial };
}

/** A step's second half, which ends at `radius`. */
export function secondHalf(step: RadialStep, radius: number): Profile {
  const start = radius - step.sense * step.bend * (1 - Math.cos(step.slope));
  return { kind: 'step', radius: start, bend: step.bend, sense: step.sense, from: step.slope, to: 0 };
}
