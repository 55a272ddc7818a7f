import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { candidates } from '../../scripts/chromium.mjs';
import { demoSummary, unexpectedErrors } from '../../scripts/demo/summary.mjs';
import { allowedPaths, missingFiles, strayFiles } from '../../scripts/packageFiles.mjs';
import { root } from '../../scripts/shell.mjs';
import { lateTests, lateWords, testCounts } from '../../scripts/testCounts.mjs';
import { closingLines, forget, reportsIn } from '../../scripts/vitest.mjs';

const posix = process.platform !== 'win32';

test.runIf(posix)('on Linux every folder of PATH is searched, Chromium first', () => {
  const found = candidates('linux', { PATH: '/usr/bin:/opt/bin' });
  expect(found.slice(0, 2)).toEqual(['/usr/bin/chromium', '/opt/bin/chromium']);
  expect(found).toContain('/opt/bin/google-chrome');
});

test('on macOS and Windows the usual places are searched', () => {
  expect(candidates('darwin', {}).every((path) => path.startsWith('/Applications/'))).toBe(true);
  const windows = candidates('win32', { PROGRAMFILES: 'C:\\Program Files' });
  expect(windows).toContain('C:\\Program Files\\Microsoft\\Edge\\Application\\msedge.exe');
  expect(candidates('win32', {})).toEqual([]);
});

test('an allow-list names files, folders, and the files of a folder that end alike', () => {
  const paths = allowedPaths(['LICENSE', 'media/walkthrough', 'examples/*.winding', 'nothing.txt']);
  expect(paths.slice(0, 2)).toEqual(['LICENSE', 'media/walkthrough']);
  const windings = readdirSync('examples').filter((name) => name.endsWith('.winding'));
  expect(paths.slice(2).sort()).toEqual(windings.map((name) => `examples/${name}`).sort());
});

test('the package must hold what the manifest points to, and nothing that is not on the allow-list', () => {
  const manifest = { main: './dist/extension/host.js', files: ['dist/extension', 'media/extension.md'] };
  const whole = [
    'package.json',
    'package.nls.json',
    'package.nls.de.json',
    'media/extension.md',
    'dist/CHANGELOG.md',
    'LICENSE',
    'dist/extension/host.js',
    'dist/extension/german.js',
    'dist/extension/engine.js',
    'dist/extension/onDemand.js',
    'dist/extension/shared.js',
    'dist/extension/tableReader.js',
    'dist/extension/panel.js',
    'dist/extension/later.js',
    'dist/extension/space.js',
    'dist/extension/variants.js',
    'dist/extension/comparison.js',
    'dist/extension/panel.css',
    'dist/extension/comparison.css',
    'dist/fileFormats/fileFormats.js',
    'dist/fileFormats/DejaVuSansCondensed.ttf',
    'dist/fileFormats/FONT-LICENSE.txt',
    'dist/THIRD-PARTY-NOTICES.txt',
  ];
  expect(missingFiles(manifest, whole)).toEqual([]);
  expect(missingFiles(manifest, whole.slice(0, 5))).toContain('dist/extension/host.js');
  expect(strayFiles(manifest, ['dist/extension/host.js', 'media/extension.md', 'package.json'])).toEqual([]);
  expect(strayFiles(manifest, ['dist/extension2/a.js', 'node_modules/a.js'])).toHaveLength(2);
  const examples = ['examples/a.winding', 'examples/README.md', 'examples/b/c.winding', 'examples.winding'];
  expect(strayFiles({ files: ['examples/*.winding'] }, examples)).toEqual(examples.slice(1));
});

test('tests are counted over both runs; a file that cannot be loaded or begun counts as a failure', () => {
  const result = (status: string, tests: number, each = status) => ({
    status,
    assertionResults: Array(tests).fill({ status: each }),
  });
  const first = { numPassedTests: 5, numFailedTests: 0, testResults: [result('passed', 5)] };
  const second = {
    numPassedTests: 2,
    numFailedTests: 1,
    testResults: [result('failed', 3), result('failed', 0), result('failed', 6, 'skipped')],
  };
  expect(testCounts([first, second])).toEqual({ passed: 7, failed: 3 });
  expect(testCounts([])).toEqual({ passed: 0, failed: 0 });
});

test('tests that passed only at their second try are named, with what went wrong before', () => {
  const tried = (fullName: string, status: string, ...failureMessages: string[]) => ({
    fullName,
    status,
    failureMessages,
  });
  const report = {
    testResults: [
      {
        name: join(root, 'test/editor/panels.test.ts'),
        assertionResults: [
          tried(
            'both come back',
            'passed',
            'Error: The text does not take the focus.\n    at inText',
            'again',
          ),
          tried('a panel moves', 'passed'),
          tried('a key goes', 'failed', 'Error: nothing', 'Error: nothing'),
        ],
      },
    ],
  };
  const reason = 'Error: The text does not take the focus.';
  expect(lateTests([report])).toEqual([{ name: 'test/editor/panels.test.ts: both come back', reason }]);
  expect(lateWords([{ testResults: [] }, report])).toMatch(
    /\n {2}test\/editor\/panels.test.ts: both come back\n {4}Error: /,
  );
  expect(lateWords([])).toBe('');
  const counted = { ...report, numPassedTests: 2, numFailedTests: 1 };
  expect(closingLines([counted], ['editor tests'])).toEqual([
    lateWords([report]),
    'Failed: editor tests',
    '2 passed, 1 failed',
  ]);
  expect(closingLines([])).toEqual(['0 passed, 0 failed']);
});

test('results of an earlier run are not read as those of one that does not begin', () => {
  const file = 'out/house-test/results.json';
  forget([file]);
  expect(reportsIn([file])).toEqual([]);
  writeFileSync(join(root, file), '{"numPassedTests": 7}');
  expect(reportsIn([file])).toEqual([{ numPassedTests: 7 }]);
  forget([file]);
  expect(reportsIn([file])).toEqual([]);
});

const error = { severity: 'error', message: 'The word is unknown.', range: { start: { line: 9 } } };
const report = (findings: readonly unknown[]) => ({
  title: 'Trial',
  winding: { slots: 12, poles: 2, phases: 3, layers: 1 },
  factors: [{ harmonic: '1', winding: 0.9659258 }],
  mmf: { differentialLeakage: null },
  limits: [{ met: true }, { met: false }],
  findings,
});

test('the demonstration tells what each file is, and shows the errors of the broken one only', () => {
  const examples = [
    { source: 'examples/trial.winding', report: report([]), drawn: true },
    { source: 'examples/broken-trial.winding', report: report([error]), drawn: true },
  ];
  const text = demoSummary(examples, { files: [1, 2], errors: 1, warnings: 0 });
  expect(text).toContain('12 slots, 2 poles, 3 phases, 1 layer\n');
  expect(text).toContain('winding factor 0.9659, 1 of 2 limits met');
  expect(text).toContain(
    'broken on purpose, to show what Slotwright finds: 1 error\n  line 9: The word is unknown.',
  );
  expect(text).toContain('2 files, 1 errors, 0 warnings');
  expect(unexpectedErrors(examples)).toEqual([]);
  const spoilt = [{ source: 'examples/trial.winding', report: report([error]), drawn: true }];
  expect(unexpectedErrors(spoilt)).toEqual(['examples/trial.winding']);
});
