import { CancellationError, type CancellationToken } from 'vscode';
import type { Steps } from '../../core/figures/steps.ts';

/** Milliseconds of work between two turns of the editor. */
const slice = 15;

/** Milliseconds without a key after which a reader looks at what was written. */
const rest = 400;

/**
 * Comes back once the reader rests, for work that the editor asks for behind every key although few of its answers
 * are looked at. Throws CancellationError where the next key came before.
 */
export async function afterRest(token: Pick<CancellationToken, 'isCancellationRequested'>): Promise<void> {
  await new Promise<void>((resolve) => setTimeout(resolve, rest));
  if (token.isCancellationRequested) throw new CancellationError();
}

/** Milliseconds after a key that long work leaves to what follows on it: findings, panel, whatever the editor asks. */
const keyRest = 100;

/** The rest that work which goes on for minutes takes after each of the reader's keys. */
export interface KeyRest {
  /** A key was pressed. */
  readonly typed: () => void;
  /** Comes back once no key has been pressed for a moment. */
  readonly over: () => Promise<void>;
}

export function createKeyRest(): KeyRest {
  let rest: Promise<void> | null = null;
  return {
    typed: () => {
      const mine = new Promise<void>((resolve) => setTimeout(resolve, keyRest));
      rest = mine;
      void mine.then(() => {
        if (rest === mine) rest = null;
      });
    },
    over: async () => {
      while (rest !== null) await rest;
    },
  };
}

/** Does work step by step; `pause` comes between steps, and ends it where it throws. */
export async function inSlices<Result>(steps: Steps<Result>, pause: () => Promise<void>): Promise<Result> {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    await pause();
  }
}

/**
 * Gives the editor a turn where a slice of work is over, so that typing goes on and a press on Cancel is heard.
 * Throws CancellationError once it was pressed.
 */
export function createPause(token: Pick<CancellationToken, 'isCancellationRequested'>): () => Promise<void> {
  let end = performance.now() + slice;
  return async () => {
    if (performance.now() >= end) {
      await new Promise<void>((resolve) => setTimeout(resolve, 0));
      end = performance.now() + slice;
    }
    if (token.isCancellationRequested) throw new CancellationError();
  };
}
