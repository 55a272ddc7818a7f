import type { Station } from '../curve.ts';
import type { Vector } from '../vectors.ts';
import { offsetBy } from '../vectors.ts';
import { type BarLine, type Stretch, stretchAt } from './barLines.ts';
import type { SectionPoint } from './outline.ts';

/** Part of a swept section, straight in space, or one stretch in smooth segments. */
export type SweptPart =
  | {
      readonly kind: 'straight';
      readonly from: Station;
      readonly to: Station;
    }
  | {
      readonly kind: 'curved';
      readonly from: Station;
      readonly to: Station;
      /** Where cubic segments meet, from 0 to 1. */
      readonly fractions: readonly number[];
      readonly meetings: readonly Meeting[];
    };

/** Where cubic segments meet, and where velocities are measured from. */
interface Meeting {
  readonly here: Station;
  /** Before it and behind it; or, at the ends of the stretch, once and twice as far within. */
  readonly near: readonly [Station, Station];
  /** At the stretch's end, which way it goes on, 1 or -1; 0 elsewhere. */
  readonly inwards: -1 | 0 | 1;
}

/** A cubic segment of a smooth path turns by no more than this, radians: it leaves an arc by 2e-4 of its radius. */
const mostTurn = Math.PI / 6;

/** The parts of a line; stretches that go on straight are one. */
export function sweptParts({ stretches }: BarLine): readonly SweptPart[] {
  const parts: SweptPart[] = [];
  for (const stretch of stretches) {
    if (stretch.piece.length < 1e-9) continue;
    const [from, to] = [stretchAt(stretch, 0), stretchAt(stretch, 1)];
    const turn = turnOf(stretch);
    const last = parts.at(-1);
    if (turn >= 1e-9) {
      const segments = Math.max(1, Math.ceil(turn / mostTurn - 1e-9));
      const fractions = Array.from({ length: segments + 1 }, (_, index) => index / segments);
      const meetings = fractions.map((fraction) => meetingAt(stretch, fraction));
      parts.push({ kind: 'curved', from, to, fractions, meetings });
    } else if (last?.kind === 'straight') parts[parts.length - 1] = { ...last, to };
    else parts.push({ kind: 'straight', from, to });
  }
  return parts;
}

/** How far the frame of a stretch turns in all, radians. */
export function turnOf(stretch: Stretch): number {
  const parts = 8;
  let sum = 0;
  let before = stretchAt(stretch, 0);
  for (let part = 1; part <= parts; part++) {
    const next = stretchAt(stretch, part / parts);
    sum += Math.max(between(before.tangent, next.tangent), between(before.width, next.width));
    before = next;
  }
  return sum;
}

function between(one: Vector, other: Vector): number {
  const chord = Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2]);
  return 2 * Math.asin(Math.min(1, chord / 2));
}

/** A point of the section in space. */
export function pointAt({ point, width, height }: Station, [across, out]: SectionPoint): Vector {
  return offsetBy(point, width, across, height, out);
}

const nudge = 1e-5;

function meetingAt(stretch: Stretch, fraction: number): Meeting {
  const here = stretchAt(stretch, fraction);
  const inwards = fraction < nudge ? 1 : fraction > 1 - nudge ? -1 : 0;
  const [one, other] = inwards === 0 ? [-nudge, nudge] : [inwards * nudge, 2 * inwards * nudge];
  return { here, near: [stretchAt(stretch, fraction + one), stretchAt(stretch, fraction + other)], inwards };
}

/** How fast a point of the section moves with the fraction, m, by differences within the stretch. */
function velocityAt({ near, inwards }: Meeting, at: SectionPoint, point: Vector): Vector {
  const [one, other] = [pointAt(near[0], at), pointAt(near[1], at)];
  // One-sided, exact to the second order.
  if (inwards !== 0)
    return axes((axis) => (inwards * (-3 * point[axis]! + 4 * one[axis]! - other[axis]!)) / (2 * nudge));
  return axes((axis) => (other[axis]! - one[axis]!) / (2 * nudge));
}

function axes(of: (axis: number) => number): Vector {
  return [of(0), of(1), of(2)];
}

/** Control points of what a point of the section follows along a part: its ends, or of a cubic spline 2 + 2 a segment. */
export function railOf(part: SweptPart, at: SectionPoint): readonly Vector[] {
  if (part.kind === 'straight') return [pointAt(part.from, at), pointAt(part.to, at)];
  const { meetings } = part;
  const last = meetings.length - 1;
  const step = 1 / last;
  return meetings.flatMap((meeting, index) => {
    const point = pointAt(meeting.here, at);
    const velocity = velocityAt(meeting, at, point);
    const moved = (sign: number): Vector =>
      axes((axis) => point[axis]! + (sign * step * velocity[axis]!) / 3);
    return [index === 0 ? point : moved(-1), index === last ? point : moved(1)];
  });
}
