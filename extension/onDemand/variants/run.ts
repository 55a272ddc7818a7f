import { CancellationError } from 'vscode';
import { symmetryFigures } from '../../../core/analysis/symmetry.ts';
import { collectionFor } from '../../../core/variants/answer.ts';
import { takeOverEdits } from '../../../core/variants/chosen.ts';
import type { Collection, Kept } from '../../../core/variants/collect.ts';
import { type Evaluator, evaluator } from '../../../core/variants/evaluate.ts';
import { explore } from '../../../core/variants/explore.ts';
import { judged, ownEvaluator } from '../../../core/variants/own.ts';
import { editedText } from '../../../core/variants/places.ts';
import type { Question } from '../../../core/variants/question.ts';
import { reasonText } from '../../../core/variants/words.ts';
import type {
  BesideVariant,
  ShownQuestion,
  ShownVariant,
  ShownVariants,
  VariantStanding,
} from '../../protocol/shownVariants.ts';
import { l10n } from '../../wording.ts';
import { createPause } from '../inSlices.ts';
import { ownVariant, shownAmounts, shownLayout, shownQuestion, shownVariant, shownWaves } from './shown.ts';

/** Rows beside the front, and most rows in all. */
export const mostBest = 200;
export const mostRows = 400;
/** Most of the others, which are points of the chart alone. */
export const mostOthers = 500;
/** Rows, the first in the order, of which the limits are looked at when all are judged. */
const mostLooked = 50;
/** Milliseconds between two looks at a run under way. */
const shownEvery = 250;

/** A question of one text, being judged or judged. */
export interface VariantRun {
  readonly judge: Evaluator;
  readonly text: string;
  readonly shown: () => ShownVariants;
  /**
   * The candidate whose values a text has; 0 for the text of the question, and null for another one, for which
   * what is shown does not hold.
   */
  readonly numberIn: (text: string) => number | null;
  /** The text with a candidate's values in place; null where it makes no winding. */
  readonly takenOver: (number: number) => string | null;
  readonly setBeside: (numbers: readonly number[]) => void;
  readonly cancel: () => void;
  /** Ends all work, whatever is still to come. */
  readonly end: () => void;
  /** Resolves when all that it does by itself is done. */
  readonly done: Promise<void>;
}

/**
 * Judges the candidates of a question in slices between the turns of the editor. `changed` is called when there
 * is more to show: a few times a second, however many candidates are judged.
 */
export function startRun(question: Question, changed: () => void): VariantRun {
  const judge = evaluator(question);
  const collected = collectionFor(question, mostBest);
  const asked = shownQuestion(question, judge);
  const cancel = { isCancellationRequested: false };
  const ended = { isCancellationRequested: false };
  const others = createSample(mostOthers);
  const texts = new Map<number, string | null>();
  const limits = new Map<number, readonly (boolean | null)[]>();
  const beside = new Map<number, BesideVariant>();
  const rows = new Map<number, ShownVariant>();
  let own: ShownVariant | null = null;
  let status: VariantStanding['status'] = 'running';
  let trouble = '';
  let chosen: readonly number[] = [];
  let shown: ShownVariants | null = null;

  const tell = () => {
    shown = null;
    changed();
  };
  const takenOver = (number: number): string | null => {
    if (!texts.has(number)) {
      const edits = takeOverEdits(judge, number);
      texts.set(number, edits && editedText(question.text, edits));
    }
    return texts.get(number) ?? null;
  };
  const wordsOf = (number: number): string => {
    // Where limits are kept, all that is kept meets all of them.
    const found = question.keeps.includes(null) ? asked.limits.map(() => true) : limits.get(number);
    return found === undefined || asked.limits.length === 0 ? '' : metWords(found);
  };
  const rowOf = (candidate: Kept, front: boolean): ShownVariant => {
    const words = wordsOf(candidate.number);
    const known = rows.get(candidate.number);
    if (known && known.front === front && known.limits === words) return known;
    const made = known ? { ...known, front, limits: words } : shownVariant(judge, candidate, front, words);
    rows.set(candidate.number, made);
    return made;
  };
  const listed = (): readonly ShownVariant[] => {
    const front = collected.front() ?? [];
    const inFront = new Set(front.map(({ number }) => number));
    const best = collected.best();
    const has = new Set(best.map(({ number }) => number));
    const behind = front.filter(({ number }) => !has.has(number));
    const all = [...best, ...behind].slice(0, mostRows);
    // What is not listed any more is forgotten.
    const kept = new Set(all.map(({ number }) => number));
    for (const number of rows.keys()) if (!kept.has(number)) rows.delete(number);
    return all.map((candidate) => rowOf(candidate, inFront.has(candidate.number)));
  };

  /** Does work in slices; false where it was given up. */
  const inTurns = async <Result>(
    steps: Generator<undefined, Result>,
    token: { readonly isCancellationRequested: boolean },
    between: () => void = () => undefined,
  ): Promise<Result | null> => {
    const pause = createPause({
      get isCancellationRequested() {
        return token.isCancellationRequested || ended.isCancellationRequested;
      },
    });
    try {
      for (;;) {
        const step = steps.next();
        if (step.done) return step.value;
        await pause();
        between();
      }
    } catch (problem) {
      if (!(problem instanceof CancellationError)) throw problem;
      return null;
    }
  };
  let told = performance.now();
  const tellSometimes = () => {
    const now = performance.now();
    if (now - told < shownEvery) return;
    told = now;
    tell();
  };
  /** The listed candidate whose values the text has as it stands; 0 for none. */
  const ownNumber = (): number => {
    const values = asked.columns.filter(({ kind }) => kind === 'value').length;
    const same = ({ amounts, texts: words }: ShownVariant) =>
      Array.from({ length: values }, (_, at) => at).every((at) =>
        own?.amounts[at] == null ? own?.texts[at] === words[at] : own.amounts[at] === amounts[at],
      );
    return own === null ? 0 : ([...rows.values()].find(same)?.number ?? 0);
  };
  const look = async (number: number): Promise<boolean> => {
    if (limits.has(number)) return true;
    const found = await inTurns(judge.look(number), ended);
    if (found === null) return false;
    limits.set(number, found.limits);
    return true;
  };
  const work = async () => {
    const mine = ownEvaluator(question);
    const verdict = await inTurns(judged(mine, 1), cancel);
    if (verdict?.kind === 'kept') own = ownVariant(judge, verdict.figures);
    const range = { first: 1, last: question.candidates };
    const steps = explore(judge, collected, range, null, (candidate) =>
      others.take(candidate.number, () => [candidate.number, ...shownAmounts(judge, candidate)]),
    );
    const complete = await inTurns(all(steps), cancel, tellSometimes);
    status = complete ? 'done' : 'stopped';
    tell();
    if (!complete || asked.limits.length === 0) return;
    const standing = own && (await inTurns(mine.look(1), ended));
    if (own && standing) own = { ...own, limits: metWords(standing.limits) };
    if (question.keeps.includes(null)) return tell();
    for (const { number } of listed().slice(0, mostLooked)) {
      if (!(await look(number))) return;
      tellSometimes();
    }
    tell();
  };
  const lookBeside = async (number: number) => {
    const facts = judge.layoutFacts(number);
    const known = rows.get(number) ?? null;
    const base: BesideVariant = {
      number,
      row: known,
      layout: facts ? shownLayout(facts.winding, symmetryFigures(facts.winding).rotationSlots) : [],
      waves: facts ? shownWaves(facts) : [],
      limits: [],
      missing: [],
      waiting: true,
    };
    beside.set(number, base);
    tell();
    const verdict = await inTurns(judged(judge, number), ended);
    const found = verdict === null ? null : await inTurns(judge.look(number), ended);
    if (found === null || !beside.has(number)) return;
    limits.set(number, found.limits);
    const figures = verdict?.kind === 'kept' ? verdict.figures : null;
    beside.set(number, {
      ...base,
      row:
        figures === null
          ? known
          : shownVariant(judge, { number, figures }, known?.front ?? false, wordsOf(number)),
      limits: found.limits.map((met) => (met === null ? 'unknown' : met ? 'met' : 'failed')),
      missing: Object.entries(found.missing).map(([name, why]) => `${name}: ${why}`),
      waiting: false,
    });
    tell();
  };
  const failed = (problem: unknown) => {
    status = 'stopped';
    trouble = problem instanceof Error ? problem.message : String(problem);
    tell();
  };
  const made = (): ShownVariants => {
    const list = listed();
    const listedNumbers = new Set(list.map(({ number }) => number));
    return {
      kind: 'variants',
      question: asked,
      standing: standingOf(question, collected, { status, trouble }),
      own,
      rows: list,
      others: others.taken().filter(([number]) => !listedNumbers.has(number as number)),
      beside: chosen.flatMap((number) => beside.get(number) ?? []),
    };
  };
  return {
    judge,
    text: question.text,
    shown: () => {
      shown ??= made();
      return shown;
    },
    numberIn: (text) => {
      for (const [number, made] of texts) if (made === text) return number;
      return text === question.text ? ownNumber() : null;
    },
    takenOver,
    setBeside: (numbers) => {
      chosen = [...new Set(numbers)].filter((number) => number >= 1 && number <= question.candidates);
      for (const number of beside.keys()) if (!chosen.includes(number)) beside.delete(number);
      for (const number of chosen) if (!beside.has(number)) void lookBeside(number).catch(failed);
      tell();
    },
    cancel: () => {
      cancel.isCancellationRequested = true;
    },
    end: () => {
      ended.isCancellationRequested = true;
    },
    done: work().catch(failed),
  };
}

function metWords(limits: readonly (boolean | null)[]): string {
  return l10n.t('{0} of {1}', limits.filter((met) => met === true).length, limits.length);
}

/** All of a run's steps, and that they came to their end. */
function* all(steps: Generator<undefined, void>): Generator<undefined, true> {
  yield* steps;
  return true;
}

/** How far a run is. */
function standingOf(
  question: Question,
  collected: Collection,
  { status, trouble }: Pick<VariantStanding, 'status' | 'trouble'>,
): VariantStanding {
  const { judged: count, kept, leftOut, refused } = collected.counts();
  return {
    status,
    candidates: question.candidates,
    judged: count,
    kept,
    leftOut,
    refused: [...refused].map(([reason, times]) => [reasonText(reason), times] as const),
    front: collected.front()?.length ?? null,
    stale: false,
    inText: 0,
    trouble,
  };
}

/** What there is to show of a question that is not judged yet. */
export function unasked(
  status: 'none' | 'faulty' | 'ready',
  candidates: number,
  question: ShownQuestion | null,
  trouble = '',
): ShownVariants {
  return {
    kind: 'variants',
    question,
    standing: {
      status,
      candidates,
      judged: 0,
      kept: 0,
      leftOut: 0,
      refused: [],
      front: null,
      stale: false,
      inText: 0,
      trouble,
    },
    own: null,
    rows: [],
    others: [],
    beside: [],
  };
}

/** Every so-manieth of what comes, so many that they stay below a count however much comes. */
function createSample(most: number) {
  let kept: (readonly (number | null)[])[] = [];
  let every = 1;
  let seen = 0;
  return {
    take: (_: number, make: () => readonly (number | null)[]) => {
      if (seen++ % every !== 0) return;
      kept.push(make());
      if (kept.length <= most) return;
      kept = kept.filter((_each, at) => at % 2 === 0);
      every *= 2;
    },
    taken: () => kept,
  };
}
