import { CancellationError } from 'vscode';
import type { Steps } from '../../../core/figures/steps.ts';
import { collectionFor } from '../../../core/variants/answer.ts';
import { takeOverEdits } from '../../../core/variants/chosen.ts';
import type { Collection } from '../../../core/variants/collect.ts';
import { type Evaluator, evaluator, type Looked } from '../../../core/variants/evaluate.ts';
import { explore } from '../../../core/variants/explore.ts';
import { judged, ownEvaluator } from '../../../core/variants/own.ts';
import { editedText } from '../../../core/variants/places.ts';
import type { Question } from '../../../core/variants/question.ts';
import { reasonText } from '../../../core/variants/words.ts';
import type {
  ShownQuestion,
  ShownVariant,
  ShownVariants,
  VariantStanding,
} from '../../protocol/shownVariants.ts';
import { engineSpeech } from '../engineSpeech.ts';
import { createKeyRest, createPause, inSlices } from '../inSlices.ts';
import { createBeside } from './beside.ts';
import { createListed, metWords, mostBest } from './listed.ts';
import { missingWords, ownVariant, shownAmounts, shownQuestion } from './shown.ts';

/** Most of the others, which are points of the chart alone. */
const mostOthers = 500;
/** Rows, the first in the order, of which limits, and why figures are missing, are looked at when all are judged. */
const mostLooked = 50;
/** Most reasons told why figures are missing. */
const mostReasons = 8;
/** Milliseconds between two looks at a run under way. */
const shownEvery = 250;

/** How far a run is, and what it found out beside figures. */
type Progress = Pick<VariantStanding, 'status' | 'trouble' | 'missing'>;

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
  /** A key was pressed: what follows on it comes first. */
  readonly typed: () => void;
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
  const listed = createListed(question, asked, judge, collected);
  const others = createSample(mostOthers);
  const texts = new Map<number, string | null>();
  const cancel = { isCancellationRequested: false };
  const ended = { isCancellationRequested: false };
  const rest = createKeyRest();
  let own: ShownVariant | null = null;
  let progress: Progress = { status: 'running', trouble: '', missing: [] };
  let shown: ShownVariants | null = null;

  const tell = () => {
    shown = null;
    changed();
  };
  let told = performance.now();
  const tellSometimes = () => {
    const now = performance.now();
    if (now - told < shownEvery) return;
    told = now;
    tell();
  };
  const failed = (problem: unknown) => {
    progress = {
      ...progress,
      status: 'stopped',
      trouble: problem instanceof Error ? problem.message : String(problem),
    };
    tell();
  };
  /** Does work in slices, telling between them; null where it was given up, or all has ended. */
  const inTurns = async <Result>(
    steps: Steps<Result>,
    token: { readonly isCancellationRequested: boolean } = ended,
    between: () => void = () => undefined,
  ): Promise<Result | null> => {
    const pause = createPause({
      get isCancellationRequested() {
        return token.isCancellationRequested || ended.isCancellationRequested;
      },
    });
    try {
      return await inSlices(steps, async () => {
        await pause();
        await rest.over();
        between();
      });
    } catch (problem) {
      if (!(problem instanceof CancellationError)) throw problem;
      return null;
    }
  };
  const beside = createBeside(judge, listed, { work: inTurns, changed: tell, failed });

  const judgeAll = async (mine: Evaluator): Promise<boolean> => {
    const verdict = await inTurns(judged(mine, 1), cancel);
    if (verdict?.kind === 'kept') own = ownVariant(judge, verdict.figures);
    const range = { first: 1, last: question.candidates };
    const steps = explore(judge, collected, range, null, (candidate) =>
      others.take(() => [candidate.number, ...shownAmounts(judge, candidate)]),
    );
    const complete = (await inTurns(all(steps), cancel, tellSometimes)) === true;
    progress = { ...progress, status: complete ? 'done' : 'stopped' };
    tell();
    return complete;
  };
  const look = async (one: Evaluator, number: number): Promise<Looked | null> => {
    const found = await inTurns(one.look(number));
    const missing = new Set([...progress.missing, ...(found ? missingWords(found) : [])]);
    progress = { ...progress, missing: [...missing].slice(0, mostReasons) };
    return found;
  };
  const lookAtOwn = async (mine: Evaluator): Promise<void> => {
    const hasLimits = asked.limits.length > 0;
    // Where nothing is kept, what the text lacks may be why.
    if (own === null || !(hasLimits || collected.counts().kept === 0)) return;
    const found = await look(mine, 1);
    if (found !== null && hasLimits) own = { ...own, limits: metWords(found.limits) };
  };
  const lookAtRows = async (): Promise<void> => {
    const judgesLimits = asked.limits.length > 0 && !question.keeps.includes(null);
    const lacksFigures = ({ amounts }: ShownVariant) =>
      amounts.slice(-question.measures.length).includes(null);
    for (const row of listed.rows().slice(0, mostLooked)) {
      const toLookAt = judgesLimits && !listed.limits.has(row.number);
      if (!toLookAt && !lacksFigures(row)) continue;
      const found = await look(judge, row.number);
      if (found === null) return;
      listed.limits.set(row.number, found.limits);
      tellSometimes();
    }
  };
  const work = async () => {
    const mine = ownEvaluator(question);
    if (!(await judgeAll(mine))) return;
    await lookAtOwn(mine);
    await lookAtRows();
    tell();
  };

  const made = (): ShownVariants => {
    const rows = listed.rows();
    const numbers = new Set(rows.map(({ number }) => number));
    return {
      kind: 'variants',
      question: asked,
      standing: standingOf(question, collected, progress),
      own,
      rows,
      others: others.taken().filter(([number]) => !numbers.has(number as number)),
      beside: beside.shown(),
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
      for (const [number, taken] of texts) if (taken === text) return number;
      if (text !== question.text) return null;
      return own === null ? 0 : listed.numberWith(own);
    },
    takenOver: (number) => {
      if (!texts.has(number)) {
        const edits = takeOverEdits(judge, number);
        texts.set(number, edits && editedText(question.text, edits));
      }
      return texts.get(number) ?? null;
    },
    setBeside: beside.set,
    typed: rest.typed,
    cancel: () => {
      cancel.isCancellationRequested = true;
    },
    end: () => {
      ended.isCancellationRequested = true;
    },
    done: work().catch(failed),
  };
}

/** All of a run's steps, and that they came to their end. */
function* all(steps: Steps<void>): Steps<true> {
  yield* steps;
  return true;
}

/** How far a run is. */
function standingOf(question: Question, collected: Collection, progress: Progress): VariantStanding {
  const { judged: count, kept, leftOut, refused } = collected.counts();
  return {
    ...progress,
    candidates: question.candidates,
    judged: count,
    kept,
    leftOut,
    refused: [...refused].map(([reason, times]) => [reasonText(reason, engineSpeech()), times] as const),
    front: collected.front()?.length ?? null,
    stale: false,
    inText: 0,
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
      missing: [],
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
    take: (make: () => readonly (number | null)[]) => {
      if (seen++ % every !== 0) return;
      kept.push(make());
      if (kept.length <= most) return;
      kept = kept.filter((_each, at) => at % 2 === 0);
      every *= 2;
    },
    taken: () => kept,
  };
}
