import { waveFacts } from '../facts/waveFacts.ts';
import { type TableFacts, tableFacts, windingFacts } from '../facts/windingFacts.ts';
import type { Finding } from '../language/finding.ts';
import type { RequiredLimit, Specification } from '../language/specification/specification.ts';
import { type DerivedWinding, deriveWinding } from '../winding/derive.ts';
import type { LayoutRefusal } from '../winding/generate.ts';
import { layoutRefused } from '../winding/layoutFindingKinds.ts';
import type { SlotTable, Winding } from '../winding/model.ts';
import type { Builder } from './build.ts';
import type { Candidates } from './candidates.ts';
import { keepingAtMost } from './keeping.ts';
import { keptLimits, meets } from './limits.ts';
import { openingFigure, reachOf, windingFigure } from './measures.ts';
import type { Question } from './question.ts';
import { leftOut, refused, type Verdict } from './verdict.ts';

/** A candidate's layout, which candidates that differ in sizes alone share. */
export interface Layout {
  /** Where slot table and lean decide; null where more is to be looked at. */
  readonly verdict: Verdict | null;
  readonly winding: Winding | null;
  /** As written. */
  readonly paths: DerivedWinding['paths'];
  /** Of each measure that follows from slot table and lean its value, null where missing; undefined of others. */
  readonly figures: readonly (number | null | undefined)[];
}

/** Layouts and facts of tables kept, so that what is equal is computed once. */
const mostLayouts = 4096;
const mostTables = 1024;

/** Judges candidates by their layouts alone, as far as these decide. */
export function layoutJudge(
  question: Question,
  candidates: Candidates,
  build: Builder,
): (number: number) => Layout {
  const make = layoutMaker(question, build);
  const keep = keepingAtMost<number, Layout>(candidates.layoutsDiffer ? 1 : mostLayouts);
  return (number) =>
    keep(candidates.layoutNumber(number), () => {
      const values = candidates.values(number);
      return typeof values === 'string' ? without(refused(values)) : make(candidates.layoutSettings(values));
    });
}

function without(verdict: Verdict): Layout {
  return { verdict, winding: null, paths: null, figures: [] };
}

/** Makes the layouts that settings give, with facts of slot tables shared. */
function layoutMaker(question: Question, build: Builder): (settings: Parameters<Builder>[0]) => Layout {
  const { measures } = question;
  const limits = keptLimits(question);
  const ofLayout = limits.filter((limit) => reachOf(limit) === 'layout');
  const decides = [...measures, ...limits].every((measure) => reachOf(measure) === 'layout');
  const shared = tableStore();
  return (settings) => {
    const specification = build(settings);
    const { winding, paths, findings } = deriveWinding(specification);
    const error = findings.find(({ severity }) => severity === 'error');
    if (error || !winding) return without(refused(error ? reasonOf(error) : 'no-winding'));
    const facts = windingFacts(winding, shared(winding));
    if (!facts.balance().balanced) return without(refused('phases-unbalanced'));
    if (!ofLayout.every((limit) => meets(limit, windingFigure(limit, winding, facts))))
      return { verdict: leftOut, winding, paths, figures: [] };
    const figures = measures.map((measure) =>
      reachOf(measure) === 'layout' ? windingFigure(measure, winding, facts) : undefined,
    );
    const verdict: Verdict | null = decides
      ? { kind: 'kept', figures: figures as readonly (number | null)[] }
      : null;
    return { verdict, winding, paths, figures };
  };
}

/** Why the language refuses a candidate: the code of the finding, and for layouts what kind of refusal. */
function reasonOf({ code, data }: Finding): string {
  return code === layoutRefused.code ? `${code}: ${(data as LayoutRefusal).kind}` : code;
}

/** Facts of slot tables, those of equal tables once. */
function tableStore(): (winding: Winding) => TableFacts {
  const keep = keepingAtMost<string, TableFacts>(mostTables);
  return (winding) => keep(tableKey(winding), () => tableFacts(winding));
}

/** All that facts of slot tables follow from, as one text; the cells of a generated table follow from how it is laid. */
function tableKey({ slots, polePairs, phases, layers, parallelPaths, table, origin }: Winding): string {
  const laid =
    origin.kind === 'generated'
      ? `${origin.span} ${origin.stagger} ${origin.belt}`
      : `${origin.kind} ${cellsText(table)}`;
  return `${slots} ${polePairs} ${phases.axes.join()} ${layers} ${parallelPaths} ${laid}`;
}

/** Most characters made at once. */
const mostCharacters = 4096;

/** The cells of a table, a character each. */
function cellsText({ cells }: SlotTable): string {
  let text = '';
  for (let at = 0; at < cells.length; at += mostCharacters)
    text += String.fromCharCode(...cells.subarray(at, at + mostCharacters));
  return text;
}

/** Judges a candidate by its layout and the openings of its slots, where no measure asks for more. */
export function judgeOpenings(
  { measures }: Question,
  limits: readonly RequiredLimit[],
  specification: Specification,
  { winding, figures }: Layout & { readonly winding: Winding },
): Verdict {
  const waves = waveFacts(specification, winding, windingFacts(winding));
  const met = (limit: RequiredLimit) =>
    reachOf(limit) !== 'opening' || meets(limit, openingFigure(limit, winding, waves));
  if (!limits.every(met)) return leftOut;
  return {
    kind: 'kept',
    figures: measures.map((measure, at) => {
      const known = figures[at];
      return known === undefined ? openingFigure(measure, winding, waves) : known;
    }),
  };
}
