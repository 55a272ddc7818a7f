// All tests: types, lint, build, unit tests, and the tests in a real editor.
import { runStep as build } from './build.mjs';
import { chromium } from './chromium.mjs';
import { processorWords, secondsOfPrograms } from './processorTime.mjs';
import { unmarkedWords } from './quick.mjs';
import { exitCode, HouseError } from './shell.mjs';
import { closingLines, forget, reportsIn, runTests } from './vitest.mjs';

const typescript = 'node_modules/typescript/bin/tsc';
const projects = [
  'core/tsconfig.json',
  'extension/tsconfig.json',
  'extension/webview/tsconfig.json',
  'tsconfig.json',
  'npm/tsconfig.json',
];

async function checkTypes() {
  let code = 0;
  for (const project of projects) code ||= await exitCode('node', [typescript, '-p', project]);
  return code;
}

function checkStyle() {
  return exitCode('node', ['node_modules/@biomejs/biome/bin/biome', 'check', '--error-on-warnings']);
}

/** Where the two runs of vitest leave their results. */
const results = { unit: 'out/test-unit.json', editor: 'out/test-editor.json' };

async function editorTests() {
  const args = ['--config', 'test/editor/vitest.config.mts'];
  return runTests(results.editor, args, { SLOTWRIGHT_CHROMIUM: await chromium() });
}

/** Seconds of the processor that the unit tests may take on an idle machine: told, for no test can know how busy it is. */
const unitBudget = 90;

let unitTime = '';

async function unitTests() {
  const before = secondsOfPrograms();
  const code = await runTests(results.unit);
  unitTime = processorWords(before, secondsOfPrograms(), unitBudget);
  return code;
}

const steps = {
  types: checkTypes,
  lint: checkStyle,
  build: () => build().then(() => 0),
  'unit tests': unitTests,
  'editor tests': editorTests,
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
  forget(Object.values(results));
  const failed = [];
  for (const name of Object.keys(steps)) if (!(await passes(name))) failed.push(name);
  const [unit] = reportsIn([results.unit]);
  const slow = unit ? unmarkedWords(unit) : '';
  if (slow !== '') console.log(`\n${slow}`);
  if (unitTime !== '') console.log(`\n${unitTime}`);
  for (const line of closingLines(reportsIn(Object.values(results)), failed)) console.log(`\n${line}`);
  if (failed.length > 0) process.exitCode = 1;
}
