// Takes its time: makes the package.

import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { pack } from '../../scripts/package.mjs';
import { root } from '../../scripts/shell.mjs';
import { withMore } from '../support/tries.ts';

let folder = '';

beforeAll(() => {
  if (!existsSync(join(root, 'dist/extension/host.js'))) throw new Error('Run "npm run build" first.');
  mkdirSync(join(root, 'out'), { recursive: true });
  folder = mkdtempSync(join(root, 'out/package-'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function packed(name: string): Promise<Buffer> {
  const path = join(folder, name);
  await pack(path, '1767225600');
  return readFileSync(path);
}

test('the package stays within its size; the same files give the same one, byte for byte', async () => {
  const bytes = await packed('first.vsix');
  // The bars in space live come on top.
  const live = deflateRawSync(readFileSync(join(root, 'dist/extension/space.js')));
  expect(bytes.length - live.length).toBeLessThan(1_500_000);
  expect(live.length).toBeLessThan(160_000);
  for (const name of withMore([], ['second.vsix'])) expect(bytes.equals(await packed(name))).toBe(true);
});
