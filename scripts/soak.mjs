// A long run of test/editor/soak.ts by hand.
import * as esbuild from 'esbuild';
import { runStep as build } from './build.mjs';
import { root, run } from './shell.mjs';

/** Arguments: rounds, and keys in each. */
export async function runStep(args) {
  await build();
  await esbuild.build({
    absWorkingDir: root,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    external: ['playwright-core'],
    banner: {
      js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
    },
    entryPoints: ['test/editor/soakMain.ts'],
    outfile: 'out/soak.mjs',
  });
  await run('node', ['out/soak.mjs', ...args]);
}
