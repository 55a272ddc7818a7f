/**
 * A number (or a set of numbers) that the text may or may not yield: either known, with the
 * assumptions that went into it, or missing, with the statements that would supply it.
 */
export type Figure<T> = KnownFigure<T> | MissingFigure;

export interface KnownFigure<T> {
  readonly known: true;
  readonly value: T;
  /** Defaults and model assumptions that the value rests on, in words. */
  readonly assumptions: readonly string[];
}

export interface MissingFigure {
  readonly known: false;
  /** The statements that would supply it, in words of the language: `machine flux`; empty where none would. */
  readonly needs: readonly string[];
  /** Why no statement would supply it, to stand behind `because`. */
  readonly reason?: string;
}

export function known<T>(value: T, ...assumptions: readonly string[]): KnownFigure<T> {
  return { known: true, value, assumptions };
}

export function missing(...needs: readonly string[]): MissingFigure {
  return { known: false, needs };
}

/** A figure that no statement would supply: `the winding makes no working wave`. */
export function undetermined(reason: string): MissingFigure {
  return { known: false, needs: [], reason };
}

/** A figure that is known where the value is neither undefined nor null. */
export function knownIf<T>(value: T | null | undefined, ...needs: readonly string[]): Figure<T> {
  return value === null || value === undefined ? missing(...needs) : known(value);
}

type Figures = Readonly<Record<string, Figure<unknown>>>;
/** The values of figures that are all known. */
export type Values<F extends Figures> = { readonly [K in keyof F]: F[K] extends Figure<infer T> ? T : never };

/**
 * What follows from other figures: known where all of them are, else missing with the needs of all
 * that are missing. Assumptions are passed on.
 */
export function derive<F extends Figures, T>(figures: F, compute: (values: Values<F>) => T): Figure<T> {
  const given = gather(figures);
  if (!given.known) return given;
  return { known: true, value: compute(given.value), assumptions: given.assumptions };
}

/** As `derive`, for a computation that may itself find something missing. */
export function deriveFigure<F extends Figures, T>(
  figures: F,
  compute: (values: Values<F>) => Figure<T>,
): Figure<T> {
  const given = gather(figures);
  if (!given.known) return given;
  const result = compute(given.value);
  if (!result.known) return result;
  return { known: true, value: result.value, assumptions: joined(given.assumptions, result.assumptions) };
}

/** The values of figures as one figure. */
function gather<F extends Figures>(figures: F): Figure<Values<F>> {
  const values: Record<string, unknown> = {};
  let assumptions = none;
  let needs = none;
  let absent: MissingFigure | null = null;
  for (const name in figures) {
    const figure: Figure<unknown> = figures[name]!;
    if (figure.known) {
      values[name] = figure.value;
      assumptions = joined(assumptions, figure.assumptions);
    } else {
      absent ??= figure;
      needs = joined(needs, figure.needs);
    }
  }
  if (absent) return needs.length > 0 ? { known: false, needs } : absent;
  return { known: true, value: values as Values<F>, assumptions };
}

const none: readonly string[] = [];

/** The lines of both lists, each once: one of the lists itself where the other adds nothing. */
function joined(list: readonly string[], more: readonly string[]): readonly string[] {
  if (more.length === 0 || list === more) return list;
  if (list.length === 0) return more;
  let all = list;
  // The lists are short, so looking is quicker than a set.
  for (const line of more) if (!all.includes(line)) all = [...all, line];
  return all;
}

/** All figures of a list, or what is missing for any of them. */
export function allOf<T>(figures: readonly Figure<T>[]): Figure<readonly T[]> {
  const values: T[] = [];
  let assumptions = none;
  let needs = none;
  let absent: MissingFigure | null = null;
  for (const figure of figures) {
    if (figure.known) {
      values.push(figure.value);
      assumptions = joined(assumptions, figure.assumptions);
    } else {
      absent ??= figure;
      needs = joined(needs, figure.needs);
    }
  }
  if (absent) return needs.length > 0 ? { known: false, needs } : absent;
  return { known: true, value: values, assumptions };
}

/** The figure with further assumptions beside it, where it is known. */
export function assuming<T>(figure: Figure<T>, ...lines: readonly string[]): Figure<T> {
  return figure.known ? { ...figure, assumptions: joined(figure.assumptions, lines) } : figure;
}

/** The value, or null where it is missing. */
export function orNull<T>(figure: Figure<T>): T | null {
  return figure.known ? figure.value : null;
}

/** Whether something within groups of figures is a figure. */
export function isFigure(node: object): node is Figure<unknown> {
  return 'known' in node && typeof node.known === 'boolean';
}

/** The figure at a place within groups of figures; undefined where there is none. */
export function figureAt(group: object, path: readonly string[]): Figure<unknown> | undefined {
  let found: unknown = group;
  for (const name of path) found = (found as Readonly<Record<string, unknown>> | null | undefined)?.[name];
  return typeof found === 'object' && found !== null && isFigure(found) ? found : undefined;
}
