import { deriveFigure, type Figure, known, undetermined } from '../figures/figure.ts';
import type { SpareRoom } from '../sizes/fit.ts';
import type { PieceLength } from '../space/lengths.ts';
import type { AcRatios } from './acLoss/acLoss.ts';
import type { BestHeight } from './acLoss/bestHeight.ts';
import { type CopperParts, copperFigures, copperParts } from './copperFigures.ts';
import { type CopperLossParts, fundamentalLoss } from './copperLosses.ts';
import type { CopperInput } from './geometryFigures.ts';
import type { HeatSample } from './heat/chainHotSpot.ts';
import { type BarHeatFigures, heatsCore } from './heat/hottestBar.ts';
import type { PathImpedances } from './pathImpedances.ts';

/**
 * Everything about the copper, by its places in the report. SI units, ratios as fractions, temperatures in degC. Rms
 * currents, balanced.
 */
export interface CopperResult {
  readonly section: {
    /** One a layer, m2. */
    readonly barArea: Figure<readonly number[]>;
    /** Of the fullest slot. */
    readonly slotFill: Figure<number>;
    /** Room left beside the bars of each slot row, m. */
    readonly spareRoom: Figure<readonly SpareRoom[]>;
  };
  readonly length: {
    /** Mean whole bar, m. */
    readonly bars: Figure<number>;
    /** All bars and connecting pieces, m. */
    readonly total: Figure<number>;
    /** How far the tallest bar end stands out of the stack, m. */
    readonly overhangConnection: Figure<number>;
    /** The same on the far side, m. */
    readonly overhangFar: Figure<number>;
    /** Whole bars by place as in the slot table's `cells`, m; NaN for empty places. */
    readonly byPlace: Figure<Float64Array>;
    /** Within the stack, one a layer, m. */
    readonly active: Figure<readonly number[]>;
    readonly pieces: Figure<readonly PieceLength[]>;
  };
  /** Mean radius of each layer's bars, m. */
  readonly radii: Figure<readonly number[]>;
  /** Ohm. */
  readonly resistance: {
    /** Mean path at 20 degC. */
    readonly path20: Figure<number>;
    /** Mean phase at 20 degC. */
    readonly phase20: Figure<number>;
    /** Mean phase at the winding temperature, direct current. */
    readonly phase: Figure<number>;
    /** Between adjacent line terminals at the winding temperature. */
    readonly line: Figure<number>;
  };
  /** Metal of bars, connecting pieces and rings, kg. */
  readonly mass: Figure<number>;
  /** Of the path that carries most, A/m2 rms. */
  readonly currentDensity: Figure<number>;
  /** Of star and terminal rings, A/m2 rms; null where there are none. */
  readonly ringCurrentDensity: Figure<number> | null;
  readonly loss: CopperLossParts;
  /** AC over DC resistance. */
  readonly acRatio: {
    /** Mean over the slots, one a layer; null for a layer without bars. */
    readonly layers: Figure<readonly (number | null)[]>;
    /** Mean over all bars, slot part. */
    readonly slot: Figure<number>;
    /** Of whole bars, their ends without eddies. */
    readonly bar: Figure<number>;
    /** Of the bar with the largest, slot part. */
    readonly worst: Figure<number>;
    /** Mean over the bars of slots that are loaded alike. */
    readonly slotKinds: Figure<AcRatios['kinds']>;
    /** Bar height of least AC resistance, one a slot row. */
    readonly bestHeights: Figure<readonly BestHeight[]>;
  };
  readonly leakage: {
    /** Dimensionless, of one slot. */
    readonly slotPermeance: Figure<number>;
    /** Of a phase, H. */
    readonly slotInductance: Figure<number>;
    readonly pathImpedances: Figure<PathImpedances>;
  };
  readonly heat: {
    /** Of the hot spot over the ends, K. */
    readonly rise: Figure<number>;
    /** degC. */
    readonly hotSpot: Figure<number>;
    /** Where along the bar it is hottest. */
    readonly place: Figure<BarHeatFigures['place']>;
    /** Of the heat, that leaves by the ends. */
    readonly endShare: Figure<number>;
    /** Of the heat, that leaves to the core. */
    readonly coreShare: Figure<number>;
    /** Of a core that the bars heat, degC; null where its temperature is held, or none is told. */
    readonly coreTemperature: Figure<number> | null;
    /** Along the hottest bar. */
    readonly profile: Figure<readonly HeatSample[]>;
    /** Layer of the hottest bar, from 0. */
    readonly layer: Figure<number>;
  };
  readonly cage: {
    /** Nm/rad. */
    readonly stiffness: Figure<number>;
    /** Nm/rad, of straight clamped bars. */
    readonly straight: Figure<number>;
    /** Along a bar, Pa. */
    readonly stress: Figure<number>;
    /** At the ends of a bar, Pa. */
    readonly bending: Figure<number>;
  };
  /** Loss of the fundamental current, W, for the motor constant. */
  readonly fundamentalLoss: Figure<number>;
}

/**
 * The copper of a winding: section, lengths, resistance, AC loss, leakage, heat and stiffness. User
 * text never throws: what it does not give is missing; what cannot be built, `problemsOfCopper` tells.
 */
export function copper(input: CopperInput, parts: CopperParts = copperParts(input)): CopperResult {
  const figures = copperFigures(input, parts);
  const { lengths, resistance20, ratios, heat, cage, cageStresses } = figures;
  return {
    section: { barArea: figures.areas, slotFill: figures.fill, spareRoom: figures.spareRoom },
    length: {
      bars: partOf(lengths, ({ mean }) => mean),
      total: partOf(lengths, ({ total }) => total),
      overhangConnection: partOf(lengths, ({ overhang }) => overhang.connection),
      overhangFar: partOf(lengths, ({ overhang }) => overhang.far),
      byPlace: partOf(lengths, ({ byPlace }) => byPlace),
      active: figures.active,
      pieces: partOf(lengths, ({ pieces }) => pieces),
    },
    radii: figures.radii,
    resistance: {
      path20: partOf(resistance20, ({ path }) => path),
      phase20: partOf(resistance20, ({ phase }) => phase),
      phase: partOf(figures.resistance, ({ phase }) => phase),
      line: figures.lineResistance,
    },
    mass: figures.mass,
    currentDensity: figures.currentDensity,
    ringCurrentDensity: figures.ringCurrentDensity,
    loss: {
      dc: figures.dcLoss,
      ac: figures.acLoss,
      harmonics: figures.harmonicLoss,
      barField: figures.fieldLoss,
      total: figures.totalLoss,
    },
    acRatio: {
      layers: partOf(ratios, ({ layers }) => layers),
      slot: partOf(ratios, ({ slot }) => slot),
      bar: figures.barRatio,
      worst: partOf(ratios, ({ worst }) => worst),
      slotKinds: partOf(ratios, ({ kinds }) => kinds),
      bestHeights: figures.bestHeights,
    },
    leakage: {
      slotPermeance: figures.permeance,
      slotInductance: partOf(figures.leakage, ({ inductance }) => inductance),
      pathImpedances: figures.impedances,
    },
    heat: {
      rise: partOf(heat, ({ rise }) => rise),
      hotSpot: partOf(heat, ({ hotSpot }) => hotSpot),
      place: partOf(heat, ({ place }) => place),
      endShare: partOf(heat, ({ endShare }) => endShare),
      coreShare: partOf(heat, ({ coreShare }) => coreShare),
      coreTemperature: heatsCore(input.specification) ? coreTemperature(heat) : null,
      profile: partOf(heat, ({ profile }) => profile()),
      layer: partOf(heat, ({ layer }) => layer),
    },
    cage: {
      stiffness: figures.cageStiffness,
      straight: partOf(cage, ({ straight }) => straight),
      stress: partOf(cageStresses, ({ axial }) => axial),
      bending: partOf(cageStresses, ({ bending }) => bending),
    },
    fundamentalLoss: fundamentalLoss(figures),
  };
}

/** Of a core that follows the bars. */
function coreTemperature(heat: Figure<BarHeatFigures>): Figure<number> {
  return deriveFigure({ heat }, (given) =>
    given.heat.core === null ? undetermined('it is held') : known(given.heat.core),
  );
}

/** One of the values that were computed together. */
function partOf<T, U>(figure: Figure<T>, part: (value: T) => U): Figure<U> {
  return figure.known ? { ...figure, value: part(figure.value) } : figure;
}
