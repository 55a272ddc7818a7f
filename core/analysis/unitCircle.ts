/** Points on the unit circle: `cos[k]`, `sin[k]` of 2 pi k / n for k = 0 .. n - 1. */
export interface UnitCircle {
  readonly cos: Float64Array;
  readonly sin: Float64Array;
}

/** Circles by their number of points, the oldest first: while a text is typed or varied its slots stay. */
const circles = new Map<number, UnitCircle>();
const mostCircles = 8;

/**
 * The n points of the unit circle. Each is within rounding of its exact value, and the symmetries of the circle hold
 * exactly: points on an axis are exactly on it, mirror images have equal coordinates. Whoever asks next may get the
 * same arrays: they are not to be written to.
 */
export function unitCircle(n: number): UnitCircle {
  const known = circles.get(n);
  if (known) return known;
  const circle = circleOf(n);
  circles.set(n, circle);
  if (circles.size > mostCircles) circles.delete(circles.keys().next().value as number);
  return circle;
}

function circleOf(n: number): UnitCircle {
  const cos = new Float64Array(n);
  const sin = new Float64Array(n);
  const step = (2 * Math.PI) / n;
  const quarter = n % 4 === 0 ? n / 4 : -1;
  const direct = quarter < 0 ? Math.floor(n % 2 === 0 ? n / 4 : n / 2) : quarter >> 1;
  for (let k = 0; k <= direct; k++) {
    cos[k] = Math.cos(k * step);
    sin[k] = Math.sin(k * step);
  }
  if (quarter >= 0) {
    for (let k = direct + 1; k <= quarter; k++) {
      cos[k] = sin[quarter - k]!;
      sin[k] = cos[quarter - k]!;
    }
  }
  if (n % 2 === 0) {
    for (let k = Math.floor(n / 4) + 1; k <= n / 2; k++) {
      cos[k] = -cos[n / 2 - k]!;
      sin[k] = sin[n / 2 - k]!;
    }
  }
  for (let k = Math.floor(n / 2) + 1; k < n; k++) {
    cos[k] = cos[n - k]!;
    sin[k] = -sin[n - k]!;
  }
  return { cos, sin };
}
