// Figures in groups, as the parts of the report have them: their values, what is missing for them and what they rest
// on. It reads the register, with its lines on models and sources, which no keystroke needs.

import { type Figure, isFigure, type KnownFigure, type MissingFigure, orNull } from './figure.ts';
import { type FigurePath, figureRegister, isFigurePath } from './register.ts';

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
