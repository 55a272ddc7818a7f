/**
 * The field across one or several bars of a slot, solved numerically: H'' = 2 j xi^2 H inside a bar of
 * unit height (xi its reduced height), H given by the currents at its faces. Central differences on
 * three grids, extrapolated; nothing here knows phi or psi.
 */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

/** Loss of a bar over its DC loss: current `own` in it, `below` between it and the closed end. */
export function solvedLossRatio(xi: number, own: Complex, below: Complex): number {
  // The thinner the skin in which the current flows, the finer.
  const steps = xi < 8 ? 100 : 500;
  const [coarse, middle, fine] = [steps, 2 * steps, 4 * steps].map((n) =>
    discreteLoss(xi, own, below, n),
  ) as [number, number, number];
  // Richardson: the error is a series in the square of the step.
  const first = (4 * middle - coarse) / 3;
  const second = (4 * fine - middle) / 3;
  return (16 * second - first) / 15 / (own.re ** 2 + own.im ** 2);
}

function discreteLoss(xi: number, own: Complex, below: Complex, n: number): number {
  const { re, im } = discreteField(xi, own, below, n);
  let sum = 0;
  for (let i = 0; i < n; i++) sum += (re[i + 1]! - re[i]!) ** 2 + (im[i + 1]! - im[i]!) ** 2;
  return sum * n;
}

/** Solves H[i-1] - (2 + j c) H[i] + H[i+1] = 0, c = 2 xi^2/n^2, by elimination. */
function discreteField(xi: number, own: Complex, below: Complex, n: number) {
  const c = (2 * xi * xi) / (n * n);
  const re = new Float64Array(n + 1);
  const im = new Float64Array(n + 1);
  // H[i] = g[i] H[i+1] + d[i], from the lower face upwards.
  const gRe = new Float64Array(n + 1);
  const gIm = new Float64Array(n + 1);
  const dRe = new Float64Array(n + 1);
  const dIm = new Float64Array(n + 1);
  dRe[0] = below.re;
  dIm[0] = below.im;
  for (let i = 1; i < n; i++) {
    const pRe = 2 - gRe[i - 1]!;
    const pIm = c - gIm[i - 1]!;
    const size = pRe * pRe + pIm * pIm;
    gRe[i] = pRe / size;
    gIm[i] = -pIm / size;
    dRe[i] = (dRe[i - 1]! * pRe + dIm[i - 1]! * pIm) / size;
    dIm[i] = (dIm[i - 1]! * pRe - dRe[i - 1]! * pIm) / size;
  }
  re[n] = below.re + own.re;
  im[n] = below.im + own.im;
  for (let i = n - 1; i >= 0; i--) {
    re[i] = gRe[i]! * re[i + 1]! - gIm[i]! * im[i + 1]! + dRe[i]!;
    im[i] = gRe[i]! * im[i + 1]! + gIm[i]! * re[i + 1]! + dIm[i]!;
  }
  return { re, im };
}
