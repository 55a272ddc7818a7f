import { type FigurePath, figureRegister, isFigurePath } from './register.ts';

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

/**
 * The values of figures in groups as the report has them: that of a missing figure is null, and where there is none of
 * a figure at all, null stays.
 */
export type ValuesOf<T> =
  T extends KnownFigure<infer Value>
    ? Value
    : T extends MissingFigure
      ? null
      : T extends object
        ? { readonly [K in keyof T]: ValuesOf<T[K]> }
        : T;

/** Takes the values out of figures in groups and lists. */
export function valuesOf<T>(group: T): ValuesOf<T> {
  return plainValues(group) as ValuesOf<T>;
}

function plainValues(node: unknown): unknown {
  if (node === null || typeof node !== 'object') return node;
  if (isFigure(node)) return orNull(node);
  if (Array.isArray(node)) return node.map(plainValues);
  return Object.fromEntries(Object.entries(node).map(([name, each]) => [name, plainValues(each)]));
}

function isFigure(node: object): node is Figure<unknown> {
  return 'known' in node && typeof node.known === 'boolean';
}

/** The figure at a place within groups of figures; undefined where there is none. */
export function figureAt(group: object, path: readonly string[]): Figure<unknown> | undefined {
  let found: unknown = group;
  for (const name of path) found = (found as Readonly<Record<string, unknown>> | null | undefined)?.[name];
  return typeof found === 'object' && found !== null && isFigure(found) ? found : undefined;
}

/** All figures of a part of the report that the register names, by their places, in the order of the part. */
export function figuresByPath(
  part: string,
  group: object,
): Readonly<Partial<Record<FigurePath, Figure<unknown>>>> {
  const found: Partial<Record<FigurePath, Figure<unknown>>> = {};
  for (const [name, each] of Object.entries(group)) {
    const path = `${part}.${name}`;
    if (each === null || typeof each !== 'object') continue;
    if (!isFigure(each)) Object.assign(found, figuresByPath(path, each));
    else if (isFigurePath(path)) found[path] = each;
  }
  return found;
}

/** What a part of the report lacks and rests on. */
export function sortedPart(part: string, group: object): Sorted {
  return sortFigures(figuresByPath(part, group));
}

/** A quantity that could not be computed, with the statements that would supply it. */
export interface MissingQuantity {
  /** Where the report holds it: `copper.resistance.phase`. */
  readonly quantity: string;
  readonly needs: readonly string[];
}

/** How a figure is computed: its place in the report, its SI unit, the model in one line, and after whom. */
export interface ModelLine {
  readonly quantity: FigurePath;
  readonly unit: string;
  readonly line: string;
  readonly source: string;
}

/** A list of figures by report name, sorted into values, what is missing, assumptions and models. */
export interface Sorted {
  readonly missing: readonly MissingQuantity[];
  readonly assumptions: readonly string[];
  readonly models: readonly ModelLine[];
}

/**
 * Sorts figures, keyed by their place in the report, into what is missing and what the known ones rest
 * on. Only models of known figures are listed; each must have one in the register (else RangeError).
 */
export function sortFigures(figures: Readonly<Partial<Record<FigurePath, Figure<unknown>>>>): Sorted {
  const assumptions = new Set<string>();
  const missingQuantities: MissingQuantity[] = [];
  const used: ModelLine[] = [];
  for (const [path, figure] of Object.entries(figures) as [FigurePath, Figure<unknown>][]) {
    if (!figure.known) {
      missingQuantities.push({ quantity: path, needs: figure.needs });
      continue;
    }
    used.push(modelLine(path));
    for (const line of figure.assumptions) assumptions.add(line);
  }
  return { missing: missingQuantities, assumptions: [...assumptions], models: used };
}

/** The model of a figure; RangeError where the register has none. */
export function modelLine(quantity: FigurePath): ModelLine {
  const { unit, model: line, source } = figureRegister[quantity];
  if (line === undefined || source === undefined)
    throw new RangeError(`the register names no model for ${quantity}`);
  return { quantity, unit, line, source };
}
