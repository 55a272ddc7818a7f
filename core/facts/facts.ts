import { differentialLeakage } from '../analysis/differentialLeakage.ts';
import {
  defaultOrders,
  type FactorRow,
  factorRow,
  factorRows,
  factorSpectrum,
  meanSquareFactor,
} from '../analysis/factors/factors.ts';
import { factorRowsByPhase } from '../analysis/factors/phaseFactors.ts';
import { type GapOpening, gapOpenings } from '../analysis/gap/gapOpenings.ts';
import { phaseCurrent } from '../analysis/machineInputs.ts';
import { type Mmf, type MmfConditions, type MmfWave, mmf, wavesOfOrder } from '../analysis/mmf.ts';
import { type NoiseOrder, noiseOrders } from '../analysis/noise.ts';
import { type PhaseBalance, phaseBalance } from '../analysis/phaseBalance.ts';
import { tableRotation } from '../analysis/rotation.ts';
import { type SymmetryFigures, symmetryFigures } from '../analysis/symmetry.ts';
import { type Figure, orNull } from '../figures/figure.ts';
import { kept, type Measurer, measureNow } from '../figures/work.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { Winding } from '../winding/model.ts';
import type { ConnectionFacts, ConnectionState } from './connection.ts';
import { figuresKey, finishedPaths, joinedKey, keptOnceMeasured, tableKey } from './kept.ts';
import { lazy } from './lazy.ts';
import { type MachineFacts, type MachineProblems, machineFacts } from './machineFacts.ts';

/** All that is computed about one winding, each part when first asked for. */
export interface Facts extends Figures, MachineProblems {
  readonly specification: Specification;
  readonly winding: Winding;
  readonly connection: ConnectionState;
  /** The facts of the same winding with its bars joined so. */
  readonly connectedBy: (connection: ConnectionFacts) => Facts;
  /** A drawing of slot table and paths, kept while both stay; `key` is all else that it depends on. */
  readonly drawn: <T>(key: string, draw: () => T) => T;
}

/** What follows from what a text says, wherever it says it. */
interface Figures extends MachineFacts {
  readonly symmetry: () => SymmetryFigures;
  readonly balance: () => PhaseBalance;
  /** Orders a report lists unless told otherwise. */
  readonly orders: number;
  /** Of the first phase, at a mechanical order. */
  readonly factorRow: (order: number) => FactorRow;
  /** Of the first phase, orders 1 to so many. */
  readonly factorRows: (orders: number) => readonly FactorRow[];
  /** Of all phases; null where they are alike. */
  readonly factorRowsByPhase: (orders: number) => readonly (readonly FactorRow[])[] | null;
  /** Rms current of a phase in amperes. */
  readonly phaseCurrent: Figure<number>;
  /** Waves at the gap (at the inner one of two), per ampere of phase current where it is not known. */
  readonly mmf: () => Mmf;
  /** The same up to any order. */
  readonly mmfUpTo: (orders: number) => Mmf;
  /** Waves at the outer of two gaps; null for machines with one gap. */
  readonly outerMmf: () => Mmf | null;
  /** Waves at the gap of one mechanical order. */
  readonly wavesOf: (order: number) => readonly MmfWave[];
  /** Relative to the magnetizing inductance, of point slots without skew; null without a working wave. */
  readonly differentialLeakage: () => number | null;
  readonly noise: () => readonly NoiseOrder[];
}

/** Facts about a winding; `specification` is what its text says, `connection` how its bars are joined. */
export function gatherFacts(
  specification: Specification,
  winding: Winding,
  connection: ConnectionState,
  measurer: Measurer = measureNow,
): Facts {
  const paths = finishedPaths(connection);
  const table = lazy(() => tableKey(winding));
  const make = (by: Measurer) => figuresOf(specification, winding, connection, by, table);
  const joined = lazy(() => table() + (paths === null ? '' : joinedKey(winding, paths)));
  const figures = paths
    ? keptOnceMeasured(measurer, () => joined() + figuresKey(specification), make)
    : make(measurer);
  return {
    ...figures,
    ...figures.problemsOf(specification),
    specification,
    winding,
    connection,
    connectedBy: (others) =>
      gatherFacts(specification, winding, { kind: 'connected', facts: others }, measurer),
    drawn: (key, draw) =>
      paths ? kept(measurer, { kind: 'layout', key: () => `${key} ${joined()}` }, draw) : draw(),
  };
}

/** What follows from the slot table alone. */
function tableFigures(winding: Winding) {
  const rotation = lazy(() => tableRotation(winding.table));
  return {
    rotation,
    spectrum: lazy(() => factorSpectrum(winding, 0, rotation())),
    leakage: lazy(() => differentialLeakage(winding)),
    symmetry: lazy(() => symmetryFigures(winding, rotation())),
    balance: lazy(() => phaseBalance(winding)),
  };
}

function figuresOf(
  specification: Specification,
  winding: Winding,
  connection: ConnectionState,
  measurer: Measurer,
  table: () => string,
): Figures {
  const orders = defaultOrders(winding);
  const { rotation, spectrum, leakage, symmetry, balance } = kept(
    measurer,
    { kind: 'slot-table', key: table },
    () => tableFigures(winding),
  );
  const current = phaseCurrent(specification, winding);
  const [first, second] = gapOpenings(specification);
  const conditions = (opening: Figure<GapOpening> | undefined): MmfConditions => ({
    current: orNull(current) ?? 1,
    rotation: rotation(),
    ...(opening?.known ? { opening: opening.value } : {}),
  });
  const waves = (count: number, opening: Figure<GapOpening> | undefined): Mmf =>
    mmf(winding, { ...conditions(opening), orders: count });
  const atGap = lazy(() => waves(orders, first));
  return {
    symmetry,
    balance,
    orders,
    factorRow: (order) => factorRow(winding, spectrum(), order),
    factorRows: (count) => factorRows(winding, count, spectrum()),
    factorRowsByPhase: (count) => factorRowsByPhase(winding, count),
    phaseCurrent: current,
    mmf: atGap,
    mmfUpTo: (count) => waves(count, first),
    outerMmf: lazy(() => (second ? waves(orders, second) : null)),
    wavesOf: (order) => wavesOfOrder(winding, order, conditions(first)),
    differentialLeakage: leakage,
    noise: lazy(() =>
      noiseOrders(
        atGap().waves,
        winding.polePairs,
        (specification.machine?.rotorField ?? []).map(({ value }) => value),
      ),
    ),
    ...machineFacts({
      specification,
      winding: connection.kind === 'refused' ? { ...winding, parallelPathsRefused: true } : winding,
      connection,
      windingFactor: (order) => factorRow(winding, spectrum(), order).winding,
      meanSquareFactor: lazy(() => meanSquareFactor(winding, spectrum(), winding.polePairs)),
      differentialLeakage: leakage,
      measurer,
    }),
  };
}
