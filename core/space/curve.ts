import { integrate } from './quadrature.ts';
import type { Vector } from './vectors.ts';

/**
 * A path in a plane rolled round the axis: u = `radius` times angle, w = height. It starts at `angle` and
 * `height` in `direction` (radians from rising angle towards rising height) and bends by `curvature`
 * (1/m, positive from u towards w; 0 is a straight line, on a cylinder a helix).
 */
export interface RolledPath {
  readonly radius: number;
  readonly angle: number;
  readonly height: number;
  readonly direction: number;
  readonly curvature: number;
}

/**
 * How far from the axis the curve runs while it follows its rolled path.
 * level: at one radius, for `extent` meters of the path.
 * step: an arc of radius `bend` out of the rolled surface, outwards (`sense` 1) or inwards (-1), from the
 * slope `from` to the slope `to` (radians); both from 0 to a quarter turn.
 * radial: straight outwards or inwards by `extent`, standing at the path's start.
 * spiral: the radius changes by `perRadian` with the path's angle, for `extent` meters of the path.
 */
export type Profile =
  | { readonly kind: 'level'; readonly radius: number; readonly extent: number }
  | {
      readonly kind: 'step';
      readonly radius: number;
      readonly bend: number;
      readonly sense: 1 | -1;
      readonly from: number;
      readonly to: number;
    }
  | { readonly kind: 'radial'; readonly radius: number; readonly sense: 1 | -1; readonly extent: number }
  | { readonly kind: 'spiral'; readonly radius: number; readonly perRadian: number; readonly extent: number };

/**
 * A smooth stretch of a center line. Heights are taken from a face of the stack outwards:
 * z = `side` times (`face` + height), with `side` -1 on the connection side and 1 on the far side.
 * Angles are those of a bar in slot 1 (angle 0); every other bar is the same, turned about the axis.
 */
export interface Curve {
  readonly side: -1 | 1;
  /** Half the length of the stack, m. */
  readonly face: number;
  readonly path: RolledPath;
  readonly profile: Profile;
  /** Which way the section stands: a bar's height is radial, a connecting piece's width is. */
  readonly radialSide: 'height' | 'width';
}

/** A place on a center line in cylinder coordinates: angle (radians), height above the face (m), radius (m). */
export interface Place {
  /** About the axis. */
  readonly angle: number;
  readonly height: number;
  /** From the axis. */
  readonly radius: number;
}

/** A place on a center line with the frame of its section; the three directions have length 1. */
export interface Station {
  /** In cylinder coordinates its angle about the axis, radians, and its distance from the axis. */
  readonly angle: number;
  readonly radius: number;
  readonly point: Vector;
  /** Along the line. */
  readonly tangent: Vector;
  /** Along the section's height. Height, width and tangent make a right-handed frame: width = height x tangent. */
  readonly height: Vector;
  /** Along the section's width. */
  readonly width: Vector;
}

/** The place at a fraction from 0 (start) to 1 (end); fractions are even in length but on steps and spirals. */
export function placeAt({ path, profile }: Curve, fraction: number): Place {
  const along = distanceAt(profile, fraction);
  const radius = radiusAt(path, profile, fraction, along);
  return { angle: angleAlong(path, along), height: heightAlong(path, along), radius };
}

/** The place and frame at a fraction of the curve, turned by `turn` radians about the axis (its bar's slot). */
export function stationAt(curve: Curve, fraction: number, turn = 0): Station {
  const numbers = new Float64Array(stationSize);
  writeStation(curve, fraction, numbers, 0, turn);
  const vector = (at: number): Vector => [numbers[at]!, numbers[at + 1]!, numbers[at + 2]!];
  return {
    angle: numbers[ofAngle]!,
    radius: numbers[ofRadius]!,
    point: vector(0),
    tangent: vector(3),
    height: vector(6),
    width: vector(9),
  };
}

/**
 * Numbers of a station in a list: point, tangent, directions of the height and of the width; behind them angle, radius,
 * and meters of curve for the whole parameter, as fast as it runs there.
 */
export const stationSize = 15;
export const [ofAngle, ofRadius, ofSpeed] = [12, 13, 14] as const;

/** Writes a station as numbers, because where there are many, objects take longer. */
export function writeStation(
  { side, face, path, profile, radialSide }: Curve,
  fraction: number,
  into: Float64Array,
  at: number,
  turn = 0,
): void {
  const along = distanceAt(profile, fraction);
  const radius = radiusAt(path, profile, fraction, along);
  const direction = path.direction + path.curvature * along;
  const angle = angleAlong(path, along) + turn;
  const cosine = Math.cos(angle);
  const sine = Math.sin(angle);
  // The rolled path's direction on the cylinder through this point, in tangential and axial parts.
  const ahead = (Math.cos(direction) * radius) / path.radius;
  const up = Math.sin(direction);
  const flat = Math.sqrt(ahead * ahead + up * up);
  const tangential = ahead / flat;
  const axial = (side * up) / flat;
  const onSurface = flat * surfaceRate(profile, fraction);
  const outwards = outwardRate(path, profile, fraction, direction);
  // Steps may be so short that their squares vanish.
  const speed = outwards === 0 ? onSurface : Math.hypot(onSurface, outwards);
  const level = onSurface / speed;
  const rising = outwards / speed;
  const ofPoint = side * (face + heightAlong(path, along));
  writeVector(into, at, radius, 0, ofPoint, cosine, sine);
  writeVector(into, at + 3, rising, level * tangential, level * axial, cosine, sine);
  // A bar's width is across the radius and the path: where the path runs radially it stays as it was. That of a
  // connecting piece is the radius less its part along the path.
  if (radialSide === 'height') writeVector(into, at + 9, 0, -axial, tangential, cosine, sine);
  else writeVector(into, at + 9, level, -rising * tangential, -rising * axial, cosine, sine);
  // The height is across the tangent and the width.
  for (let axis = 0; axis < 3; axis++) {
    const one = at + ((axis + 1) % 3);
    const other = at + ((axis + 2) % 3);
    into[at + 6 + axis] = into[one + 3]! * into[other + 9]! - into[other + 3]! * into[one + 9]!;
  }
  into[at + ofAngle] = angle;
  into[at + ofRadius] = radius;
  into[at + ofSpeed] = speed;
}

/** Writes a vector of these parts along the radius, round the axis and along it. */
function writeVector(
  into: Float64Array,
  at: number,
  radial: number,
  around: number,
  z: number,
  cosine: number,
  sine: number,
): void {
  into[at] = radial * cosine - around * sine;
  into[at + 1] = radial * sine + around * cosine;
  into[at + 2] = z;
}

/** Length of a curve, m: closed for lines, arcs and helices, else by quadrature to 1e-9 m. */
export function curveLength(curve: Curve): number {
  const { path, profile } = curve;
  if (profile.kind === 'radial') return profile.extent;
  if (profile.kind === 'level') {
    if (profile.radius === path.radius) return profile.extent;
    if (path.curvature === 0) {
      const ratio = profile.radius / path.radius;
      return profile.extent * Math.hypot(ratio * Math.cos(path.direction), Math.sin(path.direction));
    }
  }
  return integrate((fraction) => speedAt(curve, fraction), 1e-9);
}

/**
 * Chords that a curve needs so that none leaves it by more than `tolerance` m: for filaments, drawings
 * and faces. At least one.
 */
export function chordsFor(curve: Curve, length: number, tolerance: number): number {
  const { path, profile } = curve;
  const bends = Math.abs(path.curvature) + (profile.kind === 'step' ? 1 / profile.bend : 0);
  const straightUp = path.curvature === 0 && Math.abs(Math.cos(path.direction)) < 1e-12;
  const round = profile.kind === 'radial' || straightUp ? 0 : 1 / profile.radius;
  const curvature = profile.kind === 'radial' ? 0 : Math.hypot(bends, round);
  return Math.max(1, Math.ceil(length * Math.sqrt(curvature / (8 * tolerance)) - 1e-9));
}

/** Meters of curve for the whole parameter, as fast as it runs at a fraction. */
function speedAt({ path, profile }: Curve, fraction: number): number {
  const along = distanceAt(profile, fraction);
  const direction = path.direction + path.curvature * along;
  const ratio = radiusAt(path, profile, fraction, along) / path.radius;
  const cosine = Math.cos(direction);
  const sine = Math.sin(direction);
  const surface = surfaceRate(profile, fraction);
  const outwards = outwardRate(path, profile, fraction, direction);
  return Math.sqrt(surface * surface * (ratio * ratio * cosine * cosine + sine * sine) + outwards * outwards);
}

/** Meters of the rolled path from its start to a fraction. */
function distanceAt(profile: Profile, fraction: number): number {
  switch (profile.kind) {
    case 'step': {
      const { bend, from, to } = profile;
      return (to > from ? bend : -bend) * (Math.sin(slopeAt(profile, fraction)) - Math.sin(from));
    }
    case 'radial':
      return 0;
    default:
      return fraction * profile.extent;
  }
}

/** Slope of a step out of the surface at a fraction. */
function slopeAt({ from, to }: { readonly from: number; readonly to: number }, fraction: number): number {
  return from + fraction * (to - from);
}

/** Distance from the axis at a fraction, where the rolled path has come `along` meters. */
function radiusAt(path: RolledPath, profile: Profile, fraction: number, along: number): number {
  switch (profile.kind) {
    case 'level':
      return profile.radius;
    case 'step': {
      const { bend, from, to, sense, radius } = profile;
      const rising = to > from ? 1 : -1;
      return radius + sense * bend * rising * (Math.cos(from) - Math.cos(slopeAt(profile, fraction)));
    }
    case 'radial':
      return profile.radius + profile.sense * fraction * profile.extent;
    case 'spiral':
      return profile.radius + profile.perRadian * (angleAlong(path, along) - path.angle);
  }
}

/** Meters of the rolled path for the whole parameter, as fast as it runs at a fraction. */
function surfaceRate(profile: Profile, fraction: number): number {
  if (profile.kind === 'radial') return 0;
  if (profile.kind !== 'step') return profile.extent;
  return profile.bend * Math.abs(profile.to - profile.from) * Math.cos(slopeAt(profile, fraction));
}

/** Meters of radius for the whole parameter, likewise. */
function outwardRate(path: RolledPath, profile: Profile, fraction: number, direction: number): number {
  switch (profile.kind) {
    case 'level':
      return 0;
    case 'step': {
      const { bend, from, to, sense } = profile;
      return sense * bend * Math.abs(to - from) * Math.sin(slopeAt(profile, fraction));
    }
    case 'radial':
      return profile.sense * profile.extent;
    case 'spiral':
      return (profile.perRadian * profile.extent * Math.cos(direction)) / path.radius;
  }
}

/** A rolled path from where it is after a distance of itself on. */
export function alongPath(path: RolledPath, distance: number): RolledPath {
  return {
    ...path,
    angle: angleAlong(path, distance),
    height: heightAlong(path, distance),
    direction: path.direction + path.curvature * distance,
  };
}

function angleAlong({ radius, angle, direction, curvature }: RolledPath, distance: number): number {
  if (curvature === 0) return angle + (distance * Math.cos(direction)) / radius;
  return angle + (Math.sin(direction + curvature * distance) - Math.sin(direction)) / (curvature * radius);
}

function heightAlong({ height, direction, curvature }: RolledPath, distance: number): number {
  if (curvature === 0) return height + distance * Math.sin(direction);
  return height - (Math.cos(direction + curvature * distance) - Math.cos(direction)) / curvature;
}
