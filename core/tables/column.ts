import type { Subject } from '../picture/picture.ts';

/** What stands in a cell: words, or a number in SI units; null where there is none or it is not known. */
export type Cell = string | number | null;

/**
 * What the numbers of a column are, where they are no plain numbers; each medium has its way of writing them.
 * length: m, shown in mm. meters: m, shown in m. slots: slots counted from one place to another, positive towards
 * higher numbers. sense: 1 where current is counted away from the connection side, -1 back; for people a sign. edeg:
 * electrical degrees. degrees: plain ones. factor: a ratio, -1 to 1. The others: SI, shown in the units of
 * `scaledUnits`.
 */
export type Unit =
  | 'length'
  | 'meters'
  | 'slots'
  | 'sense'
  | 'edeg'
  | 'degrees'
  | 'factor'
  | keyof typeof scaledUnits;

/** Units that headings tell, with the SI value of one. */
export const scaledUnits = {
  speed: { name: 'rpm', factor: 1 / 60 },
  frequency: { name: 'Hz', factor: 1 },
  torque: { name: 'Nm', factor: 1 },
  power: { name: 'W', factor: 1 },
  current: { name: 'A', factor: 1 },
  voltage: { name: 'V', factor: 1 },
  temperature: { name: '\u00b0C', factor: 1 },
  'temperature rate': { name: 'K/s', factor: 1 },
  duration: { name: 's', factor: 1 },
} as const;

/** The unit that a column's heading tells; undefined for others. */
export function scaledUnit({
  unit,
}: Pick<ColumnDescription, 'unit'>): { readonly name: string; readonly factor: number } | undefined {
  return unit !== undefined && Object.hasOwn(scaledUnits, unit)
    ? scaledUnits[unit as keyof typeof scaledUnits]
    : undefined;
}

/** What a column is called and holds. */
export interface ColumnDescription {
  /** As people read it; `headingOf` adds the unit of lengths. */
  readonly heading: string;
  /** What it stands for. */
  readonly meaning: string;
  readonly unit?: Unit;
}

/** One column of a table: described once, whether a CSV file, a sheet, the panel or the report shows it. */
export interface Column<Row> extends ColumnDescription {
  /** In print; left where it is not said. */
  readonly align?: 'right' | 'middle';
  readonly value: (row: Row) => Cell;
  /** What the cell names in a picture. */
  readonly subject?: (row: Row) => Subject;
}

/** A table whose cells have been made. */
export interface MadeTable {
  readonly columns: readonly ColumnDescription[];
  readonly cells: readonly (readonly Cell[])[];
}

/** Makes the cells of a table. */
export function madeTable<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): MadeTable {
  return { columns, cells: rows.map((row) => columns.map((column) => column.value(row))) };
}

/** A column's heading; lengths and scaled units say what they are shown in. */
export function headingOf(column: ColumnDescription): string {
  const { heading, unit } = column;
  const scaled = scaledUnit(column);
  if (scaled) return `${heading} ${scaled.name}`;
  if (unit === 'meters') return `${heading} m`;
  return unit === 'length' ? `${heading} mm` : heading;
}
