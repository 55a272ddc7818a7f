import type { ShownQuestion, ShownVariants, VariantColumn } from '../../protocol/shownVariants.ts';

/** How the reader sees the variants; columns by their names. */
export interface Look {
  readonly across: string;
  readonly upwards: string;
  readonly hidden: readonly string[];
  /** The column that the table is sorted by; null for the order of the question. */
  readonly order: { readonly column: string; readonly backwards: boolean } | null;
  /** Figures as their differences from those of the text. */
  readonly differences: boolean;
}

/** What the reader sees of the variants: besides the look, the candidate looked at (0 for none) and those beside. */
export interface Seen {
  readonly look: Look;
  readonly current: number;
  readonly beside: readonly number[];
}

/** A part of the page that shows variants. */
export interface VariantsPart {
  readonly element: HTMLElement;
  readonly show: (variants: ShownVariants, seen: Seen) => void;
}

const firstLook: Look = { across: '', upwards: '', hidden: [], order: null, differences: false };

/** The look if the value is one that was saved, else that at first. */
export function readLook(value: unknown): Look {
  if (typeof value !== 'object' || value === null) return firstLook;
  const { across, upwards, hidden, order, differences } = value as Partial<Record<keyof Look, unknown>>;
  const sorted = order as Partial<Record<'column' | 'backwards', unknown>> | null | undefined;
  return {
    across: typeof across === 'string' ? across : '',
    upwards: typeof upwards === 'string' ? upwards : '',
    hidden: Array.isArray(hidden) ? hidden.filter((each) => typeof each === 'string') : [],
    order:
      typeof sorted?.column === 'string'
        ? { column: sorted.column, backwards: sorted.backwards === true }
        : null,
    differences: differences === true,
  };
}

/**
 * The columns that the axes show, by index: those chosen, else what ranks first, else the first figures, of which
 * those that some candidate has a number in come first.
 */
export function axesOf(
  { columns }: ShownQuestion,
  { across, upwards }: Look,
  { rows }: Pick<ShownVariants, 'rows'>,
): { readonly x: number; readonly y: number } {
  const named = (name: string) => columns.findIndex((column) => column.name === name);
  const ranked = columns.flatMap(({ better }, index) => (better === null ? [] : [index]));
  const figures = columns.flatMap(({ kind }, index) => (kind === 'figure' ? [index] : []));
  const values = columns.flatMap(({ kind }, index) => (kind === 'value' ? [index] : []));
  const told = (index: number) => rows.some(({ amounts }) => (amounts[index] ?? null) !== null);
  const all = [...new Set([...ranked, ...figures, ...values])];
  const usual = [...all.filter(told), ...all.filter((index) => !told(index))];
  const x = named(across) >= 0 ? named(across) : (usual[0] ?? 0);
  const y = named(upwards) >= 0 ? named(upwards) : (usual.find((index) => index !== x) ?? x);
  return { x, y };
}

/** A column's name with its unit. */
export function columnTitle({ name, unit }: VariantColumn): string {
  return unit === '' ? name : `${name}, ${unit}`;
}
