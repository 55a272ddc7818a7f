import { phi, psi } from './skinEffect.ts';

/** Bars that share one height: how many, what weighs psi, and what makes their reduced height. */
export interface HeightTerm {
  /** Resistance of these bars relative to the others' at equal height: number over width. */
  readonly share: number;
  /** Mean weight of psi; (z^2 - 1)/3 for a stack of z bars in phase, never below -1/4. */
  readonly weight: number;
  /** Reduced strand height for one meter of bar height, 1/m. */
  readonly scale: number;
}

/** The best height: where the AC resistance, ratio over height, is least. */
export interface CriticalHeight {
  /** m (or reduced, where `scale` is 1). */
  readonly height: number;
  /** AC over DC resistance at that height. */
  readonly ratio: number;
}

const golden = (Math.sqrt(5) - 1) / 2;
const goldenTurns = 40;
const step = 1.3;
/** Above this reduced height the resistance of any stack is flat: phi -> xi, psi -> 2 xi. */
const highest = 8;
const lowest = 1e-3;

/**
 * The bar height, in common to all terms, with the least AC resistance. Classical result: a ratio of
 * about 4/3 (Field; Vogt, Muller, Ponick, from memory), pi/2 tanh(pi/2) for one bar. Throws
 * RangeError for no terms, a weight below -1/4 or a scale not above 0.
 */
export function criticalHeight(terms: readonly HeightTerm[]): CriticalHeight {
  requireTerms(terms);
  const merged = mergeScales(terms);
  const total = merged.reduce((sum, { share }) => sum + share, 0);
  const ratio = (height: number) => {
    const sum = merged.reduce((part, { share, weighted, scale }) => {
      return part + share * phi(height * scale) + weighted * psi(height * scale);
    }, 0);
    return sum / total;
  };
  const resistance = (height: number) => ratio(height) / height;
  const scales = merged.map((term) => term.scale);
  let best = highest / Math.min(...scales);
  let least = resistance(best);
  for (let height = best / step; height > lowest / Math.max(...scales); height /= step) {
    const value = resistance(height);
    if (value >= least) continue;
    best = height;
    least = value;
  }
  const height = goldenSection(resistance, best / step, best * step);
  return { height, ratio: ratio(height) };
}

interface ScaleTerm {
  readonly scale: number;
  readonly share: number;
  /** Sum of share times weight. */
  readonly weighted: number;
}

/** Terms of equal reduced height need phi and psi only once. */
function mergeScales(terms: readonly HeightTerm[]): ScaleTerm[] {
  const merged = new Map<number, ScaleTerm>();
  for (const { scale, share, weight } of terms) {
    const before = merged.get(scale) ?? { scale, share: 0, weighted: 0 };
    merged.set(scale, {
      scale,
      share: before.share + share,
      weighted: before.weighted + share * weight,
    });
  }
  return [...merged.values()];
}

function goldenSection(value: (x: number) => number, from: number, to: number): number {
  let low = from;
  let high = to;
  let lower = high - golden * (high - low);
  let upper = low + golden * (high - low);
  let atLower = value(lower);
  let atUpper = value(upper);
  for (let turn = 0; turn < goldenTurns; turn++) {
    if (atLower < atUpper) {
      high = upper;
      upper = lower;
      atUpper = atLower;
      lower = high - golden * (high - low);
      atLower = value(lower);
    } else {
      low = lower;
      lower = upper;
      atLower = atUpper;
      upper = low + golden * (high - low);
      atUpper = value(upper);
    }
  }
  return (low + high) / 2;
}

function requireTerms(terms: readonly HeightTerm[]): void {
  if (terms.length === 0) throw new RangeError('a best height needs at least one kind of bar, got none');
  for (const { weight, scale } of terms) {
    if (!(weight >= -0.25 - 1e-12)) throw new RangeError(`weight must be at least -1/4, got ${weight}`);
    if (!(scale > 0)) throw new RangeError(`scale must be above 0, got ${scale}`);
  }
}
