import { differentialLeakage } from '../analysis/differentialLeakage.ts';
import {
  defaultOrders,
  type FactorRow,
  factorRow,
  factorRows,
  type GroupedSpectrum,
  groupedSpectrum,
  leanGroups,
  meanSquareFactor,
  spectrumOf,
} from '../analysis/factors/factors.ts';
import { factorRowsByPhase } from '../analysis/factors/phaseFactors.ts';
import { type PathLimits, pathLimits } from '../analysis/parallelPaths.ts';
import { type PhaseBalance, phaseBalance } from '../analysis/phaseBalance.ts';
import { type TableRotation, tableRotation } from '../analysis/rotation.ts';
import { type SymmetryFigures, symmetryFigures } from '../analysis/symmetry.ts';
import { lazy } from '../figures/lazy.ts';
import type { Winding } from '../winding/model.ts';
import { needsStrictBalance } from '../winding/strictBalance.ts';

/** What follows from the slot table, whatever leans: equal tables of equal origin share it. */
export interface TableFacts {
  readonly rotation: () => TableRotation;
  readonly balance: () => PhaseBalance;
  /** Relative to the magnetizing inductance, of point slots without skew; null without a working wave. */
  readonly differentialLeakage: () => number | null;
  /** `strict` as of `needsStrictBalance`, which goes by the lean too. */
  readonly pathLimits: (strict: boolean) => PathLimits;
  /** Factors of the first phase before skew, with its layers in groups, counted from 0. */
  readonly spectrum: (groupOfLayer: readonly number[], groups: number) => GroupedSpectrum;
}

/** What follows from a winding's slot table and lean, each part when first asked for. */
export interface WindingFacts extends Pick<TableFacts, 'rotation' | 'balance' | 'differentialLeakage'> {
  readonly symmetry: () => SymmetryFigures;
  /** Those of `symmetry`, without the rest of it. */
  readonly pathLimits: () => PathLimits;
  /** Mechanical orders, from 1, that a report lists unless told otherwise. */
  readonly orders: number;
  /** Of the first phase, at a mechanical order. */
  readonly factorRow: (order: number) => FactorRow;
  /** Of the first phase, orders 1 to so many. */
  readonly factorRows: (orders: number) => readonly FactorRow[];
  /** Of all phases; null where they are alike. */
  readonly factorRowsByPhase: (orders: number) => readonly (readonly FactorRow[])[] | null;
  /** Mean over the stack of the square of the fundamental's winding factor, without the skew of the rotor. */
  readonly meanSquareFactor: () => number;
}

/** The facts of a winding's slot table, each when first asked for. */
export function tableFacts(winding: Winding): TableFacts {
  const rotation = lazy(() => tableRotation(winding.table));
  const limits = new Map<boolean, PathLimits>();
  const spectra = new Map<string, GroupedSpectrum>();
  return {
    rotation,
    balance: lazy(() => phaseBalance(winding)),
    differentialLeakage: lazy(() => differentialLeakage(winding)),
    pathLimits: (strict) => held(limits, strict, () => pathLimits(winding, strict)),
    spectrum: (groupOfLayer, groups) =>
      held(spectra, groupOfLayer.join(), () =>
        groupedSpectrum(winding.table, 0, rotation(), groupOfLayer, groups),
      ),
  };
}

/** What a map holds under a key, made where it holds nothing. */
function held<Key, T>(map: Map<Key, T>, key: Key, make: () => T): T {
  const known = map.get(key);
  if (known !== undefined) return known;
  const made = make();
  map.set(key, made);
  return made;
}

/** The facts of a winding; `table` has those of its slot table, which other windings may share. */
export function windingFacts(winding: Winding, table: TableFacts = tableFacts(winding)): WindingFacts {
  const { rotation, balance, differentialLeakage: leakage } = table;
  const spectrum = lazy(() => {
    const { leans, groupOfLayer } = leanGroups(winding);
    return spectrumOf(table.spectrum(groupOfLayer, leans.length), leans);
  });
  const limits = lazy(() => table.pathLimits(needsStrictBalance(winding)));
  const rows = new Map<number, readonly FactorRow[]>();
  return {
    rotation,
    balance,
    differentialLeakage: leakage,
    symmetry: lazy(() => symmetryFigures(winding, rotation(), limits())),
    pathLimits: limits,
    orders: defaultOrders(winding),
    factorRow: (order) => factorRow(winding, spectrum(), order),
    factorRows: (count) => held(rows, count, () => factorRows(winding, count, spectrum())),
    factorRowsByPhase: (count) => factorRowsByPhase(winding, count),
    meanSquareFactor: lazy(() => meanSquareFactor(winding, spectrum(), winding.polePairs)),
  };
}
