import { version } from '../package.json';
import { loadFileFormats } from './fileFormats.ts';
import { run } from './program.ts';

/** Writes what a command has to say, then does the writing that takes its time. */
async function main(): Promise<void> {
  const { exitCode, output, complaints, finish } = run(process.argv.slice(2), version, loadFileFormats);
  process.exitCode = exitCode;
  // A reader that stops early (head, less) is no trouble of ours.
  process.stdout.on('error', (problem: NodeJS.ErrnoException) => {
    if (problem.code !== 'EPIPE') throw problem;
  });
  process.stderr.write(complaints);
  process.stdout.write(output);
  try {
    await finish?.();
  } catch (problem) {
    process.exitCode = 2;
    process.stderr.write(`slotwright: ${problem instanceof Error ? problem.message : String(problem)}\n`);
  }
}

main();
