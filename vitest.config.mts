import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    exclude: ['test/editor/**', 'node_modules/**'],
    // A guard against hanging, never against a slow or busy machine.
    testTimeout: 900_000,
    hookTimeout: 900_000,
    alias: { vscode: fileURLToPath(new URL('./test/extension/vscodeStub.ts', import.meta.url)) },
  },
});
