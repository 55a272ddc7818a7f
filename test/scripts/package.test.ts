import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { pack } from '../../scripts/package.mjs';
import { root } from '../../scripts/shell.mjs';

let folder = '';

beforeAll(() => {
  if (!existsSync(join(root, 'dist/extension/host.js'))) throw new Error('Run "npm run build" first.');
  mkdirSync(join(root, 'out'), { recursive: true });
  folder = mkdtempSync(join(root, 'out/package-'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('the same files give the same package, byte for byte, and it stays within its size', async () => {
  const [first, second] = [join(folder, 'first.vsix'), join(folder, 'second.vsix')];
  await pack(first, '1767225600');
  await pack(second, '1767225600');
  const bytes = readFileSync(first);
  expect(bytes.equals(readFileSync(second))).toBe(true);
  expect(bytes.length).toBeLessThan(1_500_000);
});
