// Builds the extension's package (VSIX) from the allow-list "files" of package.json, and the npm package.
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { runStep as build } from './build.mjs';
import { packedChangelog } from './changelog.mjs';
import { packFolder } from './npmPackage.mjs';
import { missingFiles, strayFiles } from './packageFiles.mjs';
import { capture, HouseError, root } from './shell.mjs';

const vsce = join(root, 'node_modules/@vscode/vsce/vsce');
/** What the editor shows of the extension; it links to nothing that is not in the package. */
export const listingPage = 'media/extension.md';
const listing = ['--readme-path', listingPage];

/** Every file that the package would hold. */
async function listed() {
  const { code, output, complaints } = await capture('node', [vsce, 'ls', '--no-dependencies', ...listing]);
  if (code !== 0) throw new HouseError(`vsce ls failed:\n${complaints}`);
  return output.split('\n').filter((line) => line !== '');
}

/** The time to stamp on all entries: given, or that of the last commit, so that equal sources give equal bytes. */
export async function sourceDate() {
  if (process.env.SOURCE_DATE_EPOCH) return process.env.SOURCE_DATE_EPOCH;
  const { code, output } = await capture('git', ['log', '-1', '--format=%ct']).catch(() => ({ code: 1 }));
  return code === 0 ? output.trim() : '1767225600';
}

/** Packs what is built into a file at `path`, every entry stamped with `date` (seconds since 1970). */
export async function pack(path, date) {
  const flags = [
    '--no-dependencies',
    '--no-rewrite-relative-links',
    '--allow-missing-repository',
    ...listing,
    ...['--changelog-path', packedChangelog],
  ];
  const packing = await capture('node', [vsce, 'package', ...flags, '--out', path], {
    SOURCE_DATE_EPOCH: date,
  });
  if (packing.code !== 0) throw new HouseError(`vsce package failed:\n${packing.complaints}`);
}

/** Builds, checks the list of files, packs, and prints path, size and digest. */
export async function runStep() {
  await build();
  const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const files = await listed();
  const wrong = [
    ...missingFiles(manifest, files).map((path) => `missing: ${path}`),
    ...strayFiles(manifest, files).map((path) => `not on the allow-list: ${path}`),
  ];
  if (wrong.length > 0) throw new HouseError(`The package would be wrong:\n${wrong.join('\n')}`);
  mkdirSync(join(root, 'out'), { recursive: true });
  const path = join('out', `slotwright-${manifest.version}.vsix`);
  await pack(path, await sourceDate());
  console.log(`${path}: ${files.length} files, ${sizeWords(path)}`);
  const tarball = await packFolder();
  console.log(`${tarball}: ${sizeWords(tarball)}`);
}

/** Size and digest of a file. */
function sizeWords(path) {
  const bytes = readFileSync(join(root, path));
  const digest = createHash('sha256').update(bytes).digest('hex');
  return `${(bytes.length / 1000).toFixed(0)} kB, sha256 ${digest}`;
}
