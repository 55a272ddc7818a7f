import type { Steps } from '../core/figures/steps.ts';
import type { Finding } from '../core/language/finding.ts';
import type { CreateCheckFile } from './engine/checkFile.ts';
import type { Surroundings } from './engine/surroundings.ts';

/** Milliseconds of work at once. */
const slice = 8;
/** After a key nothing is done for so long, ms. */
const quiet = 400;

/** Work that nobody waits for, done between the reader's keys. */
export interface CalmWork {
  /** A key was pressed. */
  readonly disturb: () => void;
  /** Comes back once no key has been pressed for a while, or all has ended. */
  readonly calm: () => Promise<void>;
  /** Gives the editor a turn. */
  readonly pause: () => Promise<void>;
  /** The findings of a text once its paths are found and its ends measured; null where all has ended meanwhile. */
  readonly findingsOf: (createCheckFile: CreateCheckFile, text: string) => Promise<readonly Finding[] | null>;
  readonly end: () => void;
  readonly hasEnded: () => boolean;
}

export function createCalmWork({ now, later }: Surroundings): CalmWork {
  let lastKey = Number.NEGATIVE_INFINITY;
  let ended = false;
  /** Tells a text that waits for its paths or ends that some were found. */
  let wake = () => {};

  const pause = () => new Promise<void>((resolve) => later(resolve));
  const calm = async () => {
    while (now() - lastKey < quiet && !ended)
      await new Promise<void>((resolve) => setTimeout(resolve, quiet));
  };
  /** Does the steps in slices; null where all of this has ended meanwhile. */
  const inSlices = async <Result>(steps: Steps<Result>): Promise<Result | null> => {
    for (;;) {
      await calm();
      if (ended) return null;
      const end = now() + slice;
      do {
        const step = steps.next();
        if (step.done) return step.value;
      } while (now() < end);
      await pause();
    }
  };
  const findingsOf: CalmWork['findingsOf'] = async (createCheckFile, text) => {
    let found = 0;
    const calmly = { now, later: (go: () => void) => void calm().then(() => later(go)) };
    const check = createCheckFile(calmly, () => {
      found++;
      wake();
    });
    for (;;) {
      const before = found;
      const study = await inSlices(check(text));
      if (study === null) return null;
      if (!(study.pending || study.measuring)) return study.findings;
      // What was found during the check may be what it lacks.
      if (found === before)
        await new Promise<void>((resolve) => {
          wake = resolve;
        });
    }
  };
  return {
    disturb: () => {
      lastKey = now();
    },
    calm,
    pause,
    findingsOf,
    end: () => {
      ended = true;
      wake();
    },
    hasEnded: () => ended,
  };
}
