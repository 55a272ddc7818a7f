import { type LeanTradeRow, leanConcerns } from '../copper/leanTrade.ts';
import type { PathImpedances } from '../copper/pathImpedances.ts';
import type { Facts } from '../facts/facts.ts';
import { orNull } from '../figures/figure.ts';
import { modelLine, type ValuesOf, valuesOf } from '../figures/groups.ts';
import type { FigurePath } from '../figures/register.ts';
import { layerLetter } from '../language/layerLetters.ts';
import type { DutyResult } from '../operation/duty.ts';
import { machineParts } from './machineParts.ts';
import type { Report } from './schema.ts';

/** EMF, torque and inductances; null where nothing of it can be computed. */
export function reportedEmf(facts: Facts): Report['emf'] {
  const result = facts.emf();
  const { harmonics, gaps, lineVoltages, ...figures } = valuesOf(result);
  if (Object.values(figures).every((value) => value === null) && gaps === null) return null;
  return {
    ...figures,
    lineVoltages: (lineVoltages ?? []).map((line) => ({ ...line })),
    gaps: (gaps ?? []).map((gap) => ({ ...gap })),
    harmonics: harmonics
      ? {
          phaseVoltage: harmonics.phaseVoltage,
          lineVoltage: harmonics.lineVoltage,
          orders: harmonics.orders.map((order) => ({ ...order })),
        }
      : null,
  };
}

/** The rated load point; null where nothing of it can be computed. */
export function reportedOperation(facts: Facts): Report['operation'] {
  const { inductance, ...figures } = valuesOf(facts.operation());
  const values = [...Object.values(figures), ...Object.values(inductance)];
  if (values.every((value) => value === null)) return null;
  const { baseSpeed, topSpeed } = figures;
  return {
    inductance: { ...inductance },
    ...figures,
    baseSpeed: finite(baseSpeed),
    topSpeed: finite(topSpeed),
    topSpeedUnlimited: topSpeed === Number.POSITIVE_INFINITY,
    curve: facts.torqueSpeedCurve().map((point) => ({ ...point })),
  };
}

/** The duty cycle; null where the text has none. */
export function reportedDuty(facts: Facts): Report['duty'] {
  const result = facts.duty();
  if (result === null) return null;
  return {
    points: valuesOf(result.points).map((point) => ({ ...point, loss: { ...point.loss } })),
    cycle: reportedCycle(facts, result),
  };
}

/** Sums of the duty's cycle, with its highest temperatures. */
export function reportedCycle(facts: Facts, { cycle }: DutyResult): NonNullable<Report['duty']>['cycle'] {
  const heat = facts.dutyCycleHeat();
  const found = heat?.known ? heat.value : null;
  return {
    ...valuesOf(cycle),
    hotSpot: found?.hotSpot ?? null,
    coreTemperature: found?.core?.highest ?? null,
  };
}

/** Flux densities of the iron; null where none can be computed. */
export function reportedIron(facts: Facts): Report['iron'] {
  const { tooth, yoke } = valuesOf(facts.iron());
  if (tooth.noLoad === null && !yoke?.noLoad) return null;
  return { tooth: { ...tooth }, yoke: yoke ? { ...yoke } : { noLoad: null, load: null } };
}

/** JSON knows no infinity. */
export function finite(value: number | null): number | null {
  return value !== null && Number.isFinite(value) ? value : null;
}

/** Everything about the copper; null where nothing of it can be computed. */
export function reportedCopper(facts: Facts): Report['copper'] {
  const result = valuesOf(facts.copper());
  const { section, length, resistance, loss, acRatio, leakage, heat, cage } = result;
  const leadFigures = [
    section.barArea,
    section.slotFill,
    length.bars,
    resistance.path20,
    result.currentDensity,
    acRatio.slot,
    leakage.slotPermeance,
    cage.stiffness,
  ];
  if (leadFigures.every((value) => value === null)) return null;
  return {
    section: {
      barArea: copied(section.barArea),
      slotFill: section.slotFill,
      spareRoom: (section.spareRoom ?? []).map((room) => ({ ...room, layers: room.layers.map(layerLetter) })),
    },
    length: {
      bars: length.bars,
      total: length.total,
      overhangConnection: length.overhangConnection,
      overhangFar: length.overhangFar,
      pieces: (length.pieces ?? []).map(({ joint, length: size }) => ({ joint, length: size })),
    },
    resistance: { ...resistance },
    mass: result.mass,
    currentDensity: result.currentDensity,
    ringCurrentDensity: result.ringCurrentDensity,
    loss: { ...loss },
    acRatio: {
      layers: copied(acRatio.layers),
      slot: acRatio.slot,
      bar: acRatio.bar,
      worst: acRatio.worst,
      slotKinds: (acRatio.slotKinds ?? []).map(({ slots, ratio }) => ({ slots: [...slots], ratio })),
      bestHeights: (acRatio.bestHeights ?? []).map(({ layers, height, ratio, room }) => ({
        layers: layers.map(layerLetter),
        height,
        ratio,
        room,
      })),
    },
    leakage: {
      slotPermeance: leakage.slotPermeance,
      slotInductance: leakage.slotInductance,
      pathImpedances: reportedImpedances(facts, leakage.pathImpedances),
    },
    heat: {
      rise: heat.rise,
      hotSpot: heat.hotSpot,
      place: heat.place,
      endShare: heat.endShare,
      coreShare: heat.coreShare,
      coreTemperature: heat.coreTemperature,
      profile: (heat.profile ?? []).map(({ position, temperature }) => ({ distance: position, temperature })),
    },
    cage: { ...cage, leanTrade: leanTradeOf(facts).map((row) => ({ ...row })) },
  };
}

function reportedImpedances(
  { winding }: Facts,
  impedances: PathImpedances | null,
): NonNullable<Report['copper']>['leakage']['pathImpedances'] {
  return (
    impedances && {
      frequency: impedances.frequency,
      paths: impedances.paths.map(({ phase, number, resistance, selfInductance }) => ({
        phase: winding.phases.names[phase]!,
        path: number,
        resistance,
        selfInductance,
      })),
    }
  );
}

/** What lean gives and costs, for windings whose bars lean or could. */
export function leanTradeOf(facts: Facts): readonly ValuesOf<LeanTradeRow>[] {
  return leanConcerns(facts.winding, facts.specification) ? valuesOf(facts.copperCurves().leanTrade) : [];
}

function copied<T>(values: readonly T[] | null): T[] | null {
  return values === null ? null : [...values];
}

/** How each figure of the report is computed, for those that are known. */
export function reportedModels(facts: Facts): Report['models'] {
  const parts = machineParts(facts);
  const absent = new Set(parts.flatMap(({ missing }) => missing).map(({ quantity }) => quantity));
  const ofPaths = pathFigures(facts).flatMap(({ path, value }) => (value === null ? [] : [modelLine(path)]));
  return [...parts.flatMap(({ models }) => models), ...ofPaths]
    .filter(({ quantity }) => !absent.has(quantity))
    .map((model) => ({ ...model }));
}

/** What parallel paths carry beside equal shares; empty where each phase has one path. */
export function pathFigures(
  facts: Facts,
): readonly { readonly path: FigurePath; readonly value: number | null }[] {
  if (facts.winding.parallelPaths === 1) return [];
  return [
    { path: 'balance.circulatingCurrent', value: orNull(facts.circulatingCurrent()) },
    { path: 'balance.pathCurrentDeviation', value: orNull(facts.currentDeviation()) },
  ];
}
