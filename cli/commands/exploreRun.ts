import { finished } from '../../core/figures/steps.ts';
import { lookedAt } from '../../core/variants/answer.ts';
import type { Collection, Kept } from '../../core/variants/collect.ts';
import { collection } from '../../core/variants/collect.ts';
import { type Evaluator, evaluator, type Looked } from '../../core/variants/evaluate.ts';
import { explore, type Shard } from '../../core/variants/explore.ts';
import { orderOf, questionOf } from '../../core/variants/question.ts';
import { startThreads } from '../threads.ts';

/** A question under way. */
export interface Run {
  readonly judge: Evaluator;
  readonly collected: Collection;
  readonly text: string;
  readonly shard: Shard | null;
  readonly workers: number;
  readonly heard: (candidate: Kept) => void;
  /** Called between slices of work, to write out what was heard. */
  readonly flush: () => Promise<void>;
  /** Whether rows will be listed, so that they are looked at. */
  readonly listing: boolean;
}

/** How a run ended. */
export interface Ended {
  /** False where Ctrl-C stopped it. */
  readonly complete: boolean;
  /** What is told of rows beside their figures. */
  readonly looks: ReadonlyMap<number, Looked>;
}

/** What threads work on: the question, by its text. */
export interface JudgingTask {
  readonly exploreText: string;
  readonly shard: Shard | null;
}

/** Candidates judged at once by a thread, and what came of them. */
interface Chunk {
  readonly first: number;
  readonly last: number;
}

/** A candidate that a thread is to look at, and what it finds. */
interface Look {
  readonly look: number;
}
interface LookResult extends Look {
  readonly looked: Looked;
}

/** What came of a chunk. Figures travel as numbers in one piece, NaN for those that are missing. */
interface ChunkResult extends Chunk {
  readonly refused: readonly (readonly [string, number])[];
  readonly leftOut: number;
  readonly numbers: Float64Array;
  readonly figures: Float64Array;
}

/** Candidates of a chunk: as many as take a thread a few hundredths of a second. */
const layoutsOfChunk = 256;
const studiesOfChunk = 8;

/** Milliseconds of work between two chances to hear a signal, and to tell how far it is. */
const slice = 20;
const tellEvery = 250;

/** Judges all candidates, and looks at those that will be listed, until Ctrl-C stops it. */
export async function judgeAll(run: Run): Promise<Ended> {
  const stopping = new AbortController();
  const stop = () => stopping.abort();
  process.on('SIGINT', stop);
  const progress = teller(run);
  const looks = new Map<number, Looked>();
  try {
    const work = run.workers > 1 ? inThreads : inSlices;
    await work(run, stopping.signal, progress, looks);
  } finally {
    process.off('SIGINT', stop);
    progress('end');
  }
  return { complete: !stopping.signal.aborted, looks };
}

type Progress = (at: number | 'end') => void;

/** Tells how far the run is, where standard error is a terminal. */
function teller({ judge, collected }: Run): Progress {
  if (!process.stderr.isTTY) return () => undefined;
  const of = judge.question.candidates;
  let last = 0;
  return (at) => {
    const now = Date.now();
    if (at === 'end') {
      if (last > 0) process.stderr.write('\r\u001b[K');
    } else if (now - last >= tellEvery) {
      last = now;
      process.stderr.write(
        `\r\u001b[K${at} of ${of} candidates, ${collected.counts().kept} kept; Ctrl-C ends`,
      );
    }
  };
}

async function inSlices(
  run: Run,
  stop: AbortSignal,
  progress: Progress,
  looks: Map<number, Looked>,
): Promise<void> {
  const { judge, collected, shard, heard, flush, listing } = run;
  function* work(): Generator<undefined, void> {
    yield* explore(judge, collected, { first: 1, last: judge.question.candidates }, shard, heard);
    if (!listing) return;
    for (const number of lookedAt(judge, collected)) looks.set(number, yield* judge.look(number));
  }
  const steps = work();
  for (let done = false; !done && !stop.aborted; ) {
    const end = Date.now() + slice;
    do {
      done = steps.next().done === true;
    } while (!done && Date.now() < end);
    progress(collected.counts().judged);
    await flush();
    await new Promise((resolve) => setImmediate(resolve));
  }
}

/** Judges in threads, which then look at what will be listed: that takes a whole study each. */
async function inThreads(
  run: Run,
  stop: AbortSignal,
  progress: Progress,
  looks: Map<number, Looked>,
): Promise<void> {
  const { judge, collected, text, shard, listing, heard, flush } = run;
  const { candidates, measures } = judge.question;
  const size = judge.wholeAsked ? studiesOfChunk : layoutsOfChunk;
  const task: JudgingTask = { exploreText: text, shard };
  const threads = startThreads(Math.min(run.workers, Math.ceil(candidates / size)), task);
  const take = async (result: ChunkResult) => {
    for (const [reason, times] of result.refused) collected.refused(reason, times);
    collected.leftOut(result.leftOut);
    for (const kept of unpacked(result, measures.length)) {
      collected.kept(kept);
      heard(kept);
    }
    await flush();
    progress(result.last);
  };
  try {
    await threads.deal({ tasks: chunksOf(candidates, size), take, stop });
    if (stop.aborted || !listing) return;
    const tasks = lookedAt(judge, collected).map((look): Look => ({ look }));
    await threads.deal({ tasks, take: ({ look, looked }: LookResult) => void looks.set(look, looked), stop });
  } finally {
    await threads.end();
  }
}

function* chunksOf(candidates: number, size: number): Generator<Chunk> {
  for (let first = 1; first <= candidates; first += size)
    yield { first, last: Math.min(candidates, first + size - 1) };
}

function packed(kept: readonly Kept[], measures: number) {
  const numbers = Float64Array.from(kept, ({ number }) => number);
  const figures = new Float64Array(kept.length * measures);
  kept.forEach((candidate, at) => {
    candidate.figures.forEach((value, index) => {
      figures[at * measures + index] = value ?? Number.NaN;
    });
  });
  return { numbers, figures };
}

function unpacked({ numbers, figures }: ChunkResult, measures: number): readonly Kept[] {
  return Array.from(numbers, (number, at) => ({
    number,
    figures: Array.from(figures.subarray(at * measures, (at + 1) * measures), (value) =>
      Number.isNaN(value) ? null : value,
    ),
  }));
}

/** What a thread does for a question: judges the candidates of each chunk that it is given, and looks at others. */
export function judging({
  exploreText,
  shard,
}: JudgingTask): (task: Chunk | Look) => ChunkResult | LookResult {
  const question = questionOf(exploreText);
  const judge = evaluator(question);
  return (task) => {
    if ('look' in task) return { look: task.look, looked: finished(judge.look(task.look)) };
    const { first, last } = task;
    const kept: Kept[] = [];
    const collected = collection(orderOf(question), 0, 0);
    for (const _ of explore(judge, collected, { first, last }, shard, (candidate) => kept.push(candidate)));
    const { refused, leftOut } = collected.counts();
    return { first, last, refused: [...refused], leftOut, ...packed(kept, question.measures.length) };
  };
}
