import { type Disposable, type TextDocument, window } from 'vscode';
import type { Studies } from './engine/studies.ts';
import type { Surroundings } from './engine/surroundings.ts';
import type { Engine, OnDemand, Parts } from './loadOnDemand.ts';
import { type Log, toldStudies } from './log.ts';
import { l10n } from './wording.ts';

/** The engine, with the studies of the open texts. */
export interface Running extends Engine {
  readonly studies: Studies;
}

/** The engine as the extension's features have it: read when one of them first asks for it, and kept then. */
export interface EngineAtHand {
  /** Null while it is being read; asking begins that. */
  readonly now: () => Running | null;
  readonly ready: () => Promise<Running>;
  /** What the engine makes of something: at once where it is there. */
  readonly ask: <Answer>(answer: (running: Running) => Answer) => Answer | Promise<Answer>;
  /** Calls the listener once, when the engine is there: open texts have studies from then on. */
  readonly onBegun: (listener: (running: Running) => void) => Disposable;
  /** Calls the listener when a document's paths have been found or its bar ends measured, as `Studies` does. */
  readonly onFound: (listener: (document: TextDocument) => void) => Disposable;
}

/** Listeners that each can be taken away again. */
function listeners<Told>() {
  const all = new Set<(told: Told) => void>();
  return {
    tell: (told: Told) => {
      for (const listener of [...all]) listener(told);
    },
    add: (listener: (told: Told) => void): Disposable => {
      all.add(listener);
      return { dispose: () => all.delete(listener) };
    },
  };
}

/** Has the engine read by `read` when it is first asked for, and again after a failure, which the reader is told once. */
export function engineAtHand(
  read: () => Engine | Promise<Engine>,
  surroundings: Surroundings,
  log: Log,
): EngineAtHand {
  const begun = listeners<Running>();
  const found = listeners<TextDocument>();
  let running: Running | null = null;
  let beginning: Promise<Running> | null = null;
  let told = false;

  const begin = (engine: Engine): Running => {
    const studies = toldStudies(engine.createStudies(surroundings), log);
    running = { ...engine, studies };
    studies.onFound(found.tell);
    begun.tell(running);
    return running;
  };
  const failed = (problem: unknown) => {
    beginning = null;
    if (!told)
      window.showErrorMessage(
        l10n.t('The engine could not be loaded, so winding files are not checked: {0}', String(problem)),
      );
    told = true;
  };
  const now = (): Running | null => {
    if (running !== null || beginning !== null) return running;
    const engine = read();
    if (!(engine instanceof Promise)) return begin(engine);
    beginning = engine.then(begin);
    beginning.catch(failed);
    return null;
  };
  const ready = async (): Promise<Running> => now() ?? (await beginning!);
  return {
    now,
    ready,
    ask: (answer) => {
      const there = now();
      return there ? answer(there) : ready().then(answer);
    },
    onBegun: begun.add,
    onFound: found.add,
  };
}

/** What is loaded on demand, with the studies that it looks at. */
export async function withStudies(
  engine: EngineAtHand,
  { onDemand }: Pick<Parts, 'onDemand'>,
): Promise<OnDemand & { readonly studies: Studies }> {
  const [{ studies }, loaded] = await Promise.all([engine.ready(), onDemand()]);
  return { ...loaded, studies };
}
