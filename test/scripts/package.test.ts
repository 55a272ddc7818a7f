// Takes its time: it reads what was built.
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join, normalize } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { packedChangelog, withoutFileLinks } from '../../scripts/changelog.mjs';
import { listingPage, pack } from '../../scripts/package.mjs';
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
  return ['package.json', ...files].flatMap((entry) => {
    if (entry.includes('*')) {
      const folder = dirname(entry);
      return readdirSync(join(root, folder))
        .filter((name) => name.endsWith(basename(entry).replace('*', '')))
        .map((name) => join(folder, name));
    }
    return statSync(join(root, entry)).isDirectory()
      ? readdirSync(join(root, entry), { recursive: true, encoding: 'utf8' })
          .map((name) => join(entry, name))
          .filter((path) => statSync(join(root, path)).isFile())
      : [entry];
  });
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

test('what is packed links to nothing that is not, and shows no picture that is not', () => {
  const files = allowedFiles();
  const pages = files.filter((file) => file.endsWith('.md'));
  expect(pages).toEqual(expect.arrayContaining([listingPage, packedChangelog]));
  // These two stand beside the manifest in the package.
  const folderOf = (page: string) => ([listingPage, packedChangelog].includes(page) ? '' : dirname(page));
  const dead = pages.flatMap((page) =>
    linksOf(readFileSync(join(root, page), 'utf8'))
      .filter((link) => !/^(?:\w+:|#)/.test(link))
      .filter((link) => !files.includes(normalize(join(folderOf(page), link.replace(/#.*/, '')))))
      .map((link) => `${page}: ${link}`),
  );
  expect(dead).toEqual([]);
});

test('the packed changelog is that of the project, with words in place of links to its files', () => {
  const read = (path: string) => readFileSync(join(root, path), 'utf8');
  const links = (path: string) => linksOf(read(path)).filter((link) => link.startsWith('https:'));
  expect(links(packedChangelog)).toEqual(links('CHANGELOG.md'));
  expect(links(packedChangelog).length).toBeGreaterThan(0);
  expect(read(packedChangelog).match(/^## .*$/gm)).toEqual(read('CHANGELOG.md').match(/^## .*$/gm));
  expect(withoutFileLinks('See [a](docs/a.md), [`b`](b.json#c) and [c](https://c.org/).')).toBe(
    'See a, `b` and [c](https://c.org/).',
  );
});

/** Where the links and pictures of a Markdown text lead. */
function linksOf(text: string): readonly string[] {
  return [...text.matchAll(/\]\(([^)\s]+)[^)]*\)|^\[[^\]]+\]:\s*(\S+)/gm)].map(
    ([, inline, below]) => inline ?? below!,
  );
}

// The packer walks all folders there are, which takes seconds.
test.each(withMore([], ['twice']))('the same files give the same package, byte for byte', async () => {
  const [first, second] = ['first.vsix', 'second.vsix'].map((name) => join(folder, name));
  for (const path of [first!, second!]) await pack(path, '1767225600');
  expect(readFileSync(second!).equals(readFileSync(first!))).toBe(true);
});
