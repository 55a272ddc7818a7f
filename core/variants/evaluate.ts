import type { ConnectionState } from '../facts/connection.ts';
import { type Facts, gatherFacts } from '../facts/facts.ts';
import { limitMargin } from '../facts/limitMargin.ts';
import type { Whole } from '../facts/workFirst.ts';
import type { Steps } from '../figures/steps.ts';
import type { Measure, Specification } from '../language/specification/specification.ts';
import type { SeriesItem } from '../language/text/document.ts';
import { deriveWinding } from '../winding/derive.ts';
import type { Winding } from '../winding/model.ts';
import { type Builder, builder } from './build.ts';
import { type Candidates, candidatesOf } from './candidates.ts';
import { type Holding, holding } from './hold.ts';
import { judgeOpenings, type Layout, layoutJudge } from './layouts.ts';
import { keptLimits, meets } from './limits.ts';
import { figureOf, reachOf, reasonMissing } from './measures.ts';
import type { Setting } from './places.ts';
import { measureName, type Question } from './question.ts';
import { leftOut, type Verdict } from './verdict.ts';
import { isWhole, wholeMaker } from './wholes.ts';

/** Judges the candidates of a question by the study's own functions. */
export interface Evaluator {
  readonly question: Question;
  readonly holding: Holding;
  /** The file itself makes a winding, from which to count. */
  readonly hasBase: boolean;
  /** Whether whole studies are made, with paths, of candidates that their layout does not leave out. */
  readonly wholeAsked: boolean;
  /** What tells the layouts of candidates apart: candidates of one key are in one shard. */
  readonly layoutKey: (number: number) => string;
  /** By the layout alone; null where the whole winding decides. */
  readonly byLayout: (number: number) => Verdict | null;
  /** By the whole winding; gives way while paths are being found. */
  readonly byWhole: (number: number) => Steps<Verdict>;
  /** All values a candidate's text has in place of those of the file: of its rows, and what follows. */
  readonly settings: (number: number) => readonly Setting[] | null;
  /** The values of its rows, resolved: `layout span 5`; null where it is refused before it has any. */
  readonly values: (number: number) => readonly SeriesItem[] | null;
  /** What is known of a candidate before its bars are joined; null where it makes no winding. */
  readonly layoutFacts: (number: number) => Facts | null;
  /** How each limit of the require block stands, null where it is not known; and why figures are missing. */
  readonly look: (number: number) => Steps<Looked>;
}

/** What is told of a row beside its figures. */
export interface Looked {
  readonly limits: readonly (boolean | null)[];
  readonly missing: Readonly<Record<string, string>>;
}

const unjoined: ConnectionState = { kind: 'none', why: 'not-said' };

/** The evaluator of a question without errors. */
export function evaluator(question: Question): Evaluator {
  const { document, specification: base, measures } = question;
  const build = builder(document, base);
  const { winding: baseWinding } = deriveWinding(base);
  const held = holding(question, baseWinding ? { specification: base, winding: baseWinding } : null, build);
  const candidates = candidatesOf(question);
  const layoutAt = layoutJudge(question, candidates, build);
  const limits = keptLimits(question);
  const wholeAsked = [...measures, ...limits].some((measure) => reachOf(measure) === 'whole');
  const texts = textMaker(candidates, held, build);
  const makeWhole = wholeMaker();
  function* wholeOf(number: number): Steps<Whole | Verdict> {
    const { verdict, winding, paths } = layoutAt(number);
    if (!winding) return verdict!;
    return yield* makeWhole({ specification: texts.specification(number, winding), winding, paths });
  }
  return {
    question,
    holding: held,
    hasBase: baseWinding !== null,
    wholeAsked,
    layoutKey: candidates.layoutKey,
    byLayout: (number) => {
      const layout = layoutAt(number);
      const { verdict, winding } = layout;
      if (verdict !== null || wholeAsked || !winding) return verdict;
      return judgeOpenings(question, limits, texts.specification(number, winding), { ...layout, winding });
    },
    *byWhole(number) {
      const whole = yield* wholeOf(number);
      return isWhole(whole) ? yield* judgeWhole(question, whole, layoutAt(number)) : whole;
    },
    settings: (number) => {
      const { winding } = layoutAt(number);
      return winding && texts.settings(number, winding);
    },
    values: (number) => {
      const values = candidates.values(number);
      return typeof values === 'string' ? null : values;
    },
    layoutFacts: (number) => {
      const { winding } = layoutAt(number);
      return winding && gatherFacts(texts.specification(number, winding), winding, unjoined);
    },
    *look(number) {
      const whole = yield* wholeOf(number);
      const required = base.limits.map(() => null);
      return isWhole(whole) ? yield* lookAt(question, whole) : { limits: required, missing: {} };
    },
  };
}

/** The whole texts of candidates that make a winding: with the values of their rows, and what follows from them. */
interface Texts {
  readonly settings: (number: number, winding: Winding) => readonly Setting[];
  readonly specification: (number: number, winding: Winding) => Specification;
}

function textMaker(candidates: Candidates, { follow }: Holding, build: Builder): Texts {
  const made = (number: number, winding: Winding) => {
    const settings = candidates.settings(candidates.values(number) as readonly SeriesItem[]);
    const specification = build(settings);
    return { settings, specification, follows: follow(settings, specification, winding) };
  };
  return {
    settings: (number, winding) => {
      const { settings, follows } = made(number, winding);
      return [...settings, ...follows];
    },
    specification: (number, winding) => {
      const { settings, specification, follows } = made(number, winding);
      return follows.length === 0 ? specification : build([...settings, ...follows]);
    },
  };
}

/** Judges a candidate by its whole study; what its layout says is not asked again. */
function* judgeWhole(question: Question, whole: Whole, layout: Layout): Steps<Verdict> {
  for (const limit of keptLimits(question)) {
    if (reachOf(limit) === 'layout') continue;
    if (!meets(limit, yield* whole.read((facts) => figureOf(limit, facts)))) return leftOut;
    yield;
  }
  const figures: (number | null)[] = [];
  for (const [at, measure] of question.measures.entries()) {
    const known = layout.figures[at];
    figures.push(known === undefined ? yield* whole.read((facts) => figureOf(measure, facts)) : known);
    yield;
  }
  return { kind: 'kept', figures };
}

const inSpace: ReadonlySet<string> = new Set(['end-clearance-left', 'end-inductance']);

/** How the limits of the file stand to a whole study, and why its figures are missing. */
function* lookAt({ specification, keeps, measures }: Question, whole: Whole): Steps<Looked> {
  const limits: (boolean | null)[] = [];
  for (const { value: limit } of specification.limits) {
    // What takes bars against bars in space is looked at only where it is to be kept.
    const skipped = inSpace.has(limit.entry.word) && !keeps.includes(null);
    const value = skipped ? null : yield* whole.read((facts) => figureOf(limit, facts));
    limits.push(value === null ? null : limitMargin(limit, value) >= 0);
    yield;
  }
  return { limits, missing: yield* missingOf(measures, whole) };
}

function* missingOf(measures: readonly Measure[], whole: Whole): Steps<Readonly<Record<string, string>>> {
  const missing: Record<string, string> = {};
  for (const measure of measures) {
    const reason = yield* whole.read((facts) => reasonMissing(measure, facts));
    if (reason !== null) missing[measureName(measure)] = reason;
  }
  return missing;
}
