/** Abscissas and weights of the 10-point Gauss-Legendre rule on -1..1, one of each sign (Abramowitz, Stegun, table 25.4). */
const rule: readonly (readonly [place: number, weight: number])[] = [
  [0.14887433898163122, 0.29552422471475287],
  [0.4333953941292472, 0.26926671930999635],
  [0.6794095682990244, 0.21908636251598204],
  [0.8650633666889845, 0.1494513491505806],
  [0.9739065285171717, 0.06667134430868814],
];

/** Integral of a smooth function from 0 to 1, halved until the halves change it by less than `tolerance`. */
export function integrate(value: (at: number) => number, tolerance: number): number {
  return refined(value, 0, 1, gauss(value, 0, 1), tolerance, 20);
}

function refined(
  value: (at: number) => number,
  from: number,
  to: number,
  whole: number,
  tolerance: number,
  depth: number,
): number {
  const middle = (from + to) / 2;
  const first = gauss(value, from, middle);
  const second = gauss(value, middle, to);
  if (depth === 0 || Math.abs(first + second - whole) <= tolerance) return first + second;
  return (
    refined(value, from, middle, first, tolerance / 2, depth - 1) +
    refined(value, middle, to, second, tolerance / 2, depth - 1)
  );
}

function gauss(value: (at: number) => number, from: number, to: number): number {
  const half = (to - from) / 2;
  const middle = (from + to) / 2;
  let sum = 0;
  for (const [place, weight] of rule) {
    sum += weight * (value(middle - half * place) + value(middle + half * place));
  }
  return half * sum;
}
