import { type MessagePort, Worker } from 'node:worker_threads';

/** Threads of this very program, started with what they are to work on. */
export interface Threads {
  readonly deal: <Task, Result>(dealing: Dealing<Task, Result>) => Promise<void>;
  readonly end: () => Promise<void>;
}

/** Tasks that are dealt out to threads, and what comes of them. */
export interface Dealing<Task, Result> {
  readonly tasks: Iterable<Task>;
  /** Takes results one after the other, in the order of their tasks; while it takes its time, threads wait. */
  readonly take: (result: Result) => void | Promise<void>;
  /** Ends it before all is done; what has not been taken by then is let go. */
  readonly stop: AbortSignal;
}

/** A task on its way to a thread, or what came of it on its way back; numbers count from 0. */
interface Numbered<Value> {
  readonly number: number;
  readonly value: Value;
}

/** Tasks that a thread has at once, so that it does not wait for the next one, */
const tasksAtOnce = 2;
/** and by how many a thread, at most, their results may be ahead of those that are taken. */
const mostAhead = 8;

/** Starts so many threads; `workerData` says what tasks they will be given (`cli/main.ts`). */
export function startThreads(count: number, workerData: unknown): Threads {
  const workers = Array.from({ length: count }, () => new Worker(__filename, { workerData }));
  return {
    deal: (dealing) => dealOut(workers, dealing),
    end: async () => {
      await Promise.all(workers.map((worker) => worker.terminate()));
    },
  };
}

/** Ends when all results are taken, or it was stopped; throws what a thread or `take` did. */
async function dealOut<Task, Result>(
  workers: readonly Worker[],
  { tasks, take, stop }: Dealing<Task, Result>,
): Promise<void> {
  const rest = tasks[Symbol.iterator]();
  const results = new Map<number, { readonly value: Result }>();
  const waiting: Worker[] = [];
  let [dealt, taken, taking] = [0, 0, false];
  let done = false;
  await new Promise<void>((resolve, reject) => {
    const give = (worker: Worker) => {
      if (done) return;
      if (dealt - taken >= mostAhead * workers.length) {
        waiting.push(worker);
        return;
      }
      const next = rest.next();
      if (next.done) done = true;
      else worker.postMessage({ number: dealt++, value: next.value } satisfies Numbered<Task>);
    };
    const takeInOrder = async () => {
      if (taking) return;
      taking = true;
      for (let next = results.get(taken); next && !stop.aborted; next = results.get(taken)) {
        results.delete(taken);
        await take(next.value);
        taken++;
        for (const worker of waiting.splice(0)) give(worker);
      }
      taking = false;
      if (done && taken === dealt) resolve();
    };
    stop.addEventListener('abort', () => resolve(), { once: true });
    for (const worker of workers) {
      worker.removeAllListeners('error').on('error', reject);
      worker.removeAllListeners('message').on('message', ({ number, value }: Numbered<Result>) => {
        results.set(number, { value });
        give(worker);
        takeInOrder().catch(reject);
      });
    }
    for (let turn = 0; turn < tasksAtOnce; turn++) workers.forEach(give);
    if (dealt === 0 || stop.aborted) resolve();
  });
}

/** In a thread: does one task after the other, and tells what came of it. */
export function serve<Task, Result>(port: MessagePort, work: (task: Task) => Result): void {
  port.on('message', ({ number, value }: Numbered<Task>) => {
    port.postMessage({ number, value: work(value) } satisfies Numbered<Result>);
  });
}
