import { defineConfig } from 'vitest/config';
import { testedModules } from './test/support/builtModules.mts';

export default defineConfig({
  plugins: [testedModules()],
  test: {
    include: ['test/**/*.test.ts'],
    exclude: ['test/editor/**', 'node_modules/**'],
    // The modules of the engine hold no state, so that files share them: to load them anew for each costs more
    // than most tests. A test that changes what others see (a folder, a variable, the editor's stand-in) puts it back.
    isolate: false,
    maxWorkers: '100%',
    server: { deps: { external: [/\/out\/tested\//] } },
    // A guard against hanging, never against a slow or busy machine.
    testTimeout: 900_000,
    hookTimeout: 900_000,
  },
});
