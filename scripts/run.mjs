// Runs one step of the house: node scripts/run.mjs build|test|quick|demo|start|bench|package|pictures|fuzz|soak|nodeHost [arguments].
// Uses nothing but Node itself, because it is what installs the rest.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { installNeeded } from './install.mjs';
import { HouseError, root, run } from './shell.mjs';

const steps = [
  'build',
  'test',
  'quick',
  'demo',
  'start',
  'bench',
  'package',
  'pictures',
  'fuzz',
  'soak',
  'nodeHost',
];

/** The parsed JSON file, or null where there is none. */
function readJson(path) {
  return existsSync(path) ? JSON.parse(readFileSync(path, 'utf8')) : null;
}

/** Installs the locked packages, unless exactly these are there already. */
async function install() {
  const locked = readJson(join(root, 'package-lock.json'));
  const installed = readJson(join(root, 'node_modules/.package-lock.json'));
  if (!installNeeded(locked, installed)) return;
  console.log('Installing the locked packages (npm ci) ...');
  await run('npm', ['ci', '--include=dev', '--no-audit', '--no-fund']);
}

async function main([step, ...args]) {
  if (!steps.includes(step)) throw new HouseError(`Usage: node scripts/run.mjs ${steps.join('|')}`);
  await install();
  const { runStep } = await import(`./${step}.mjs`);
  await runStep(args);
}

try {
  await main(process.argv.slice(2));
} catch (error) {
  console.error(error instanceof HouseError ? error.message : error);
  process.exitCode = 1;
}
