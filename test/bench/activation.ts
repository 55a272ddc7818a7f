import { execFileSync } from 'node:child_process';
import { resolve } from 'node:path';

/** Milliseconds in a new process: reading the bundle alone, until it has been activated, and from then until the engine has been read and open texts have been studied. */
export interface Activation {
  readonly loaded: number;
  readonly activated: number;
  readonly studied: number;
}

/**
 * Medians over new processes, the first left out: the extension's bundle started by a stand-in of the
 * editor, with one winding text open that is studied right after, the files read from memory.
 */
export function activationTimes(text: string, processes = 15): Activation {
  const child = [resolve('out/benchActivation.cjs'), resolve('dist/extension/host.js'), text];
  const runs = Array.from(
    { length: processes + 1 },
    () => JSON.parse(execFileSync('node', child, { encoding: 'utf8' })) as Activation,
  ).slice(1);
  const middle = (times: readonly number[]) => [...times].sort((a, b) => a - b)[times.length >> 1]!;
  return {
    loaded: middle(runs.map(({ loaded }) => loaded)),
    activated: middle(runs.map(({ activated }) => activated)),
    studied: middle(runs.map(({ studied }) => studied)),
  };
}
