import { type Figure, type MissingQuantity, type ModelLine, orNull, sortFigures } from '../figures/figure.ts';
import type { FigurePath } from '../figures/register.ts';
import type { SpareRoom } from '../sizes/fit.ts';
import type { PieceLength } from '../space/lengths.ts';
import type { BestHeight } from './acLoss/bestHeight.ts';
import { type CopperFigures, type CopperParts, copperFigures, copperParts } from './copperFigures.ts';
import { type CopperLossParts, fundamentalLoss } from './copperLosses.ts';
import type { CopperInput } from './geometryFigures.ts';
import type { HeatSample } from './heat/chainHotSpot.ts';
import { heatsCore } from './heat/hottestBar.ts';
import type { PathImpedances } from './pathImpedances.ts';

/**
 * Everything about the copper. SI units, ratios as fractions, temperatures in degC; null where data
 * lack, with an entry under `missing`. Rms currents, balanced.
 */
export interface CopperResult {
  readonly section: {
    /** One a layer, m2. */
    readonly barArea: readonly number[] | null;
    readonly slotFill: number | null;
    /** Room left beside the bars of each slot row, m; empty where it cannot be told. */
    readonly spareRoom: readonly SpareRoom[];
  };
  readonly length: {
    /** Mean whole bar, m. */
    readonly bars: number | null;
    /** All bars and connecting pieces, m. */
    readonly total: number | null;
    /** How far the tallest bar end stands out of the stack, m. */
    readonly overhangConnection: number | null;
    readonly overhangFar: number | null;
    /** Whole bars by place as in the slot table's `cells`; NaN for empty places. */
    readonly byPlace: Float64Array | null;
    /** Within the stack, one a layer. */
    readonly active: readonly number[] | null;
    readonly pieces: readonly PieceLength[];
  };
  /** Mean radius of each layer's bars, m. */
  readonly radii: readonly number[] | null;
  readonly resistance: {
    readonly path20: number | null;
    readonly phase20: number | null;
    readonly phase: number | null;
    readonly line: number | null;
  };
  readonly mass: number | null;
  readonly currentDensity: number | null;
  /** Of star and terminal rings; null where there are none. */
  readonly ringCurrentDensity: number | null;
  readonly loss: CopperLossParts;
  readonly acRatio: {
    /** Mean over the slots, one a layer; null for a layer without bars. */
    readonly layers: readonly (number | null)[] | null;
    readonly slot: number | null;
    readonly bar: number | null;
    readonly worst: number | null;
    /** Mean over the bars of slots that are loaded alike. */
    readonly slotKinds: readonly { readonly slots: readonly number[]; readonly ratio: number }[];
    /** Bar height of least AC resistance, one a slot row. */
    readonly bestHeights: readonly BestHeight[];
  };
  readonly leakage: {
    readonly slotPermeance: number | null;
    readonly slotInductance: number | null;
    readonly pathImpedances: PathImpedances | null;
  };
  readonly heat: {
    readonly rise: number | null;
    readonly hotSpot: number | null;
    readonly place: 'slot' | 'overhang' | null;
    readonly endShare: number | null;
    readonly coreShare: number | null;
    /** Of a core that the bars heat; null where it is held too. */
    readonly coreTemperature: number | null;
    /** Along the hottest bar; empty where it cannot be told. */
    readonly profile: readonly HeatSample[];
    /** Layer of the hottest bar, from 0. */
    readonly layer: number | null;
  };
  readonly cage: {
    readonly stiffness: number | null;
    readonly straight: number | null;
    readonly stress: number | null;
    readonly bending: number | null;
  };
  /** Loss of the fundamental current, for the motor constant. */
  readonly fundamentalLoss: Figure<number>;
  readonly missing: readonly MissingQuantity[];
  readonly assumptions: readonly string[];
  readonly models: readonly ModelLine[];
}

/**
 * The copper of a winding: section, lengths, resistance, AC loss, leakage, heat and stiffness. User
 * text never throws: what it does not give is missing; what cannot be built, `problemsOfCopper` tells.
 */
export function copper(input: CopperInput, parts: CopperParts = copperParts(input)): CopperResult {
  const figures = copperFigures(input, parts);
  const lengths = orNull(figures.lengths);
  const at20 = orNull(figures.resistance20);
  const ratios = orNull(figures.ratios);
  const heat = orNull(figures.heat);
  const cage = orNull(figures.cage);
  const stresses = orNull(figures.cageStresses);
  const leakage = orNull(figures.leakage);
  return {
    section: {
      barArea: orNull(figures.areas),
      slotFill: orNull(figures.fill),
      spareRoom: orNull(figures.spareRoom) ?? [],
    },
    length: {
      bars: lengths?.mean ?? null,
      total: lengths?.total ?? null,
      overhangConnection: lengths?.overhang.connection ?? null,
      overhangFar: lengths?.overhang.far ?? null,
      byPlace: lengths?.byPlace ?? null,
      active: orNull(figures.active),
      pieces: lengths?.pieces ?? [],
    },
    radii: orNull(figures.radii),
    resistance: {
      path20: at20?.path ?? null,
      phase20: at20?.phase ?? null,
      phase: orNull(figures.resistance)?.phase ?? null,
      line: orNull(figures.lineResistance),
    },
    mass: orNull(figures.mass),
    currentDensity: orNull(figures.currentDensity),
    ringCurrentDensity: figures.ringCurrentDensity && orNull(figures.ringCurrentDensity),
    loss: {
      dc: orNull(figures.dcLoss),
      ac: orNull(figures.acLoss),
      harmonics: figures.harmonicLoss && orNull(figures.harmonicLoss),
      barField: figures.fieldLoss && orNull(figures.fieldLoss),
      total: orNull(figures.totalLoss),
    },
    acRatio: {
      layers: ratios?.layers ?? null,
      slot: ratios?.slot ?? null,
      bar: orNull(figures.barRatio),
      worst: ratios?.worst ?? null,
      slotKinds: ratios?.kinds ?? [],
      bestHeights: orNull(figures.bestHeights) ?? [],
    },
    leakage: {
      slotPermeance: orNull(figures.permeance),
      slotInductance: leakage?.inductance ?? null,
      pathImpedances: orNull(figures.impedances),
    },
    heat: {
      rise: heat?.rise ?? null,
      hotSpot: heat?.hotSpot ?? null,
      place: heat?.place ?? null,
      endShare: heat?.endShare ?? null,
      coreShare: heat?.coreShare ?? null,
      coreTemperature: heat?.core ?? null,
      profile: heat?.profile() ?? [],
      layer: heat?.layer ?? null,
    },
    cage: {
      stiffness: orNull(figures.cageStiffness),
      straight: cage?.straight ?? null,
      stress: stresses?.axial ?? null,
      bending: stresses?.bending ?? null,
    },
    fundamentalLoss: fundamentalLoss(figures),
    ...sortFigures({
      ...byReportName(figures),
      ...(heatsCore(input.specification) ? { 'copper.heat.coreTemperature': figures.heat } : {}),
    }),
  };
}

/** Each figure under its place in the report. */
function byReportName(figures: CopperFigures): Partial<Record<FigurePath, Figure<unknown>>> {
  return {
    'copper.section.barArea': figures.areas,
    'copper.section.slotFill': figures.fill,
    'copper.section.spareRoom': figures.spareRoom,
    'copper.length.bars': figures.lengths,
    'copper.length.total': figures.lengths,
    'copper.length.overhangConnection': figures.lengths,
    'copper.length.overhangFar': figures.lengths,
    'copper.resistance.path20': figures.resistance20,
    'copper.resistance.phase20': figures.resistance20,
    'copper.resistance.phase': figures.resistance,
    'copper.resistance.line': figures.lineResistance,
    'copper.mass': figures.mass,
    'copper.currentDensity': figures.currentDensity,
    ...(figures.ringCurrentDensity ? { 'copper.ringCurrentDensity': figures.ringCurrentDensity } : {}),
    'copper.loss.dc': figures.dcLoss,
    'copper.loss.ac': figures.acLoss,
    ...(figures.harmonicLoss ? { 'copper.loss.harmonics': figures.harmonicLoss } : {}),
    ...(figures.fieldLoss ? { 'copper.loss.barField': figures.fieldLoss } : {}),
    'copper.loss.total': figures.totalLoss,
    'copper.acRatio.layers': figures.ratios,
    'copper.acRatio.slot': figures.ratios,
    'copper.acRatio.bar': figures.barRatio,
    'copper.acRatio.worst': figures.ratios,
    'copper.acRatio.bestHeights': figures.bestHeights,
    'copper.leakage.slotPermeance': figures.permeance,
    'copper.leakage.slotInductance': figures.leakage,
    'copper.leakage.pathImpedances': figures.impedances,
    'copper.heat.rise': figures.heat,
    'copper.heat.hotSpot': figures.heat,
    'copper.heat.endShare': figures.heat,
    'copper.heat.coreShare': figures.heat,
    'copper.cage.stiffness': figures.cageStiffness,
    'copper.cage.straight': figures.cage,
    'copper.cage.stress': figures.cageStresses,
    'copper.cage.bending': figures.cageStresses,
  };
}
