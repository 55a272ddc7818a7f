import { integrate } from './quadrature.ts';
import { cross, fromCylinder, type Vector } from './vectors.ts';

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
  readonly angle: number;
  readonly height: number;
  readonly radius: number;
}

/** A place on a center line with the frame of its section; the three directions have length 1. */
export interface Station {
  readonly point: Vector;
  /** Along the line. */
  readonly tangent: Vector;
  /** Along the section's height. Height, width and tangent make a right-handed frame: width = height x tangent. */
  readonly height: Vector;
  /** Along the section's width. */
  readonly width: Vector;
}

/** What a curve does at a fraction of its parameter: where it is and how fast it runs there. */
interface Motion extends Place {
  /** Direction of the rolled path. */
  readonly direction: number;
  /** Meters of the rolled path, and of radius, for the whole parameter from 0 to 1. */
  readonly along: number;
  readonly outwards: number;
}

/** The place at a fraction from 0 (start) to 1 (end); fractions are even in length but on steps and spirals. */
export function placeAt(curve: Curve, fraction: number): Place {
  const { angle, height, radius } = motionAt(curve, fraction);
  return { angle, height, radius };
}

/** The place and frame at a fraction of the curve, turned by `turn` radians about the axis (its bar's slot). */
export function stationAt(curve: Curve, fraction: number, turn = 0): Station {
  const motion = motionAt(curve, fraction);
  const { side, path } = curve;
  const angle = motion.angle + turn;
  const point = fromCylinder(angle, motion.radius, 0, side * (curve.face + motion.height));
  // The rolled path's direction on the cylinder through this point, in tangential and axial parts.
  const [ahead, up] = surfaceSlope(path, motion);
  const flat = Math.hypot(ahead, up);
  const [tangential, axial] = [ahead / flat, (side * up) / flat];
  const speed = Math.hypot(motion.along * flat, motion.outwards);
  const [level, outwards] = [(motion.along * flat) / speed, motion.outwards / speed];
  const tangent = fromCylinder(angle, outwards, level * tangential, level * axial);
  if (curve.radialSide === 'height') {
    // Across the radius and the path: where the path runs radially it stays as it was.
    const width = fromCylinder(angle, 0, -axial, tangential);
    return { point, tangent, height: cross(tangent, width), width };
  }
  // The radius less its part along the path.
  const width = fromCylinder(angle, level, -outwards * tangential, -outwards * axial);
  return { point, tangent, height: cross(tangent, width), width };
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
function speedAt(curve: Curve, fraction: number): number {
  const motion = motionAt(curve, fraction);
  const [ahead, up] = surfaceSlope(curve.path, motion);
  return Math.hypot(motion.along * Math.hypot(ahead, up), motion.outwards);
}

/** Tangential and axial meters on the cylinder through a place for each meter of the rolled path. */
function surfaceSlope(path: RolledPath, { direction, radius }: Motion): readonly [number, number] {
  return [(Math.cos(direction) * radius) / path.radius, Math.sin(direction)];
}

function motionAt({ path, profile }: Curve, fraction: number): Motion {
  switch (profile.kind) {
    case 'level': {
      const at = alongPath(path, fraction * profile.extent);
      return { ...at, radius: profile.radius, along: profile.extent, outwards: 0 };
    }
    case 'step': {
      const { bend, from, to, sense } = profile;
      const slope = from + fraction * (to - from);
      const rising = to > from ? 1 : -1;
      const arc = bend * Math.abs(to - from);
      return {
        ...alongPath(path, bend * rising * (Math.sin(slope) - Math.sin(from))),
        radius: profile.radius + sense * bend * rising * (Math.cos(from) - Math.cos(slope)),
        along: arc * Math.cos(slope),
        outwards: sense * arc * Math.sin(slope),
      };
    }
    case 'radial': {
      const { sense, extent, radius } = profile;
      const run = sense * extent;
      return { ...alongPath(path, 0), radius: radius + fraction * run, along: 0, outwards: run };
    }
    case 'spiral': {
      const at = alongPath(path, fraction * profile.extent);
      const { perRadian, radius, extent } = profile;
      return {
        ...at,
        radius: radius + perRadian * (at.angle - path.angle),
        along: extent,
        outwards: (perRadian * extent * Math.cos(at.direction)) / path.radius,
      };
    }
  }
}

/** Where a rolled path is after a distance of itself, and which way it runs there. */
export function alongPath(
  { radius, angle, height, direction, curvature }: RolledPath,
  distance: number,
): Pick<RolledPath, 'angle' | 'height' | 'direction'> {
  if (curvature === 0) {
    return {
      angle: angle + (distance * Math.cos(direction)) / radius,
      height: height + distance * Math.sin(direction),
      direction,
    };
  }
  const turned = direction + curvature * distance;
  return {
    angle: angle + (Math.sin(turned) - Math.sin(direction)) / (curvature * radius),
    height: height - (Math.cos(turned) - Math.cos(direction)) / curvature,
    direction: turned,
  };
}
