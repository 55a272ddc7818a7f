import { type Camera, cameraAt } from '../../../core/views/space/camera.ts';
import type { Solids } from '../../../core/views/space/solids.ts';
import type { Pixels, Size } from '../viewport/viewport.ts';
import type { Eye } from './liveSpace.ts';

type Reach = Solids['reach'];

/** As the picture is seen. */
export const firstEye: Eye = { turn: -0.6, above: 0.5, zoom: 1, right: 0, up: 0 };

/** White space round what is seen whole, as a share. */
const margin = 1.04;
const zoomRange = { least: 0.5, most: 60 } as const;
/** Radians for a pixel of dragging. */
const turning = 0.008;

export function cameraOf({ turn, above }: Eye): Camera {
  return cameraAt(turn, above);
}

/** Meters that half the area's width and height show. */
export function halfSeen(eye: Eye, { radius, low, high }: Reach, area: Size): Size {
  const up = radius * Math.abs(Math.sin(eye.above)) + ((high - low) / 2) * Math.cos(eye.above);
  const scale = Math.max((margin * radius) / area.width, (margin * up) / area.height) / eye.zoom;
  return { width: scale * area.width, height: scale * area.height };
}

/** Turned by a drag: sideways about the axis, up and down over it, as far as straight from above or below. */
export function turned(eye: Eye, by: Pixels): Eye {
  const above = Math.min(Math.max(eye.above + turning * by.y, -Math.PI / 2), Math.PI / 2);
  return { ...eye, turn: wrapped(eye.turn - turning * by.x), above };
}

/** Moved across the area by pixels; the middle of what is shown stays within what there is. */
export function moved(eye: Eye, reach: Reach, area: Size, by: Pixels): Eye {
  const half = halfSeen(eye, reach, area);
  const limit = Math.max(reach.radius, reach.high - reach.low);
  const within = (value: number) => Math.min(Math.max(value, -limit), limit);
  return {
    ...eye,
    right: within(eye.right - (2 * half.width * by.x) / area.width),
    up: within(eye.up + (2 * half.height * by.y) / area.height),
  };
}

/** Zoomed so that what is under a point of the area stays there. */
export function zoomed(eye: Eye, reach: Reach, area: Size, point: Pixels, factor: number): Eye {
  const zoom = Math.min(Math.max(eye.zoom * factor, zoomRange.least), zoomRange.most);
  const next = { ...eye, zoom };
  const [before, after] = [halfSeen(eye, reach, area), halfSeen(next, reach, area)];
  const off = { x: (2 * point.x) / area.width - 1, y: 1 - (2 * point.y) / area.height };
  return {
    ...next,
    right: eye.right + off.x * (before.width - after.width),
    up: eye.up + off.y * (before.height - after.height),
  };
}

/** Turned about the axis so far that a bar at an angle (radians) stands in front. */
export function turnedTo(eye: Eye, angle: number): Eye {
  return { ...eye, turn: wrapped(eye.turn + offFront(eye, angle)) };
}

/** The same, but as it was where the bar is in the nearer half already. */
export function turnedIntoSight(eye: Eye, angle: number): Eye {
  return Math.abs(offFront(eye, angle)) < Math.PI / 2 ? eye : turnedTo(eye, angle);
}

/** Radians about the axis from what stands in front; the eye stands at the angle `turn` + a quarter turn. */
function offFront(eye: Eye, angle: number): number {
  return wrapped(angle - eye.turn - Math.PI / 2);
}

/** On the way from one to another; the shorter way round. */
export function between(from: Eye, to: Eye, share: number): Eye {
  return { ...to, turn: wrapped(from.turn + share * wrapped(to.turn - from.turn)) };
}

/** An angle from -half a turn to half a turn. */
export function wrapped(angle: number): number {
  return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
}

/** The eye if the value is one, else null. */
export function readEye(value: unknown): Eye | null {
  if (typeof value !== 'object' || value === null) return null;
  const { turn, above, zoom, right, up } = value as Partial<Record<keyof Eye, unknown>>;
  const numbers = [turn, above, zoom, right, up];
  if (!numbers.every((number) => typeof number === 'number' && Number.isFinite(number))) return null;
  const eye = { turn, above, zoom, right, up } as Eye;
  const fits =
    Math.abs(eye.above) <= Math.PI / 2 && eye.zoom >= zoomRange.least && eye.zoom <= zoomRange.most;
  return fits ? eye : null;
}
