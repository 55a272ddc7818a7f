import { ofAngle, ofRadius } from '../curve.ts';

/**
 * Boxes about the axis, as numbers in lists: of all that lies between two heights, radii and angles the middle and
 * half of each, one behind the other; m, radians.
 */
export const boxSize = 6;

/** Numbers of an extent: angle, radius and height of a station, then the least and the most radius of its section. */
export const extentSize = 5;

/** Between its stations a segment leaves the radii that it has there by less than this, m. */
const radialTolerance = 1e-6;

/** Writes how far a coated section reaches at a station, whose numbers stand in a list from a place on. */
export function extentOf(
  stations: Float64Array,
  station: number,
  width: number,
  height: number,
  extents: Float64Array,
  at: number,
): void {
  const part = (number: number) => stations[station + number]!;
  const fromAxis = Math.sqrt(part(0) ** 2 + part(1) ** 2);
  const x = part(0) / fromAxis;
  const y = part(1) / fromAxis;
  // Half the section along the radius and across it.
  const along =
    (Math.abs(x * part(6) + y * part(7)) * height + Math.abs(x * part(9) + y * part(10)) * width) / 2;
  const across =
    (Math.abs(x * part(7) - y * part(6)) * height + Math.abs(x * part(10) - y * part(9)) * width) / 2;
  extents[at] = part(ofAngle);
  extents[at + 1] = part(ofRadius);
  extents[at + 2] = part(2);
  extents[at + 3] = fromAxis - along;
  extents[at + 4] = Math.sqrt((fromAxis + along) ** 2 + across ** 2);
}

/** Writes the box round a segment of three stations, the first of which reaches as told at `from`. */
export function boxRound(
  extents: Float64Array,
  from: number,
  reach: number,
  boxes: Float64Array,
  at: number,
): void {
  const least = (number: number) =>
    Math.min(
      extents[from + number]!,
      extents[from + extentSize + number]!,
      extents[from + 2 * extentSize + number]!,
    );
  const most = (number: number) =>
    Math.max(
      extents[from + number]!,
      extents[from + extentSize + number]!,
      extents[from + 2 * extentSize + number]!,
    );
  const low = least(2);
  const high = most(2);
  const nearest = least(3);
  const farthest = most(4);
  const first = least(0);
  const last = most(0);
  boxes[at] = (low + high) / 2;
  boxes[at + 1] = (high - low) / 2 + reach;
  boxes[at + 2] = (nearest + farthest) / 2;
  boxes[at + 3] = (farthest - nearest) / 2 + radialTolerance;
  boxes[at + 4] = (first + last) / 2;
  boxes[at + 5] = (last - first) / 2 + Math.asin(Math.min(1, reach / least(1)));
}

/** Writes the box round some boxes of a list, from the first to before the last. */
export function unionOf(
  boxes: Float64Array,
  first: number,
  last: number,
  into: Float64Array,
  at: number,
): void {
  for (let number = 0; number < boxSize; number += 2) {
    let from = Number.POSITIVE_INFINITY;
    let to = Number.NEGATIVE_INFINITY;
    for (let box = first * boxSize + number; box < last * boxSize; box += boxSize) {
      from = Math.min(from, boxes[box]! - boxes[box + 1]!);
      to = Math.max(to, boxes[box]! + boxes[box + 1]!);
    }
    into[at + number] = (from + to) / 2;
    into[at + number + 1] = (to - from) / 2;
  }
}

/**
 * Whether two boxes come within `reach` m of each other, the first turned by `turn` about the axis; with a negative
 * one, whether they overlap by so much in height and radius. They are told by their places in lists of boxes.
 */
export function boxesMeet(
  first: Float64Array,
  a: number,
  second: Float64Array,
  b: number,
  turn: number,
  reach: number,
): boolean {
  if (Math.abs(first[a]! - second[b]!) > first[a + 1]! + second[b + 1]! + reach) return false;
  if (Math.abs(first[a + 2]! - second[b + 2]!) > first[a + 3]! + second[b + 3]! + reach) return false;
  const inner = Math.min(first[a + 2]! - first[a + 3]!, second[b + 2]! - second[b + 3]!);
  if (inner <= reach) return true;
  const apart = first[a + 4]! + turn - second[b + 4]!;
  const round = Math.abs(apart - 2 * Math.PI * Math.round(apart / (2 * Math.PI)));
  // A chord of a length spans the most angle at the innermost radius; pi/3 bounds the arc of short ones.
  return round <= first[a + 5]! + second[b + 5]! + Math.min(Math.PI, (1.05 * Math.max(0, reach)) / inner);
}
