/** The column a table is sorted by, from 0. */
export interface Order {
  readonly column: number;
  readonly backwards: boolean;
}

type Rows = readonly (readonly string[])[];

/**
 * The rows in order of a column: numbers by size, positions such as `7b` by slot, then layer, words by
 * letter, empty cells last. Equal rows keep their order; without an order, all do.
 */
export function sortedRows(rows: Rows, order: Order | null): Rows {
  if (order === null) return rows;
  const { column, backwards } = order;
  const way = backwards ? -1 : 1;
  return [...rows].sort((one, other) => {
    const [a, b] = [one[column] ?? '', other[column] ?? ''];
    if (a === '' || b === '') return Number(a === '') - Number(b === '');
    return way * compareCells(a, b);
  });
}

const leadingNumber = /^[+-]?\d+(?:\.\d+)?/;

function compareCells(a: string, b: string): number {
  const [left, right] = [leadingNumber.exec(a)?.[0], leadingNumber.exec(b)?.[0]];
  if (left !== undefined && right !== undefined) {
    const difference = Number(left) - Number(right);
    if (difference !== 0) return difference;
    return compareText(a.slice(left.length), b.slice(right.length));
  }
  if (left !== undefined || right !== undefined) return left === undefined ? 1 : -1;
  return compareText(a, b);
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
