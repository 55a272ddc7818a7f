import type { Steps } from '../../figures/steps.ts';
import type { Vector } from '../../space/vectors.ts';

/** A face of something: four corners in space, seen from outside counterclockwise. */
export type Quad = readonly [Vector, Vector, Vector, Vector];

/** A picture of which face is in front at each of its pixels: 0 none, else the face's number from 1. */
export interface Visibility {
  readonly width: number;
  readonly height: number;
  readonly faces: Int32Array;
}

/** What a face looks like on the raster: x to the right and y down in pixels, and how near it is. */
export type Projected = readonly [x: number, y: number, near: number];

/** Draws faces onto a raster, the nearest in front; faces seen from behind are left out. */
export function rasterOf(width: number, height: number) {
  const faces = new Int32Array(width * height);
  const nearest = new Float32Array(width * height).fill(Number.NEGATIVE_INFINITY);
  const triangle = (face: number, a: Projected, b: Projected, c: Projected): void => {
    const area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
    // Counterclockwise in space is clockwise where y runs down, and has a negative area.
    if (area >= 0) return;
    // By their height, the uppermost first. Without lists, which would be made by the hundred thousand, as below.
    const turned = a[1] > b[1];
    const early = turned ? b : a;
    const late = turned ? a : b;
    const lower = late[1] > c[1] ? late : c;
    const other = late[1] > c[1] ? c : late;
    const upper = early[1] > other[1] ? other : early;
    const middle = early[1] > other[1] ? early : other;
    const top = Math.max(0, Math.ceil(upper[1] - 0.5));
    const bottom = Math.min(height, Math.ceil(lower[1] - 0.5));
    const whole = slope(upper, lower);
    const above = slope(upper, middle);
    const below = slope(middle, lower);
    // How the nearness changes with x and y.
    const alongX = ((b[2] - a[2]) * (c[1] - a[1]) - (c[2] - a[2]) * (b[1] - a[1])) / area;
    const alongY = ((c[2] - a[2]) * (b[0] - a[0]) - (b[2] - a[2]) * (c[0] - a[0])) / area;
    for (let y = top; y < bottom; y++) {
      const level = y + 0.5;
      const one = upper[0] + (level - upper[1]) * whole;
      const other =
        level < middle[1] ? upper[0] + (level - upper[1]) * above : middle[0] + (level - middle[1]) * below;
      const first = Math.max(0, Math.ceil(Math.min(one, other) - 0.5 - hair));
      const last = Math.min(width - 1, Math.floor(Math.max(one, other) - 0.5 + hair));
      let near = a[2] + (first + 0.5 - a[0]) * alongX + (level - a[1]) * alongY;
      const end = y * width + last;
      for (let at = y * width + first; at <= end; at++, near += alongX) {
        if (near <= nearest[at]!) continue;
        nearest[at] = near;
        faces[at] = face;
      }
    }
  };
  const quad = (face: number, a: Projected, b: Projected, c: Projected, d: Projected): void => {
    triangle(face, a, b, c);
    triangle(face, a, c, d);
  };
  return { quad, visibility: (): Visibility => ({ width, height, faces }) };
}

/** How x changes with y from one point to a lower one. */
function slope(from: Projected, to: Projected): number {
  return (to[0] - from[0]) / (to[1] - from[1]);
}

// Pixels on the seam of two triangles belong to both.
const hair = 1e-6;

/** An outline on the raster: x, y, x, y ... in pixels. */
export type Outline = readonly number[];

/** Corners of outlines traced, and rows of pixels gone through, from one step to the next. */
const cornersAtOnce = 20_000;
const rowsAtOnce = 50;

/**
 * The outlines of what is seen of every face, by its number, in steps: areas in one sense, holes in them in the
 * other. Straight within `tolerance` pixels; specks of less than `least` pixels are left out.
 */
export function* outlineSteps(
  { width, height, faces }: Visibility,
  tolerance: number,
  least: number,
): Steps<ReadonlyMap<number, readonly Outline[]>> {
  const faceAt = (x: number, y: number): number =>
    x < 0 || y < 0 || x >= width || y >= height ? 0 : faces[y * width + x]!;
  const begun = new Uint8Array(width * height);
  const found = new Map<number, Outline[]>();
  let corners = 0;
  for (let y = 0; y < height; y++) {
    if (y % rowsAtOnce === rowsAtOnce - 1) yield;
    for (let x = 0; x < width; x++) {
      const at = y * width + x;
      const face = faces[at]!;
      if (face === 0 || (y > 0 && faces[at - width] === face) || begun[at]) continue;
      const outline = traced(faceAt, face, x, y, (atX, atY) => {
        begun[atY * width + atX] = 1;
      });
      corners += outline.length;
      if (corners > cornersAtOnce) {
        yield;
        corners = 0;
      }
      if (Math.abs(areaOf(outline)) < least) continue;
      const simple = simplified(outline, tolerance);
      if (simple.length < 6) continue;
      const own = found.get(face);
      if (own) own.push(simple);
      else found.set(face, [simple]);
    }
  }
  return found;
}

/** Steps along pixels' edges: to the right, down, left, up. */
const stepX = [1, 0, -1, 0] as const;
const stepY = [0, 1, 0, -1] as const;
/** Of the pixel ahead on the right hand, from the corner; on the left hand lies that of the way before. */
const aheadX = [0, -1, -1, 0] as const;
const aheadY = [0, 0, -1, -1] as const;

/** Runs round an area with the area on the right, from the top edge of a pixel; tells every pixel whose top edge it passes. */
function traced(
  faceAt: (x: number, y: number) => number,
  face: number,
  startX: number,
  startY: number,
  passes: (x: number, y: number) => void,
): readonly number[] {
  const points: number[] = [];
  let [x, y, way] = [startX, startY, 0];
  do {
    if (way === 0) passes(x, y);
    // Middles of pixels' edges lie within half a pixel of what the pixels stand for, corners farther off.
    points.push(x + stepX[way]! / 2, y + stepY[way]! / 2);
    x += stepX[way]!;
    y += stepY[way]!;
    const left = (way + 3) % 4;
    if (faceAt(x + aheadX[way]!, y + aheadY[way]!) !== face) way = (way + 1) % 4;
    else if (faceAt(x + aheadX[left]!, y + aheadY[left]!) === face) way = left;
  } while (x !== startX || y !== startY || way !== 0);
  return points;
}

/** Twice the signed area over two, in pixels. */
function areaOf(points: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < points.length; i += 2) {
    const j = (i + 2) % points.length;
    sum += points[i]! * points[j + 1]! - points[j]! * points[i + 1]!;
  }
  return sum / 2;
}

/** A closed line with as few of its corners as stay within a tolerance (Douglas and Peucker, 1973). */
function simplified(points: readonly number[], tolerance: number): Outline {
  const count = points.length / 2;
  if (count < 4) return points;
  // Halved at the corner farthest from the first, so that both halves are open lines.
  const half = farthestCorner(points, 0, count, 0);
  const keep = new Uint8Array(count + 1);
  keep[0] = keep[half] = 1;
  const open: [number, number][] = [
    [0, half],
    [half, count],
  ];
  for (let next = open.pop(); next; next = open.pop()) {
    const [from, to] = next;
    const at = farthestCorner(points, from, to, tolerance);
    if (at < 0) continue;
    keep[at] = 1;
    open.push([from, at], [at, to]);
  }
  const kept: number[] = [];
  for (let i = 0; i < count; i++) if (keep[i]) kept.push(points[2 * i]!, points[2 * i + 1]!);
  return kept;
}

/**
 * The corner between two others that lies farthest from the straight between these, -1 where none lies farther than
 * `least`, in pixels; the last one is followed by the first.
 */
function farthestCorner(points: readonly number[], from: number, to: number, least: number): number {
  const x = points[2 * from]!;
  const y = points[2 * from + 1]!;
  const end = (2 * to) % points.length;
  const dx = points[end]! - x;
  const dy = points[end + 1]! - y;
  const long = dx * dx + dy * dy;
  let most = least * least;
  let at = -1;
  for (let i = from + 1; i < to; i++) {
    const px = points[2 * i]! - x;
    const py = points[2 * i + 1]! - y;
    const share = long === 0 ? 0 : Math.max(0, Math.min(1, (px * dx + py * dy) / long));
    const awayX = px - share * dx;
    const awayY = py - share * dy;
    const away = awayX * awayX + awayY * awayY;
    if (away <= most) continue;
    most = away;
    at = i;
  }
  return at;
}
