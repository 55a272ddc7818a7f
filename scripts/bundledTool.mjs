// Tools of test/ that are run by hand: bundled first, without what would slow them.
import * as esbuild from 'esbuild';
import { root, run } from './shell.mjs';

/** Bundles the tool that begins at `entry` into `out/`, and runs it; packages in `external` are left as they are installed. */
export async function runBundled(entry, outfile, args, external = []) {
  await esbuild.build({
    absWorkingDir: root,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    external,
    // CommonJS packages in it ask for what Node has.
    banner: {
      js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
    },
    entryPoints: [entry],
    outfile,
  });
  await run('node', [outfile, ...args]);
}
