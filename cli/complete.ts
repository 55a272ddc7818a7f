import { unlinkSync } from 'node:fs';
import { UsageError } from './files/files.ts';
import { type Disk, writeWhole } from './files/writeFile.ts';
import { complaintLine } from './inert.ts';
import type { Outcome, OutputFile } from './outcome.ts';

/**
 * Writes the files of an outcome, one after the other: one that cannot be written is complained of and does
 * not stop the others. Never throws. A signal that stops the program takes the unfinished file with it.
 */
export async function complete(asked: Outcome, disk?: Disk): Promise<Outcome> {
  const outcome = await done(asked);
  const { files = [], output } = outcome;
  let { exitCode, complaints } = outcome;
  for (const file of files) {
    try {
      await write(file, disk);
      complaints += file.said ?? '';
    } catch (problem) {
      exitCode = 2;
      complaints += complaint(problem);
    }
  }
  return { exitCode, output, complaints };
}

async function done(outcome: Outcome): Promise<Outcome> {
  if (!outcome.later) return outcome;
  try {
    return await outcome.later();
  } catch (problem) {
    return { exitCode: 2, output: '', complaints: complaint(problem) };
  }
}

async function write({ file, content, held }: OutputFile, disk?: Disk): Promise<void> {
  const made = await content();
  const bytes = typeof made === 'string' ? new TextEncoder().encode(made) : made;
  const temporaries = new Set<string>();
  // Not before: while there is nothing to clean up, a signal is to stop the program at once.
  const release = onStop(() => temporaries.forEach(removeNow));
  try {
    await writeWhole(file, bytes, { held, temporaries, ...(disk ? { disk } : {}) });
  } finally {
    await signalsHeard();
    release();
  }
}

/** What went wrong, in one line; anything but a file's or the caller's trouble is ours. */
export function complaint(problem: unknown): string {
  const message = problem instanceof Error ? problem.message : String(problem);
  return complaintLine(problem instanceof UsageError ? message : `internal error: ${message}`);
}

function removeNow(file: string): void {
  try {
    unlinkSync(file);
  } catch {
    // It may not have been made yet, or have taken its place already.
  }
}

/** Resolves when signals that have come in were handed on: Node asks for them once in each turn of its loop. */
async function signalsHeard(): Promise<void> {
  for (let turn = 0; turn < 2; turn++) await new Promise((resolve) => setImmediate(resolve));
}

/** Does some work before a signal stops the program; returns what takes the guard off again. */
function onStop(work: () => void): () => void {
  const stops = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
  const stop = (signal: NodeJS.Signals) => {
    work();
    release();
    // Nobody listens any more: now the signal does what it does to any program.
    process.kill(process.pid, signal);
  };
  const release = () => {
    for (const signal of stops) process.off(signal, stop);
  };
  for (const signal of stops) process.on(signal, stop);
  return release;
}
