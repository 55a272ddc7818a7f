import type { Box } from './bounds.ts';
import type { PathPart } from './picture.ts';

/** A circle as a closed run of `steps` straight lines. */
export function circlePart(x: number, y: number, radius: number, steps = 24): PathPart {
  const points: number[] = [];
  for (let step = 0; step <= steps; step++) {
    const angle = (2 * Math.PI * step) / steps;
    points.push(x + radius * Math.cos(angle), y + radius * Math.sin(angle));
  }
  return points;
}

/** The outline of a box with sides parallel to the axes, to be stroked. */
export function boxOutline(left: number, top: number, right: number, bottom: number): PathPart {
  return [left, top, right, top, right, bottom, left, bottom, left, top];
}

/** The corners of a box with sides parallel to the axes, to be filled. */
export function boxArea(left: number, top: number, right: number, bottom: number): PathPart {
  return [left, top, right, top, right, bottom, left, bottom];
}

/** The head of an arrow that ends at (x, y), coming from (fromX, fromY); `length` at most 70 % of the way. */
export function arrowHead(
  fromX: number,
  fromY: number,
  x: number,
  y: number,
  length: number,
): PathPart | null {
  const way = Math.hypot(x - fromX, y - fromY);
  if (way < 1e-9) return null;
  const long = Math.min(length, 0.7 * way);
  return head(x, y, (x - fromX) / way, (y - fromY) / way, long, 0.32 * long);
}

/**
 * The head of an arrow with its tip at (x, y) that points at an angle in degrees, from the x axis towards y;
 * `slim` is its length over half its width.
 */
export function arrowHeadAt(x: number, y: number, degrees: number, length = 2.2, slim = 6): PathPart {
  const turn = (degrees * Math.PI) / 180;
  return head(x, y, Math.cos(turn), Math.sin(turn), length, -length / slim);
}

/** A head that points along the unit vector (ux, uy); a negative half width begins with its other corner. */
function head(x: number, y: number, ux: number, uy: number, long: number, half: number): PathPart {
  return [
    x,
    y,
    x - long * ux + half * uy,
    y - long * uy - half * ux,
    x - long * ux - half * uy,
    y - long * uy + half * ux,
  ];
}

/** Rising diagonal strokes that fill a box, `pitch` apart across. */
export function hatchParts({ left, top, right, bottom }: Box, pitch: number): readonly PathPart[] {
  const parts: PathPart[] = [];
  const [width, height] = [right - left, bottom - top];
  if (!(width > 0 && height > 0)) return parts;
  // The line that meets the left side `at` above the bottom, slope 45 degrees.
  for (let at = pitch / 2 - width; at < height; at += pitch) {
    const from = Math.max(0, -at);
    const to = Math.min(width, height - at);
    if (to - from > 0.05) parts.push([left + from, bottom - at - from, left + to, bottom - at - to]);
  }
  return parts;
}
