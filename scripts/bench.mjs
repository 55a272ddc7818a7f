// Measures the budgets: bundles test/bench/main.ts and runs it, without the tools that would slow it.
import * as esbuild from 'esbuild';
import { root, run } from './shell.mjs';

const outfile = 'out/bench.cjs';

/** Builds and runs the measurements; arguments are passed on. */
export async function runStep(args) {
  await esbuild.build({
    absWorkingDir: root,
    bundle: true,
    entryPoints: ['test/bench/main.ts'],
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    mainFields: ['module', 'main'],
    outfile,
  });
  await run('node', [outfile, ...args]);
}
