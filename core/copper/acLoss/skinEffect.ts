/**
 * The two functions of the one-dimensional field in a slot with parallel sides (Field 1905, Emde
 * 1908; Vogt, Muller, Ponick; Pyrhonen ch. 5), of the reduced height xi = h sqrt(pi f mu0 kappa bc/bs).
 * Both take a finite xi >= 0, else RangeError.
 */

/** phi = xi (sinh 2xi + sin 2xi)/(cosh 2xi - cos 2xi): loss ratio of a bar in no other field; 1 at 0. */
export function phi(xi: number): number {
  requireHeight(xi);
  if (xi < 1e-3) return 1 + (4 / 45) * xi ** 4;
  // Divided through by the growing exponential, so that nothing overflows.
  const small = Math.exp(-2 * xi);
  const difference = Math.expm1(-2 * xi) ** 2 + 4 * small * Math.sin(xi) ** 2;
  return (xi * (-Math.expm1(-4 * xi) + 2 * small * Math.sin(2 * xi))) / difference;
}

/** psi = 2 xi (sinh xi - sin xi)/(cosh xi + cos xi): weight of the field of the other bars; 0 at 0. */
export function psi(xi: number): number {
  requireHeight(xi);
  if (xi < 1) return (2 * xi * sinhMinusSin(xi)) / (Math.cosh(xi) + Math.cos(xi));
  const small = Math.exp(-xi);
  const sinh = -Math.expm1(-2 * xi) - 2 * small * Math.sin(xi);
  return (2 * xi * sinh) / (1 + small * small + 2 * small * Math.cos(xi));
}

/** sinh x - sin x without cancellation: 2 (x^3/3! + x^7/7! + x^11/11! + x^15/15!), x up to 1. */
function sinhMinusSin(x: number): number {
  const x4 = x ** 4;
  return (x ** 3 / 3) * (1 + (x4 / 840) * (1 + (x4 / 7920) * (1 + x4 / 32760)));
}

/**
 * The weight of psi for a bar of current `own` whose slot carries `below` between the bar and the closed
 * end: abs(below)^2 + Re(below conj own) for a solid bar. n strands, of 1/n of the current each, see the
 * field of the strands below them too; their mean is abs(own)^2 (n^2 - 1)/3 + n^2 times that.
 */
export function fieldWeight(below: Phasor, own: Phasor, strands: number): number {
  const square = own.re * own.re + own.im * own.im;
  const beside = below.re * below.re + below.im * below.im + below.re * own.re + below.im * own.im;
  return ((strands * strands - 1) / 3) * square + strands * strands * beside;
}

interface Phasor {
  readonly re: number;
  readonly im: number;
}

function requireHeight(xi: number): void {
  if (!(xi >= 0) || xi === Number.POSITIVE_INFINITY) {
    throw new RangeError(`reduced height must be finite and at least 0, got ${xi}`);
  }
}
