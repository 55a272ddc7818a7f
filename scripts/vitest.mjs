// Runs of the tests, whose results are read again to say at the end what they came to.
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { exitCode, root } from './shell.mjs';
import { lateWords, testCounts } from './testCounts.mjs';

/** Runs vitest, its results also written as JSON to the given file, and resolves to its exit code. */
export function runTests(file, args = [], environment = {}) {
  forget([file]);
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  return exitCode('node', ['node_modules/vitest/vitest.mjs', 'run', ...reporters, ...args], environment);
}

/** Takes away the results of earlier runs, which would be read as those of this one. */
export function forget(files) {
  for (const file of files) {
    mkdirSync(dirname(join(root, file)), { recursive: true });
    rmSync(join(root, file), { force: true });
  }
}

/** The results that runs have left in files; a run that did not begin has left none. */
export function reportsIn(files) {
  return files
    .map((file) => join(root, file))
    .filter((file) => existsSync(file))
    .map((file) => JSON.parse(readFileSync(file, 'utf8')));
}

/** The last lines of a run of tests: those that passed only at a second try, then the steps that failed, then the counts. */
export function closingLines(reports, failed = []) {
  const counts = testCounts(reports);
  const late = lateWords(reports);
  return [
    ...(late === '' ? [] : [late]),
    ...(failed.length > 0 ? [`Failed: ${failed.join(', ')}`] : []),
    `${counts.passed} passed, ${counts.failed} failed`,
  ];
}
