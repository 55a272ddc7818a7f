import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/**
 * The tests in a real editor, two files at a time: each has a server and a browser of its own. None fails because a
 * machine is slow, but what never comes is told of soon. What fails is tried once more in a window loaded anew, and then
 * named by `npm test`: two tries that fail end the run.
 */
// biome-ignore lint/style/noDefaultExport: this is how vitest reads its configuration
export default defineConfig({
  test: {
    root: fileURLToPath(new URL('../..', import.meta.url)),
    include: ['test/editor/**/*.test.ts'],
    setupFiles: ['test/editor/setup.ts'],
    maxWorkers: 2,
    bail: 1,
    retry: 1,
    testTimeout: 300_000,
    hookTimeout: 300_000,
    expect: { poll: { timeout: 90_000 } },
  },
});
