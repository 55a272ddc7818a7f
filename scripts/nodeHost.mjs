// The tests in a real editor whose extensions run in Node, with the package as it is installed.
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { runStep as build } from './build.mjs';
import { chromium } from './chromium.mjs';
import { fetchNodeEditor } from './nodeEditorServer.mjs';
import { pack, sourceDate } from './package.mjs';
import { root } from './shell.mjs';
import { closingLines, reportsIn, runTests } from './vitest.mjs';

const results = 'out/test-node-host.json';

/** Builds, packs, fetches the editor where it is not there, runs the tests, and ends as `npm test` does; arguments are names of some of them. */
export async function runStep(args) {
  await build();
  const extension = join(root, 'out/node-host.vsix');
  await mkdir(join(root, 'out'), { recursive: true });
  await pack(extension, await sourceDate());
  await fetchNodeEditor();
  const environment = { SLOTWRIGHT_CHROMIUM: await chromium(), SLOTWRIGHT_NODE_HOST: extension };
  process.exitCode = await runTests(
    results,
    ['--config', 'test/editor/vitest.config.mts', ...args],
    environment,
  );
  for (const line of closingLines(reportsIn([results]))) console.log(`\n${line}`);
}
