import { version } from '../package.json';
import { run } from './program.ts';

const { exitCode, output, complaints } = run(process.argv.slice(2), version);
process.exitCode = exitCode;
// A reader that stops early (head, less) is no trouble of ours.
process.stdout.on('error', (problem: NodeJS.ErrnoException) => {
  if (problem.code !== 'EPIPE') throw problem;
});
process.stderr.write(complaints);
process.stdout.write(output);
