// A long run of test/editor/soak.ts by hand.
import { runStep as build } from './build.mjs';
import { runBundled } from './bundledTool.mjs';

/** Arguments: rounds, and keys in each. */
export async function runStep(args) {
  await build();
  await runBundled('test/editor/soakMain.ts', 'out/soak.mjs', args, ['playwright-core']);
}
