// All tests: types, lint, build, unit tests, and the tests in a real editor.
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { runStep as build } from './build.mjs';
import { chromium } from './chromium.mjs';
import { exitCode, HouseError, root } from './shell.mjs';
import { testCounts } from './testCounts.mjs';

const typescript = 'node_modules/typescript/bin/tsc';
const projects = [
  'core/tsconfig.json',
  'extension/tsconfig.json',
  'extension/webview/tsconfig.json',
  'tsconfig.json',
];

async function checkTypes() {
  let code = 0;
  for (const project of projects) code ||= await exitCode('node', [typescript, '-p', project]);
  return code;
}

function checkStyle() {
  return exitCode('node', ['node_modules/@biomejs/biome/bin/biome', 'check', '--error-on-warnings']);
}

/** Runs vitest, its results also written as JSON to the given file of out/. */
function vitest(results, args, environment) {
  rmSync(join(root, results), { force: true });
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${results}`];
  return exitCode('node', ['node_modules/vitest/vitest.mjs', 'run', ...reporters, ...args], environment);
}

const suites = [
  { results: 'out/test-unit.json', args: [], environment: async () => ({}) },
  {
    results: 'out/test-editor.json',
    args: ['--config', 'test/editor/vitest.config.mts'],
    environment: async () => ({ SLOTWRIGHT_CHROMIUM: await chromium() }),
  },
];

const steps = {
  types: checkTypes,
  lint: checkStyle,
  build: () => build().then(() => 0),
  'unit tests': async () => vitest(suites[0].results, suites[0].args, await suites[0].environment()),
  'editor tests': async () => vitest(suites[1].results, suites[1].args, await suites[1].environment()),
};

/** Runs one step; a step that cannot even run has failed, and says why. */
async function passes(name) {
  console.log(`\n== ${name}`);
  try {
    return (await steps[name]()) === 0;
  } catch (error) {
    console.error(error instanceof HouseError ? error.message : error);
    return false;
  }
}

/** Runs every step, also after one failed, and ends with one line of counts. */
export async function runStep() {
  mkdirSync(join(root, 'out'), { recursive: true });
  for (const { results } of suites) rmSync(join(root, results), { force: true });
  const failed = [];
  for (const name of Object.keys(steps)) if (!(await passes(name))) failed.push(name);
  const results = suites.map(({ results }) => join(root, results)).filter((path) => existsSync(path));
  const counts = testCounts(results.map((path) => JSON.parse(readFileSync(path, 'utf8'))));
  if (failed.length > 0) {
    console.log(`\nFailed: ${failed.join(', ')}`);
    process.exitCode = 1;
  }
  console.log(`${counts.passed} passed, ${counts.failed} failed`);
}
