/** Passed and failed tests over several vitest JSON reports; a file that could not even be loaded counts as one failure. */
export function testCounts(reports) {
  let passed = 0;
  let failed = 0;
  for (const report of reports) {
    passed += report.numPassedTests;
    failed += report.numFailedTests;
    failed += report.testResults.filter(
      ({ status, assertionResults }) => status === 'failed' && assertionResults.length === 0,
    ).length;
  }
  return { passed, failed };
}
