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
    const top = Math.max(0, Math.ceil(Math.min(a[1], b[1], c[1]) - 0.5));
    const bottom = Math.min(height - 1, Math.floor(Math.max(a[1], b[1], c[1]) - 0.5));
    // How the nearness changes with x and y.
    const alongX = ((b[2] - a[2]) * (c[1] - a[1]) - (c[2] - a[2]) * (b[1] - a[1])) / area;
    const alongY = ((c[2] - a[2]) * (b[0] - a[0]) - (b[2] - a[2]) * (c[0] - a[0])) / area;
    for (let y = top; y <= bottom; y++) {
      const level = y + 0.5;
      // Where the row's middle crosses the sides: one of three does not.
      const [ab, bc, ca] = [crossing(a, b, level), crossing(b, c, level), crossing(c, a, level)];
      const from = Math.min(ab ?? bc!, bc ?? ca!, ca ?? ab!);
      const to = Math.max(ab ?? bc!, bc ?? ca!, ca ?? ab!);
      if (!(from <= to)) continue;
      const first = Math.max(0, Math.ceil(from - 0.5 - hair));
      const last = Math.min(width - 1, Math.floor(to - 0.5 + hair));
      let near = a[2] + (first + 0.5 - a[0]) * alongX + (level - a[1]) * alongY;
      for (let at = y * width + first; at <= y * width + last; at++, near += alongX) {
        if (near <= nearest[at]!) continue;
        nearest[at] = near;
        faces[at] = face;
      }
    }
  };
  const quad = (face: number, [a, b, c, d]: readonly [Projected, Projected, Projected, Projected]): void => {
    triangle(face, a, b, c);
    triangle(face, a, c, d);
  };
  return { quad, visibility: (): Visibility => ({ width, height, faces }) };
}

/** Where the line between two points crosses a level; null where it does not. */
function crossing(from: Projected, to: Projected, level: number): number | null {
  if (from[1] > level === to[1] > level) return null;
  return from[0] + ((level - from[1]) * (to[0] - from[0])) / (to[1] - from[1]);
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
      const face = faces[y * width + x]!;
      if (face === 0 || begun[y * width + x] || faceAt(x, y - 1) === face) continue;
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

/** Steps along pixels' edges: to the right, down, left, up; and the pixels ahead on either hand. */
const ways = [
  { x: 1, y: 0, right: [0, 0], left: [0, -1] },
  { x: 0, y: 1, right: [-1, 0], left: [0, 0] },
  { x: -1, y: 0, right: [-1, -1], left: [-1, 0] },
  { x: 0, y: -1, right: [0, -1], left: [-1, -1] },
] as const;

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
    const { x: dx, y: dy } = ways[way]!;
    // Middles of pixels' edges lie within half a pixel of what the pixels stand for, corners farther off.
    points.push(x + dx / 2, y + dy / 2);
    x += dx;
    y += dy;
    const { right, left } = ways[way]!;
    const turn =
      faceAt(x + right[0], y + right[1]) !== face ? 1 : faceAt(x + left[0], y + left[1]) !== face ? 0 : 3;
    way = (way + turn) % 4;
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
  let [half, farthest] = [0, -1];
  for (let i = 1; i < count; i++) {
    const away = Math.hypot(points[2 * i]! - points[0]!, points[2 * i + 1]! - points[1]!);
    if (away > farthest) [half, farthest] = [i, away];
  }
  const keep = new Uint8Array(count + 1);
  keep[0] = keep[half] = 1;
  const open: [number, number][] = [
    [0, half],
    [half, count],
  ];
  for (let next = open.pop(); next; next = open.pop()) {
    const [from, to] = next;
    let [worst, at] = [tolerance, -1];
    for (let i = from + 1; i < to; i++) {
      const away = distanceTo(points, i, from, to % count);
      if (away > worst) [worst, at] = [away, i];
    }
    if (at < 0) continue;
    keep[at] = 1;
    open.push([from, at], [at, to]);
  }
  const kept: number[] = [];
  for (let i = 0; i < count; i++) if (keep[i]) kept.push(points[2 * i]!, points[2 * i + 1]!);
  return kept;
}

/** Distance of a corner from the straight between two others, in pixels. */
function distanceTo(points: readonly number[], at: number, from: number, to: number): number {
  const [x, y] = [points[2 * from]!, points[2 * from + 1]!];
  const [dx, dy] = [points[2 * to]! - x, points[2 * to + 1]! - y];
  const [px, py] = [points[2 * at]! - x, points[2 * at + 1]! - y];
  const long = dx * dx + dy * dy;
  if (long === 0) return Math.hypot(px, py);
  const share = Math.max(0, Math.min(1, (px * dx + py * dy) / long));
  return Math.hypot(px - share * dx, py - share * dy);
}
