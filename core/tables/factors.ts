import type { FactorRow } from '../analysis/factors/factors.ts';
import type { Facts } from '../facts/facts.ts';
import type { Column } from './column.ts';

/** The factors of an order, of one phase or of all that are alike. */
export interface PhaseFactorRow extends FactorRow {
  /** Name of the phase, or `all`. */
  readonly phase: string;
  /** The order over the pole pairs. The harmonic of the report is text: a spreadsheet would take `7/5` for a date. */
  readonly multiple: number;
}

/** The factors that a row holds, by name. */
const factorMeanings = {
  distribution: 'Distribution factor, within the layers.',
  pitch: 'Pitch factor, between the layers.',
  skew: 'Skew factor.',
  winding: 'Winding factor, the product of these.',
} as const;

function factorColumn(name: keyof typeof factorMeanings): Column<PhaseFactorRow> {
  return {
    heading: name,
    meaning: factorMeanings[name],
    unit: 'factor',
    align: 'right',
    value: (row) => row[name],
  };
}

export const factorColumns: readonly Column<PhaseFactorRow>[] = [
  {
    heading: 'phase',
    meaning: 'Name of the phase; all where the phases have the same factors.',
    value: ({ phase }) => phase,
  },
  { heading: 'order', meaning: 'Pole pairs round the bore.', align: 'right', value: ({ order }) => order },
  {
    heading: 'harmonic',
    meaning: 'Order over the pole pairs of the machine.',
    value: ({ multiple }) => multiple,
  },
  factorColumn('distribution'),
  factorColumn('pitch'),
  factorColumn('skew'),
  factorColumn('winding'),
  {
    heading: 'coil pitch',
    meaning: 'Pitch factor of the coil span alone; empty where there is no one span.',
    unit: 'factor',
    value: ({ coilPitch }) => coilPitch ?? null,
  },
];

/** Every order that a report lists, phase by phase where they differ. */
export function factorTableRows(facts: Facts): readonly PhaseFactorRow[] {
  const { orders, winding } = facts;
  const byPhase = facts.factorRowsByPhase(orders);
  const rowsOf = (phase: string, rows: readonly FactorRow[]) =>
    rows.map((row): PhaseFactorRow => ({ ...row, phase, multiple: row.order / winding.polePairs }));
  return byPhase
    ? byPhase.flatMap((rows, phase) => rowsOf(winding.phases.names[phase]!, rows))
    : rowsOf('all', facts.factorRows(orders));
}
