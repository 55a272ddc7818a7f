// A long run of test/fuzz by hand.
import { runBundled } from './bundledTool.mjs';

/** Arguments: texts, tables or windings, the first seed and the last. */
export async function runStep(args) {
  await runBundled('test/fuzz/longRun.ts', 'out/fuzz/longRun.mjs', args);
}
