// A long run of test/fuzz by hand, bundled, without the tools that would slow it.
import * as esbuild from 'esbuild';
import { root, run } from './shell.mjs';

/** Arguments: texts, tables or windings, the first seed and the last. */
export async function runStep(args) {
  await esbuild.build({
    absWorkingDir: root,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    // CommonJS packages in it ask for what Node has.
    banner: {
      js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
    },
    entryPoints: ['test/fuzz/longRun.ts'],
    outfile: 'out/fuzz/longRun.mjs',
  });
  await run('node', ['out/fuzz/longRun.mjs', ...args]);
}
