// The unit tests that answer at once, for use while working: no types and lint, no programs, git, sheets or
// searches, and few random cases. `npm test` runs all.
import { exitCode } from './shell.mjs';

/** Test files, and folders of them, that take their time. */
export const slowTests = [
  'test/analysis/anyCrownPaths.test.ts',
  'test/analysis/emf.test.ts',
  'test/analysis/emfCarter.test.ts',
  'test/analysis/factors.test.ts',
  'test/analysis/fourier.test.ts',
  'test/architecture/core-globals.test.ts',
  'test/balance/pathMatrix.test.ts',
  'test/cli',
  'test/copper/cage.test.ts',
  'test/extension/accept.test.ts',
  'test/extension/exports.test.ts',
  'test/extension/protocol.test.ts',
  'test/findings/acceptance.test.ts',
  'test/findings/jointTips.test.ts',
  'test/findings/space.test.ts',
  'test/findings/specials.test.ts',
  'test/fuzz',
  'test/language/bounds.test.ts',
  'test/operation',
  'test/picture/dxf.test.ts',
  'test/picture/dxfFullSize.test.ts',
  'test/picture/pdf.test.ts',
  'test/picture/steps.test.ts',
  'test/report/markdown.test.ts',
  'test/report/report.test.ts',
  'test/review/compare.test.ts',
  'test/review/limits.test.ts',
  'test/routing',
  'test/scripts/notices.test.ts',
  'test/scripts/package.test.ts',
  'test/sheets',
  'test/space/cad.test.ts',
  'test/views/field.test.ts',
  'test/views/layout.test.ts',
  'test/views/room.test.ts',
  'test/views/section.test.ts',
  'test/views/space.test.ts',
  'test/winding/jointTips.test.ts',
];

/** Runs the quick tests; arguments, such as a folder of tests, are passed on. */
export async function runStep(args) {
  process.env.SLOTWRIGHT_TRIES ??= '0.2';
  const left = slowTests.flatMap((path) => ['--exclude', path.endsWith('.ts') ? path : `${path}/**`]);
  process.exitCode = await exitCode('node', ['node_modules/vitest/vitest.mjs', 'run', ...left, ...args]);
}
