// Abscissas of the 15-point Gauss-Kronrod rule on 0..1 beside its middle, with its weights and those of the
// 7-point Gauss rule within it, 0 where that has none (Piessens and others, QUADPACK, 1983).
const rule: readonly (readonly [place: number, weight: number, coarse: number])[] = [
  [0.9914553711208126, 0.022935322010529224, 0],
  [0.9491079123427585, 0.06309209262997854, 0.1294849661688697],
  [0.8648644233597691, 0.10479001032225017, 0],
  [0.7415311855993945, 0.14065325971552592, 0.27970539148927664],
  [0.5860872354676911, 0.1690047266392679, 0],
  [0.4058451513773972, 0.19035057806478542, 0.3818300505051189],
  [0.20778495500789848, 0.20443294007529889, 0],
];
const middleWeight = 0.20948214108472782;
const middleCoarse = 0.4179591836734694;

/**
 * Integral of a smooth function from 0 to 1: stretches are halved until the coarse rule differs from the
 * fine one by no more than `tolerance` in all.
 */
export function integrate(value: (at: number) => number, tolerance: number): number {
  return within(value, 0, 1, tolerance, 20);
}

function within(
  value: (at: number) => number,
  from: number,
  to: number,
  tolerance: number,
  depth: number,
): number {
  const half = (to - from) / 2;
  const middle = (from + to) / 2;
  const center = value(middle);
  let fine = middleWeight * center;
  let coarse = middleCoarse * center;
  for (const [place, weight, coarseWeight] of rule) {
    const both = value(middle - half * place) + value(middle + half * place);
    fine += weight * both;
    coarse += coarseWeight * both;
  }
  if (depth === 0 || Math.abs(fine - coarse) * half <= tolerance) return half * fine;
  return (
    within(value, from, middle, tolerance / 2, depth - 1) +
    within(value, middle, to, tolerance / 2, depth - 1)
  );
}
