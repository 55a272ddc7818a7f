import { relative } from 'node:path';
import { root } from './shell.mjs';

/**
 * Passed and failed tests over several vitest JSON reports; a file that failed without any of its tests, because it
 * could not be loaded or begun, counts as one failure.
 */
export function testCounts(reports) {
  let passed = 0;
  let failed = 0;
  for (const report of reports) {
    passed += report.numPassedTests;
    failed += report.numFailedTests;
    failed += report.testResults.filter(
      ({ status, assertionResults }) =>
        status === 'failed' && assertionResults.every((test) => test.status !== 'failed'),
    ).length;
  }
  return { passed, failed };
}

/**
 * Tests of vitest JSON reports that passed only at a further try, each with what went wrong before: they pass, and yet
 * there is something to mend.
 */
export function lateTests(reports) {
  return reports.flatMap(({ testResults }) =>
    testResults.flatMap(({ name: file, assertionResults }) =>
      assertionResults
        .filter(({ status, failureMessages }) => status === 'passed' && failureMessages.length > 0)
        .map(({ fullName, failureMessages }) => ({
          name: `${relative(root, file)}: ${fullName}`,
          reason: failureMessages[0].split('\n', 1)[0],
        })),
    ),
  );
}

/** What to say of such tests; nothing where there are none. */
export function lateWords(reports) {
  const late = lateTests(reports);
  if (late.length === 0) return '';
  const lines = late.map(({ name, reason }) => `  ${name}\n    ${reason}`);
  return `Passed only at the second try (pictures of the first: out/screenshots/failed-try-1-...):\n${lines.join('\n')}`;
}
