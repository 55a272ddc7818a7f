import { derive, type Figure } from '../figures/figure.ts';
import { acRatios } from './acLoss/acLoss.ts';
import { type CopperParts, copperParts } from './copperFigures.ts';
import type { LossFigures, OperationFigures } from './copperLosses.ts';
import type { CopperInput } from './geometryFigures.ts';
import type { HeatSample } from './heat/chainHotSpot.ts';
import { type LeanTradeRow, leanTrade } from './leanTrade.ts';

/** AC over DC resistance in the slot at one frequency. */
export interface AcSample {
  /** Hz. */
  readonly frequency: number;
  /** Mean over all bars. */
  readonly slot: number;
  /** One a layer; null for a layer without bars. */
  readonly layers: readonly (number | null)[];
}

/** Samples for the copper picture. */
export interface CopperCurves {
  readonly acRatio: Figure<readonly AcSample[]>;
  readonly heat: Figure<HeatCurve>;
  /** Empty where bars neither lean nor could. */
  readonly leanTrade: readonly LeanTradeRow[];
}

/** The temperature along the hottest bar, end to end. */
export interface HeatCurve {
  /** From 0. */
  readonly layer: number;
  readonly samples: readonly HeatSample[];
  /** Length of the bar within the stack, m. */
  readonly active: number;
}

const acSamples = 41;
/** The curve runs to twice the stated frequency. */
const acReach = 2;

/** Curves over frequency, along the bar and over the lean: what the copper picture draws. */
export function copperCurves(
  input: CopperInput,
  { basis, losses }: Pick<CopperParts, 'basis' | 'losses'> = copperParts(input),
): CopperCurves {
  return {
    acRatio: acCurve(basis.operation),
    heat: heatCurve(losses, basis.geometry.active),
    leanTrade: leanTrade(input),
  };
}

function acCurve(figures: OperationFigures): Figure<readonly AcSample[]> {
  const { weights, sections, frequency, resistivity } = figures;
  return derive({ weights, sections, frequency, resistivity }, (given) =>
    Array.from({ length: acSamples }, (_, index) => {
      const hertz = (given.frequency * acReach * index) / (acSamples - 1);
      const { slot, layers } = acRatios(given.weights, given.sections, hertz, given.resistivity);
      return { frequency: hertz, slot, layers };
    }),
  );
}

function heatCurve({ heat }: LossFigures, active: Figure<readonly number[]>): Figure<HeatCurve> {
  return derive({ heat, active }, (given) => ({
    layer: given.heat.layer,
    samples: given.heat.profile(),
    active: given.active[given.heat.layer]!,
  }));
}
