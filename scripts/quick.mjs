// The unit tests that answer at once, for use while working: no types and lint, none of the test files that say in
// their first line that they take their time, and few random cases. `npm test` runs all.
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { exitCode, root } from './shell.mjs';

/** How a test file that takes its time begins; behind it stands why. */
const mark = '// Takes its time: ';

/** Seconds of a test file from which on it should bear the mark, on an idle machine. */
const long = 1;

/** Whether a test file says that it takes its time. */
function isMarked(path) {
  return readFileSync(path, 'utf8').startsWith(mark);
}

/** The test files that say so, as paths from the project's folder. */
export function slowTests() {
  return readdirSync(join(root, 'test'), { recursive: true })
    .filter((name) => name.endsWith('.test.ts') && !name.startsWith('editor'))
    .map((name) => join('test', name))
    .filter((path) => isMarked(join(root, path)))
    .sort();
}

/** Test files of a vitest JSON report that took long and do not say so, with their seconds. */
export function unmarked({ testResults }) {
  return testResults
    .map(({ name, assertionResults }) => ({
      name,
      seconds: assertionResults.reduce((sum, { duration }) => sum + (duration ?? 0), 0) / 1000,
    }))
    .filter(({ name, seconds }) => seconds > long && !isMarked(name))
    .sort((a, b) => b.seconds - a.seconds);
}

/** What to say of such files; nothing where there are none. */
export function unmarkedWords(report) {
  const files = unmarked(report);
  if (files.length === 0) return '';
  const lines = files.map(({ name, seconds }) => `  ${relative(root, name)}: ${seconds.toFixed(1)} s`);
  return `Test files that took long here, and are among the quick tests still. Shorten them, or say in their first line "${mark}...":\n${lines.join('\n')}\n`;
}

/** Runs the quick tests; arguments, such as a folder of tests, are passed on. */
export async function runStep(args) {
  process.env.SLOTWRIGHT_TRIES ??= '0.2';
  const left = slowTests().flatMap((path) => ['--exclude', path]);
  const vitest = ['node_modules/vitest/vitest.mjs', 'run', '--maxWorkers=100%'];
  process.exitCode = await exitCode('node', [...vitest, ...left, ...args]);
}
