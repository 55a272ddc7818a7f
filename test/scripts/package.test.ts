// Takes its time: it reads what was built.
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
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

/** Every file that the allow-list of package.json lets into the package, as paths from the project's folder. */
function allowedFiles(): readonly string[] {
  const { files } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    files: readonly string[];
  };
  return ['package.json', ...files].flatMap((entry) =>
    statSync(join(root, entry)).isDirectory()
      ? readdirSync(join(root, entry), { recursive: true, encoding: 'utf8' })
          .map((name) => join(entry, name))
          .filter((path) => statSync(join(root, path)).isFile())
      : [entry],
  );
}

const packedSize = (path: string) => deflateRawSync(readFileSync(join(root, path))).length;

/** What a ZIP archive adds to the bytes of an entry: two headers with its name; and the package two lists of its own. */
const headers = 200;
const lists = 2000;

test('the package stays within its size', () => {
  const files = allowedFiles();
  expect(files).toContain('dist/extension/host.js');
  expect(files).toContain('dist/extension/space.js');
  const size = files.reduce((sum, path) => sum + packedSize(path) + headers, lists);
  // The bars in space live come on top.
  const live = packedSize('dist/extension/space.js');
  expect(size - live).toBeLessThan(1_500_000);
  expect(live).toBeLessThan(160_000);
});

// The packer walks all folders there are, which takes seconds.
test.each(withMore([], ['twice']))('the same files give the same package, byte for byte', async () => {
  const [first, second] = ['first.vsix', 'second.vsix'].map((name) => join(folder, name));
  for (const path of [first!, second!]) await pack(path, '1767225600');
  expect(readFileSync(second!).equals(readFileSync(first!))).toBe(true);
});
