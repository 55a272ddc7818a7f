import { noSolidMetal } from '../metals.ts';

/** A bar between two cooled ends. SI units. */
export interface HeatedBar {
  /** Between the cooled ends, m. */
  readonly length: number;
  /** Copper area, m2. */
  readonly area: number;
  /** Thermal conductivity of the metal, W/(m K). */
  readonly conductivity: number;
  /** To a core at the temperature of the ends, W/(m K); 0 for none. */
  readonly sideConductance: number;
}

/** Temperature rise of a bar over its ends for a loss density. K. */
export interface BarHeat {
  /** At mid-bar. */
  readonly rise: number;
  /** Mean along the bar. */
  readonly meanRise: number;
  /** Share of the heat that leaves by the ends. */
  readonly endShare: number;
}

/**
 * One-dimensional conduction along a bar with even loss `loss` W/m: p L^2/(8 k A); with side cooling
 * G the fin (p/G)(1 - 1/cosh(u)), u = sqrt(G/(k A)) L/2. A lumped estimate.
 */
export function barHeat(bar: HeatedBar, loss: number): BarHeat {
  const u = finNumber(bar);
  const plain = (loss * bar.length ** 2) / (8 * bar.conductivity * bar.area);
  return {
    rise: plain * finShape(u),
    meanRise: plain * finMean(u),
    endShare: u < 1e-4 ? 1 - u ** 2 / 3 : Math.tanh(u) / u,
  };
}

/** Temperature rise at a distance in m from mid-bar, K. */
export function riseAlongBar(bar: HeatedBar, loss: number, distance: number): number {
  const u = finNumber(bar);
  const half = bar.length / 2;
  const share = distance / half;
  if (u < 1e-4) {
    return ((loss * half ** 2) / (2 * bar.conductivity * bar.area)) * (1 - share * share);
  }
  return (loss / bar.sideConductance) * (1 - coshRatio(u * share, u));
}

function finNumber(bar: HeatedBar): number {
  return Math.sqrt(bar.sideConductance / (bar.conductivity * bar.area)) * (bar.length / 2);
}

/** Mid-bar rise over that without side cooling: 2 (1 - 1/cosh u)/u^2. */
function finShape(u: number): number {
  if (u < 1e-4) return 1 - (5 / 12) * u ** 2;
  // 1 - 1/cosh u = 2 sinh^2(u/2)/cosh u, without cancellation.
  return u > 40 ? 2 / u ** 2 : (4 * Math.sinh(u / 2) ** 2) / (Math.cosh(u) * u ** 2);
}

/** Mean rise over the mid-bar rise without side cooling: 2 (1 - tanh(u)/u)/u^2. */
function finMean(u: number): number {
  if (u < 0.02) return (2 / 3) * (1 - (2 / 5) * u ** 2 + (17 / 105) * u ** 4);
  return (2 * (1 - Math.tanh(u) / u)) / u ** 2;
}

/** cosh a/cosh b for abs(a) <= b, without overflow. */
function coshRatio(a: number, b: number): number {
  const size = Math.abs(a);
  return (Math.exp(size - b) * (1 + Math.exp(-2 * size))) / (1 + Math.exp(-2 * b));
}

/** Steady heat of a bar whose loss depends on its own mean temperature. */
export interface SteadyHeat extends BarHeat {
  /** degC, at mid-bar. */
  readonly hotSpot: number;
  /** Mean temperature of the bar, degC. */
  readonly mean: number;
  /** Loss density at that temperature, W/m. */
  readonly loss: number;
  /** Of the iteration of loss and temperature. */
  readonly rounds: number;
}

const mostRounds = 100;
const settled = 1e-9;

/**
 * Iterates loss and mean temperature: `lossAt` gives W/m at a mean temperature in degC. Null where no
 * steady temperature is reached: the bar grows hotter faster than the heat leaves.
 */
export function steadyHeat(
  bar: HeatedBar,
  endTemperature: number,
  lossAt: (temperature: number) => number,
): SteadyHeat | null {
  let mean = endTemperature;
  for (let rounds = 1; rounds <= mostRounds; rounds++) {
    const loss = lossAt(mean);
    const heat = barHeat(bar, loss);
    const next = endTemperature + heat.meanRise;
    if (!(next < noSolidMetal)) return null;
    if (Math.abs(next - mean) <= settled * Math.max(1, Math.abs(next))) {
      return { ...heat, hotSpot: endTemperature + heat.rise, mean: next, loss, rounds };
    }
    mean = next;
  }
  return null;
}
