import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    exclude: ['test/editor/**', 'node_modules/**'],
    testTimeout: 120_000,
    alias: { vscode: fileURLToPath(new URL('./test/extension/vscodeStub.ts', import.meta.url)) },
  },
});
