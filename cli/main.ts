import { isMainThread, parentPort, workerData } from 'node:worker_threads';
import { version } from '../package.json';
import { checkInThread, checking } from './commands/check.ts';
import { judging } from './commands/exploreRun.ts';
import { complaint, complete } from './complete.ts';
import { writeStandardError, writeStandardOutput } from './files/standardStreams.ts';
import { complaintLine } from './inert.ts';
import { run } from './program.ts';
import { serve } from './threads.ts';

/** Does what was asked: writes files first, then what there is to say. */
async function main(): Promise<void> {
  // Beyond the largest file allowed, writing is to fail as on a full disk, not to end the program.
  process.on('SIGXFSZ', () => undefined);
  const { exitCode, output, complaints } = await complete(run(process.argv.slice(2), version));
  process.exitCode = exitCode;
  // What could not be told does not pass as if there were nothing to tell.
  if ((await writeStandardError(complaints)) !== null && exitCode === 0) process.exitCode = 2;
  const trouble = await writeStandardOutput(output);
  if (trouble === null) return;
  process.exitCode = 2;
  await writeStandardError(complaintLine(`standard output: ${trouble}`));
}

function start(): void {
  main().catch(async (problem) => {
    process.exitCode = 2;
    await writeStandardError(complaint(problem));
  });
}

// A thread of check or explore is this very program, started with what it works on.
if (isMainThread) start();
else if (parentPort && workerData === checking) serve(parentPort, checkInThread);
else if (parentPort) serve(parentPort, judging(workerData));
