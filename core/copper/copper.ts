import { deriveFigure, type Figure, known, undetermined } from '../figures/figure.ts';
import { lazy, withLate } from '../figures/lazy.ts';
import { type SpareRoom, slotFill, spareRoom } from '../sizes/fit.ts';
import type { PieceLength } from '../space/lengths.ts';
import type { AcRatios } from './acLoss/acLoss.ts';
import { type BestHeight, bestHeights } from './acLoss/bestHeight.ts';
import { cageFigures } from './cage/cageFigures.ts';
import { type CopperParts, copperParts, permeanceFigure } from './copperFigures.ts';
import { type CopperLossParts, fundamentalLoss } from './copperLosses.ts';
import { type CopperInput, lineFigure } from './geometryFigures.ts';
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
    /** Between adjacent line terminals at 20 degC. */
    readonly line20: Figure<number>;
    /** The same at the winding temperature. */
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
  const { specification, winding } = input;
  const { basis, leakage, impedances, losses } = parts;
  const { geometry, operation } = basis;
  const { lengths, resistance20 } = geometry;
  const { ratios, weights, frequency, resistivity } = operation;
  const { heat } = losses;
  // Nothing else rests on these: they are computed when they are asked for.
  const section = lazy(() => ({
    barArea: geometry.areas,
    slotFill: slotFill(specification, winding, geometry.areas),
    spareRoom: spareRoom(specification, winding),
  }));
  const heights = lazy(() => bestHeights(specification, winding, { weights, frequency, resistivity }));
  const ofSlots = lazy(() => ({
    slotPermeance: permeanceFigure(input, leakage()),
    slotInductance: partOf(leakage(), ({ inductance }) => inductance),
    pathImpedances: impedances(),
  }));
  const cage = lazy(() => {
    const figures = cageFigures(input, geometry);
    return {
      stiffness: figures.cageStiffness,
      straight: partOf(figures.cage, ({ straight }) => straight),
      stress: partOf(figures.cageStresses, ({ axial }) => axial),
      bending: partOf(figures.cageStresses, ({ bending }) => bending),
    };
  });
  const figures = {
    section: null,
    length: {
      bars: partOf(lengths, ({ mean }) => mean),
      total: partOf(lengths, ({ total }) => total),
      overhangConnection: partOf(lengths, ({ overhang }) => overhang.connection),
      overhangFar: partOf(lengths, ({ overhang }) => overhang.far),
      byPlace: partOf(lengths, ({ byPlace }) => byPlace),
      active: geometry.active,
      pieces: partOf(lengths, ({ pieces }) => pieces),
    },
    radii: geometry.radii,
    resistance: {
      path20: partOf(resistance20, ({ path }) => path),
      phase20: partOf(resistance20, ({ phase }) => phase),
      phase: partOf(operation.resistance, ({ phase }) => phase),
      line20: lineFigure(input, resistance20),
      line: lineFigure(input, operation.resistance),
    },
    mass: geometry.mass,
    currentDensity: losses.currentDensity,
    ringCurrentDensity: losses.ringCurrentDensity,
    loss: {
      dc: losses.dcLoss,
      ac: losses.acLoss,
      harmonics: losses.harmonicLoss,
      barField: losses.fieldLoss,
      total: losses.totalLoss,
    },
    acRatio: withLate(
      {
        layers: partOf(ratios, ({ layers }) => layers),
        slot: partOf(ratios, ({ slot }) => slot),
        bar: operation.barRatio,
        worst: partOf(ratios, ({ worst }) => worst),
        slotKinds: partOf(ratios, ({ kinds }) => kinds),
        bestHeights: null,
      },
      { bestHeights: heights },
    ),
    leakage: null,
    heat: withLate(
      {
        rise: partOf(heat, ({ rise }) => rise),
        hotSpot: partOf(heat, ({ hotSpot }) => hotSpot),
        place: partOf(heat, ({ place }) => place),
        endShare: partOf(heat, ({ endShare }) => endShare),
        coreShare: partOf(heat, ({ coreShare }) => coreShare),
        coreTemperature: heatsCore(specification) ? coreTemperature(heat) : null,
        profile: null,
        layer: partOf(heat, ({ layer }) => layer),
      },
      { profile: () => partOf(heat, ({ profile }) => profile()) },
    ),
    cage: null,
    fundamentalLoss: fundamentalLoss(losses),
  };
  return withLate(figures, { section, leakage: ofSlots, cage });
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
