import type { Vector } from '../vectors.ts';
import { type BarLine, type Stretch, stretchAt } from './barLines.ts';

/**
 * One step in bending a bar, in its order from cut end to cut end. Angles in radians, lengths in m along
 * the center line. A bend turns the bar edgewise (in the surface of its layer, positive to the right seen
 * from the axis), out of it (positive away from the axis), or both at once.
 */
export interface BendStep {
  readonly kind: 'feed' | 'bend';
  /** Of the feed, or of the arc. */
  readonly length: number;
  /** 0 without such a bend. */
  readonly edgewise: number;
  /** 0 without such a bend. */
  readonly flatwise: number;
  /** Radius of the center line of either bend; null where there is none. */
  readonly edgeRadius: number | null;
  /** Of that out of the layer. */
  readonly flatRadius: number | null;
  /** Where the center line is after it: x through the first leg at mid-stack, y towards higher slots, z along the axis. */
  readonly end: Vector;
  /** Distance from the axis there: what the bar is rolled to. */
  readonly radius: number;
}

const least = 1e-9;

/**
 * A crown's rounding and its step along the radius begin at places of their own: what one reaches beyond the other is a
 * bend, too, but no tool makes one of some hundredths of a millimeter. Such a one is bent together with both where that
 * moves the line by less than this, m.
 */
const leastMoved = 5e-5;

/** The steps of a center line; stretches that go on alike are one step. Their lengths add up to the line's. */
export function bendSteps({ stretches }: BarLine): readonly BendStep[] {
  const steps: BendStep[] = [];
  for (const stretch of stretches) {
    if (stretch.piece.length < least) continue;
    const step = stepOf(stretch);
    const last = steps.at(-1);
    if (last && alike(last, step)) steps[steps.length - 1] = joined(last, step);
    else steps.push(step);
  }
  return withoutSlivers(steps);
}

/** The steps with bends too short to be made taken into those beside them that go on with them. */
function withoutSlivers(steps: readonly BendStep[]): readonly BendStep[] {
  const made: BendStep[] = [];
  for (const step of steps) {
    const last = made.at(-1);
    if (last && (goesOn(last, step) || goesOn(step, last))) made[made.length - 1] = together(last, step);
    else made.push(step);
  }
  return made;
}

/** Whether one bend, too short to be made by itself, is bent as a part of the other. */
function goesOn(short: BendStep, other: BendStep): boolean {
  if (short.kind !== 'bend' || other.kind !== 'bend') return false;
  const [isEdgewise, isFlatwise] = [short.edgewise !== 0, short.flatwise !== 0];
  if (isEdgewise === isFlatwise) return false;
  const goes = isEdgewise
    ? short.edgeRadius === other.edgeRadius && short.edgewise * other.edgewise > 0
    : short.flatRadius === other.flatRadius && short.flatwise * other.flatwise > 0;
  // The other way the bar is then bent sooner by so much.
  const across = isEdgewise ? other.flatwise : other.edgewise;
  return goes && across !== 0 && short.length * Math.abs(Math.sin(across)) < leastMoved;
}

function together(one: BendStep, other: BendStep): BendStep {
  return {
    ...joined(one, other),
    flatwise: one.flatwise + other.flatwise,
    edgeRadius: one.edgeRadius ?? other.edgeRadius,
    flatRadius: one.flatRadius ?? other.flatRadius,
  };
}

function stepOf(stretch: Stretch): BendStep {
  const [from, to] = [headingAt(stretch, 0), headingAt(stretch, 1)];
  const turned = Math.atan2(Math.sin(to.heading - from.heading), Math.cos(to.heading - from.heading));
  const { path, profile } = stretch.piece.curve;
  // A step on a straight slope changes its heading by a hair, because the radius does.
  const edgewise = path.curvature === 0 ? 0 : turned;
  const flatwise = Math.abs(to.slope - from.slope) < 1e-7 ? 0 : to.slope - from.slope;
  return {
    kind: edgewise === 0 && flatwise === 0 ? 'feed' : 'bend',
    length: stretch.piece.length,
    edgewise,
    flatwise,
    edgeRadius: edgewise === 0 ? null : 1 / Math.abs(path.curvature),
    flatRadius: flatwise === 0 || profile.kind !== 'step' ? null : profile.bend,
    end: to.point,
    radius: Math.hypot(to.point[0], to.point[1]),
  };
}

/** Which way a line runs in the surface round the axis (from rising angle towards the far side), and out of it. */
function headingAt(stretch: Stretch, fraction: number) {
  const { point, tangent, width } = stretchAt(stretch, fraction);
  const radius = Math.hypot(point[0], point[1]);
  const [x, y] = [point[0] / radius, point[1] / radius];
  // The width lies in the surface, a quarter turn from the way the line runs; it keeps it where that is radial.
  const round = -width[0] * y + width[1] * x;
  const slope = Math.asin(Math.max(-1, Math.min(1, tangent[0] * x + tangent[1] * y)));
  return { point, heading: Math.atan2(-round, width[2]), slope };
}

function alike(one: BendStep, other: BendStep): boolean {
  if (one.kind !== other.kind) return false;
  if (one.kind === 'feed') return true;
  if (one.flatwise !== 0 || other.flatwise !== 0) return false;
  return Math.sign(one.edgewise) === Math.sign(other.edgewise) && Math.abs(one.radius - other.radius) < least;
}

function joined(one: BendStep, other: BendStep): BendStep {
  return { ...other, length: one.length + other.length, edgewise: one.edgewise + other.edgewise };
}

/** A bend as it is made: the bar turned about itself until the bend's plane is the tool's, then the angle. */
export interface ToolBend {
  /** Degrees: 0 to the right seen from the axis, 90 away from it, 180 to the left, 270 towards it. */
  readonly turn: number;
  /** Radians, never less than 0, and radius of the center line in m. */
  readonly angle: number;
  /** m. */
  readonly radius: number | null;
  /** Of a bend out of the layer within an edgewise one, radians, positive away from the axis. */
  readonly stepAngle: number | null;
  /** Of its center line, m. */
  readonly stepRadius: number | null;
}

/** A bend as the shop's tool makes it. */
export function toolBend({ edgewise, flatwise, edgeRadius, flatRadius }: BendStep): ToolBend {
  const edge = edgewise !== 0;
  const [positive, negative] = edge ? [0, 180] : [90, 270];
  const angle = edge ? edgewise : flatwise;
  const both = edge && flatwise !== 0;
  return {
    turn: angle > 0 ? positive : negative,
    angle: Math.abs(angle),
    radius: edge ? edgeRadius : flatRadius,
    stepAngle: both ? flatwise : null,
    stepRadius: both ? flatRadius : null,
  };
}
