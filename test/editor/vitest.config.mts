import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The tests in a real editor: one after the other, and never failing because a machine is slow. */
// biome-ignore lint/style/noDefaultExport: this is how vitest reads its configuration
export default defineConfig({
  test: {
    root: fileURLToPath(new URL('../..', import.meta.url)),
    include: ['test/editor/**/*.test.ts'],
    fileParallelism: false,
    bail: 1,
    testTimeout: 600_000,
    hookTimeout: 600_000,
    expect: { poll: { timeout: 240_000 } },
  },
});
