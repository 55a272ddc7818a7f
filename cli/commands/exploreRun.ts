import { Worker } from 'node:worker_threads';
import { finished } from '../../core/figures/steps.ts';
import { lookedAt } from '../../core/variants/answer.ts';
import type { Collection, Kept } from '../../core/variants/collect.ts';
import { collection } from '../../core/variants/collect.ts';
import { type Evaluator, evaluator, type Looked } from '../../core/variants/evaluate.ts';
import { explore, type Shard } from '../../core/variants/explore.ts';
import { orderOf, questionOf } from '../../core/variants/question.ts';

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

/** What a worker is given: the question, by its text. */
export interface WorkerTask {
  readonly exploreText: string;
  readonly shard: Shard | null;
}

/** Candidates judged at once by a worker, and what came of them. */
interface Chunk {
  readonly first: number;
  readonly last: number;
}

/** A candidate that a worker is to look at, and what it finds. */
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

/** Candidates of a chunk: as many as take a worker a few hundredths of a second. */
const layoutsOfChunk = 256;
const studiesOfChunk = 8;

/** Milliseconds of work between two chances to hear a signal, and to tell how far it is. */
const slice = 20;
const tellEvery = 250;

/** Judges all candidates, and looks at those that will be listed, until Ctrl-C stops it. */
export async function judgeAll(run: Run): Promise<Ended> {
  const stopping = { asked: false };
  const stop = () => {
    stopping.asked = true;
  };
  process.on('SIGINT', stop);
  const progress = teller(run);
  const looks = new Map<number, Looked>();
  try {
    if (run.workers > 1) await inWorkers(run, stopping, progress, looks);
    else await inSlices(run, stopping, progress, looks);
  } finally {
    process.off('SIGINT', stop);
    progress('end');
  }
  return { complete: !stopping.asked, looks };
}

type Stopping = { readonly asked: boolean };
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
  stopping: Stopping,
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
  for (let done = false; !done && !stopping.asked; ) {
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
async function inWorkers(
  run: Run,
  stopping: Stopping,
  progress: Progress,
  looks: Map<number, Looked>,
): Promise<void> {
  const { judge, collected, text, shard, listing } = run;
  const size = judge.wholeAsked ? studiesOfChunk : layoutsOfChunk;
  const count = Math.min(run.workers, Math.ceil(judge.question.candidates / size));
  const task: WorkerTask = { exploreText: text, shard };
  const workers = Array.from({ length: count }, () => new Worker(__filename, { workerData: task }));
  try {
    await judgeChunks(run, workers, size, stopping, progress);
    if (!stopping.asked && listing) await lookAtAll(workers, lookedAt(judge, collected), stopping, looks);
  } finally {
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
}

/** Each worker is given one candidate after the other. */
async function lookAtAll(
  workers: readonly Worker[],
  numbers: readonly number[],
  stopping: Stopping,
  looks: Map<number, Looked>,
): Promise<void> {
  if (numbers.length === 0) return;
  const rest = numbers.values();
  const give = (worker: Worker) => {
    const { done, value } = rest.next();
    if (!done) worker.postMessage({ look: value } satisfies Look);
  };
  let timer: NodeJS.Timeout | undefined;
  try {
    await new Promise<void>((resolve, reject) => {
      timer = setInterval(() => {
        if (stopping.asked) resolve();
      }, slice);
      for (const worker of workers) {
        worker.removeAllListeners('message').removeAllListeners('error');
        worker.on('error', reject);
        worker.on('message', ({ look, looked }: LookResult) => {
          looks.set(look, looked);
          if (looks.size === numbers.length) resolve();
          give(worker);
        });
        give(worker);
      }
    });
  } finally {
    clearInterval(timer);
  }
}

/** Candidates are dealt out in chunks, and their results are taken in the order of the chunks. */
async function judgeChunks(
  { judge, collected, heard, flush }: Run,
  workers: readonly Worker[],
  size: number,
  stopping: Stopping,
  progress: Progress,
): Promise<void> {
  const { candidates } = judge.question;
  const results = new Map<number, ChunkResult>();
  let [next, taken] = [1, 1];
  let timer: NodeJS.Timeout | undefined;
  try {
    await new Promise<void>((resolve, reject) => {
      // A worker that is far ahead waits, so that what is not taken yet stays small.
      const idle: Worker[] = [];
      const deal = (worker: Worker) => {
        if (next > candidates) return;
        if (next - taken > 8 * size * workers.length) {
          idle.push(worker);
          return;
        }
        const first = next;
        next += size;
        worker.postMessage({ first, last: Math.min(candidates, first + size - 1) } satisfies Chunk);
      };
      // Results are taken one after the other: while a slow reader takes rows, workers get ahead so far, and wait.
      let taking = false;
      const take = async () => {
        if (taking) return;
        taking = true;
        for (let result = results.get(taken); result; result = results.get(taken)) {
          results.delete(taken);
          for (const [reason, times] of result.refused) collected.refused(reason, times);
          collected.leftOut(result.leftOut);
          for (const kept of unpacked(result, judge.question.measures.length)) {
            collected.kept(kept);
            heard(kept);
          }
          await flush();
          taken = result.last + 1;
          progress(taken - 1);
          for (const worker of idle.splice(0)) deal(worker);
        }
        taking = false;
        if (taken > candidates) resolve();
      };
      timer = setInterval(() => {
        if (stopping.asked) resolve();
      }, slice);
      for (const worker of workers) {
        worker.on('message', (result: ChunkResult) => {
          results.set(result.first, result);
          deal(worker);
          take().catch(reject);
        });
        worker.on('error', reject);
        deal(worker);
        deal(worker);
      }
    });
  } finally {
    clearInterval(timer);
  }
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

/** What a worker does: judges the candidates of each chunk that it is sent, and looks at others. */
export function workFor(
  { exploreText, shard }: WorkerTask,
  port: {
    on(event: 'message', hear: (task: Chunk | Look) => void): unknown;
    postMessage(result: ChunkResult | LookResult, transfer?: readonly ArrayBuffer[]): void;
  },
): void {
  const question = questionOf(exploreText);
  const judge = evaluator(question);
  port.on('message', (task) => {
    if ('look' in task) return port.postMessage({ look: task.look, looked: finished(judge.look(task.look)) });
    const { first, last } = task;
    const kept: Kept[] = [];
    const collected = collection(orderOf(question), 0, 0);
    for (const _ of explore(judge, collected, { first, last }, shard, (candidate) => kept.push(candidate)));
    const { refused, leftOut } = collected.counts();
    const { numbers, figures } = packed(kept, question.measures.length);
    const result = { first, last, refused: [...refused], leftOut, numbers, figures };
    port.postMessage(result, [numbers.buffer, figures.buffer]);
  });
}
