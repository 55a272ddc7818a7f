import type { CheckedText } from '../../../core/findings/checkedText.ts';
import type { Range } from '../../../core/language/finding.ts';
import type { Statement, Value } from '../../../core/language/text/document.ts';
import { type Bar, barName } from '../../../core/winding/model.ts';
import { barNamed, connectionOf } from '../barUse.ts';
import { marksAt, placeOf, placeText, stepText } from '../marks.ts';
import { allStatements, holds, leaves, statementAt, valueAt } from './leaves.ts';

/** Something of the winding that the text names, with the stretch that names it here. */
export type Named =
  | { readonly kind: 'phase'; readonly name: string; readonly range: Range }
  | { readonly kind: 'path'; readonly phase: string; readonly number: number; readonly range: Range }
  /** The bars of a step or of a place of a row. */
  | {
      readonly kind: 'bars';
      readonly bars: readonly Bar[];
      readonly written: 'step' | 'place';
      readonly range: Range;
    }
  | { readonly kind: 'point'; readonly name: string; readonly range: Range }
  /** A limit, by its index. */
  | { readonly kind: 'limit'; readonly index: number; readonly range: Range }
  /** Any other statement. */
  | { readonly kind: 'statement'; readonly statement: Statement; readonly range: Range };

/** A place of the text that has to do with something named. */
export interface Place {
  readonly range: Range;
  /** It is where the thing comes from, else where it is used. */
  readonly defines: boolean;
}

/** What the text names at an offset; null in comments, blanks and words that name nothing. */
export function namedAt(study: CheckedText, offset: number): Named | null {
  const { block, statement } = statementAt(study.document, offset);
  if (block === null || statement === null) return null;
  const value = valueAt(statement, offset);
  return value === null ? wordAt(study, statement, offset) : valueNamed(study, statement, value, offset);
}

function wordAt(study: CheckedText, statement: Statement, offset: number): Named | null {
  const { word, entry } = statement;
  if (!holds(word, offset)) return null;
  const range = { start: word.start, end: word.end };
  if (entry.word === 'path') return pathOf(statement, range);
  const index = study.limits.findIndex((limit) => limit.range.start === statement.range.start);
  return index >= 0 ? { kind: 'limit', index, range } : { kind: 'statement', statement, range };
}

function valueNamed(study: CheckedText, statement: Statement, value: Value, offset: number): Named | null {
  const range = value.range;
  switch (value.kind) {
    case 'mark':
      return markNamed(study, value.text, value.role, range);
    case 'row':
    case 'walk':
      return barsAt(study, value, offset);
    case 'text': {
      const isPoint = statement.entry.word === 'point' || statement.entry.role === 'quantity';
      return isPoint ? { kind: 'point', name: value.text, range } : null;
    }
    default:
      if (statement.entry.word === 'path' && value.kind === 'quantity') return pathOf(statement, range);
      return wordAt(study, statement, statement.word.start);
  }
}

function pathOf(statement: Statement, range: Range): Named | null {
  const [phase, number] = statement.values;
  return phase?.kind === 'mark' && number?.kind === 'quantity'
    ? { kind: 'path', phase: phase.text, number: number.value, range }
    : null;
}

/** The phase that a mark names: `U`, and the terminal `U1` of it. */
function markNamed(
  study: CheckedText,
  text: string,
  role: 'phase' | 'terminal' | 'sheet-size',
  range: Range,
): Named | null {
  const name = role === 'terminal' ? text.slice(0, -1) : text;
  const known = study.winding?.phases.names.includes(name) ?? /[A-Z]$/.test(name);
  if (role === 'sheet-size' || !known) return null;
  return { kind: 'phase', name, range: role === 'terminal' ? { ...range, end: range.end - 1 } : range };
}

function barsAt(
  study: CheckedText,
  value: Extract<Value, { readonly kind: 'row' | 'walk' }>,
  offset: number,
): Named | null {
  const items = value.kind === 'row' ? leaves(value.places) : leaves(value.steps);
  const leaf = items.find(({ range }) => holds(range, offset));
  const winding = study.winding;
  if (!leaf || !winding) return null;
  const bars = marksAt(study, offset).bars.flatMap((name) => barNamed(winding, name) ?? []);
  if (bars.length === 0) return null;
  return { kind: 'bars', bars, written: value.kind === 'row' ? 'place' : 'step', range: leaf.range };
}

/** Every place of the text that has to do with it, in text order. A limit's are not among them: they take studies. */
export function placesOf(study: CheckedText, named: Named): readonly Place[] {
  switch (named.kind) {
    case 'phase':
      return phasePlaces(study, named.name);
    case 'path':
      return pathPlaces(study, named.phase, named.number);
    case 'bars':
      return barPlaces(study, named.bars);
    case 'point':
      return pointPlaces(study, named.name);
    default:
      return [{ range: named.range, defines: true }];
  }
}

/** Where a phase's name stands: in rows, paths, copies and terminals. */
export function phaseNames({ document }: CheckedText, name: string): readonly Range[] {
  return allStatements(document).flatMap(({ values }) =>
    values.flatMap((value): readonly Range[] => {
      if (value.kind === 'row')
        return leaves(value.places).flatMap(({ phase, range }) =>
          phase === name ? [{ start: range.end - name.length, end: range.end }] : [],
        );
      if (value.kind !== 'mark' || value.role === 'sheet-size') return [];
      const text = value.role === 'terminal' ? value.text.slice(0, -1) : value.text;
      return text === name ? [{ start: value.range.start, end: value.range.start + name.length }] : [];
    }),
  );
}

function phasePlaces(study: CheckedText, name: string): readonly Place[] {
  const phases = study.specification.machine?.phases;
  const own = phases ? [{ range: phases.statement, defines: true }] : [];
  return [...own, ...phaseNames(study, name).map((range) => ({ range, defines: false }))];
}

function pathPlaces({ specification }: CheckedText, phase: string, number: number): readonly Place[] {
  const { paths = [], copies = [] } = specification.connect ?? {};
  const own = paths.filter(({ value }) => value.phase.value === phase && value.number.value === number);
  return [
    ...own.map(({ statement, value }) => ({
      range: { start: statement.start, end: value.number.range.end },
      defines: true,
    })),
    ...copies
      .filter(({ value }) => value.phase.value === phase)
      .map(({ statement }) => ({ range: statement, defines: false })),
  ];
}

function barPlaces(study: CheckedText, bars: readonly Bar[]): readonly Place[] {
  const places = bars.flatMap((bar) => {
    const row = placeOf(study, bar);
    const step = stepText(study, bar);
    return [
      ...(row ? [{ range: row, defines: true }] : []),
      ...(step ? [{ range: step, defines: false }] : []),
    ];
  });
  const known = new Set<string>();
  return places
    .filter(({ range }) => {
      const key = `${range.start} ${range.end}`;
      return known.has(key) ? false : known.add(key);
    })
    .sort((a, b) => a.range.start - b.range.start);
}

function pointPlaces({ document, specification }: CheckedText, name: string): readonly Place[] {
  const defines = (specification.duty?.points ?? []).filter(({ value }) => value.name === name);
  return allStatements(document).flatMap(({ values, range, entry }) =>
    values
      .filter((value) => value.kind === 'text' && value.text === name)
      .filter(() => entry.word === 'point' || entry.role === 'quantity')
      .map((value) => ({
        range: value.range,
        defines: defines.some(({ statement }) => statement.start === range.start),
      })),
  );
}

/** Where it comes from: a step's place in its row, a row's place in its path, a phase's statement. */
export function definitionsOf(study: CheckedText, named: Named): readonly Range[] {
  if (named.kind === 'phase') return phaseDefinitions(study, named);
  const places = placesOf(study, named);
  if (named.kind === 'bars') {
    const wanted = named.written === 'step';
    const found = places.filter(({ defines }) => defines === wanted).map(({ range }) => range);
    return found.length > 0 ? found : fallback(study, wanted);
  }
  return places.filter(({ defines }) => defines).map(({ range }) => range);
}

/** The statement that makes a place of no row, or a path that is not written. */
function fallback({ specification }: CheckedText, isStep: boolean): readonly Range[] {
  const { layout, connect } = specification;
  const statement = isStep
    ? (layout?.span ?? layout?.layers)?.statement
    : (connect?.route ?? connect?.connections[0])?.statement;
  return statement ? [statement] : [];
}

/** In a copy or path the written paths of the phase, elsewhere the statement that names the phases. */
function phaseDefinitions(study: CheckedText, named: Extract<Named, { kind: 'phase' }>): readonly Range[] {
  const { connect, machine } = study.specification;
  const inCopy = connect?.copies.some(({ statement }) => holds(statement, named.range.start));
  const paths = (connect?.paths ?? []).filter(({ value }) => value.phase.value === named.name);
  if (inCopy && paths.length > 0) return paths.map(({ statement }) => statement);
  return machine?.phases ? [machine.phases.statement] : [];
}

/** The bars of a path that the text names, as they stand in rows: they light with it. */
export function placesOfPath(study: CheckedText, phase: string, number: number): readonly Range[] {
  const names = study.winding?.phases.names ?? [];
  const path = connectionOf(study)?.paths.find((one) => names[one.phase] === phase && one.number === number);
  const rows = new Map<string, Range>();
  for (const bar of path?.bars ?? []) {
    const range = placeText(study, bar);
    if (range) rows.set(barName(bar), range);
  }
  return [...rows.values()];
}
