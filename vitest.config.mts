import { execFileSync } from 'node:child_process';
import { defineConfig } from 'vitest/config';
import { testedModules } from './test/support/builtModules.mts';

/**
 * Most functions are too short-lived in tests, or meet too many kinds of objects, to be worth the optimizing compiler,
 * which by default takes a third of all: it waits for sixteen times as much work, and the quick compiler for none. What
 * is made and thrown away soon gets more room, in megabytes, before it is looked through, and one thread looks: several
 * share the work at a price, and here the processor's time counts, not the clock's.
 */
const engineFlags = [
  '--interrupt-budget=1080000',
  '--always-sparkplug',
  '--min-semi-space-size=128',
  '--max-semi-space-size=128',
  '--single-threaded-gc',
];

/** Those of the flags that this version of Node knows; it would not start with others. */
function knownFlags(): string[] {
  const known = execFileSync(process.execPath, ['--v8-options'], { encoding: 'utf8' });
  return engineFlags.filter((flag) => known.includes(` ${flag.split('=')[0]} `));
}

export default defineConfig({
  plugins: [testedModules()],
  test: {
    include: ['test/**/*.test.ts'],
    exclude: ['test/editor/**', 'node_modules/**'],
    // The modules of the engine hold no state, so that files share them: to load them anew for each costs more
    // than most tests. A test that changes what others see (a folder, a variable, the editor's stand-in) puts it back.
    isolate: false,
    // One worker compiles and studies once what several would each for themselves; where the wall clock counts more
    // than the processor, as in the quick tests, there are several.
    maxWorkers: 1,
    execArgv: knownFlags(),
    server: { deps: { external: [/\/out\/tested\//] } },
    // A guard against hanging, never against a slow or busy machine.
    testTimeout: 900_000,
    hookTimeout: 900_000,
  },
});
