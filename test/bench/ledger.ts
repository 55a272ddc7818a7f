/**
 * What a figure is: ratios, sizes and counts hold on any machine, so that missing one is a failure; a time is
 * only told, because it is the machine's as much as ours.
 */
export type FigureKind = 'time' | 'ratio' | 'size' | 'count';

/** One measured figure against its budget. */
export interface Figure {
  readonly what: string;
  readonly kind: FigureKind;
  /** In milliseconds, times, kilobytes or pieces; null where it could not be measured. */
  readonly value: number | null;
  /** The most that is allowed; null where there is no budget. */
  readonly budget: number | null;
  readonly note?: string;
}

const unit: Readonly<Record<FigureKind, string>> = { time: ' ms', ratio: ' x', size: ' kB', count: '' };

function shown(kind: FigureKind, value: number): string {
  const digits = kind === 'time' && value < 0.1 ? 4 : value < 10 ? 2 : 0;
  return `${value.toFixed(kind === 'count' ? 0 : digits)}${unit[kind]}`;
}

/** Whether a figure keeps its budget; null where there is none. What could not be measured does not keep it. */
export function within({ value, budget }: Figure): boolean | null {
  return budget === null ? null : value !== null && value <= budget;
}

/** A figure as a line: name, value, budget, verdict. */
export function figureLine(figure: Figure): string {
  const { what, kind, value, budget, note = '' } = figure;
  const kept = within(figure);
  const verdict = kept === null ? '' : kept ? 'within' : 'OVER';
  const most = budget === null ? '' : `<= ${shown(kind, budget)}`;
  const found = value === null ? 'not measured' : shown(kind, value);
  return `${what.padEnd(58)} ${found.padStart(12)}   ${most.padEnd(12)} ${verdict.padEnd(7)} ${note}`.trimEnd();
}

/** The figures that make the run fail: ratios, sizes and counts over their budgets. */
export function missed(figures: readonly Figure[]): readonly Figure[] {
  return figures.filter((figure) => figure.kind !== 'time' && within(figure) === false);
}

/** The last lines of a run: what was missed, or that nothing was. */
export function verdict(figures: readonly Figure[]): string {
  const over = missed(figures);
  const slow = figures.filter((figure) => figure.kind === 'time' && within(figure) === false).length;
  const times =
    slow === 0 ? '' : ` ${slow} ${slow === 1 ? 'time is' : 'times are'} over, on this machine, now.`;
  if (over.length === 0) return `All ratios, sizes and counts are within their budgets.${times}`;
  return `Missed:\n${over.map((figure) => `  ${figure.what.trim()}`).join('\n')}\n${times.trim()}`.trimEnd();
}
