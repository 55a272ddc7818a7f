import { significant } from '../../../core/language/numbers.ts';
import type { ShownVariant, ShownVariants } from '../../protocol/shownVariants.ts';
import type { VariantsWords } from '../../protocol/variantsWords.ts';
import { columnTitle, type Look } from './look.ts';

/** A column of the table. */
export interface TableColumn {
  readonly title: string;
  /** The name by which the table is sorted by it; null where it is not. */
  readonly sorts: string | null;
  readonly text: (row: ShownVariant) => string;
}

/** The columns behind the candidate's number: values and figures that are not hidden, limits, front. */
export function tableColumns(
  { question, own, standing }: ShownVariants,
  { hidden, differences }: Look,
  words: VariantsWords,
): readonly TableColumn[] {
  if (question === null) return [];
  const asDifference = (row: ShownVariant, index: number, unit: string) =>
    row.number > 0 ? differenceText(row.amounts[index], own?.amounts[index], unit) : null;
  const columns = question.columns.map((column, index) => ({
    title: columnTitle(column),
    sorts: column.name,
    text: (row: ShownVariant) =>
      (differences && column.kind === 'figure' ? asDifference(row, index, column.unit) : null) ??
      row.texts[index] ??
      '',
  }));
  const limits = { title: words.limits, sorts: null, text: (row: ShownVariant) => row.limits };
  const front = {
    title: words.front,
    sorts: null,
    text: (row: ShownVariant) => (row.front ? '\u25C6' : ''),
  };
  return [
    ...columns.filter(({ sorts }) => !hidden.includes(sorts)),
    ...(question.limits.length > 0 && !hidden.includes('limits') ? [limits] : []),
    ...(standing.front === null ? [] : [front]),
  ];
}

/** The rows in the order of a column: numbers by size, words by letter, what is missing last. */
export function sortedVariants(
  { question, rows }: Pick<ShownVariants, 'question' | 'rows'>,
  order: Look['order'],
): readonly ShownVariant[] {
  if (order === null || question === null) return rows;
  const index = question.columns.findIndex(({ name }) => name === order.column);
  const amount = (row: ShownVariant) => (order.column === '' ? row.number : (row.amounts[index] ?? null));
  const way = order.backwards ? -1 : 1;
  if (index < 0 && order.column !== '') return rows;
  return [...rows].sort((a, b) => {
    const [x, y] = [amount(a), amount(b)];
    if (x !== null && y !== null) return way * (x - y);
    if (x !== null || y !== null) return x === null ? 1 : -1;
    const [left, right] = [a.texts[index] ?? '', b.texts[index] ?? ''];
    return way * (left < right ? -1 : left > right ? 1 : 0);
  });
}

/** How a figure differs from that of the text: `+1.25 W`; null where one of them is missing. */
export function differenceText(
  amount: number | null | undefined,
  own: number | null | undefined,
  unit: string,
): string | null {
  if (amount == null || own == null) return null;
  const difference = amount - own;
  const size = Math.abs(difference);
  if (size <= 1e-6 * Math.max(Math.abs(amount), Math.abs(own))) return '\u00B10';
  const number = significant(size, 3);
  return `${difference > 0 ? '+' : '\u2212'}${number}${unit === '' ? '' : ` ${unit}`}`;
}
