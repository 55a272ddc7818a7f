// The licenses of the packages that are bundled into what users get.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { HouseError, root } from './shell.mjs';

export const noticesFile = 'dist/THIRD-PARTY-NOTICES.txt';

/** Folders of the packages that have code in the outputs of some esbuild metafiles, each once. */
export function bundledPackages(metafiles) {
  const outputs = metafiles.flatMap((metafile) => Object.values(metafile.outputs));
  const folders = outputs.flatMap(({ inputs }) =>
    Object.entries(inputs).flatMap(([path, { bytesInOutput }]) => {
      const folder = path.match(/^.*node_modules\/(?:@[^/]+\/)?[^/]+/)?.[0];
      return folder && bytesInOutput > 0 ? [folder] : [];
    }),
  );
  return [...new Set(folders)].sort();
}

/** One section for each package folder: name, version, license and its text. */
export function noticesText(folders, read = readPackage) {
  const sections = folders.map((folder) => {
    const { name, version, license, author, text } = read(folder);
    if (!text) throw new HouseError(`${folder} is bundled but tells no license.`);
    const by = typeof author === 'string' ? author : author?.name;
    const heading = [`${name} ${version}`, license, by && `by ${by}`].filter(Boolean).join(', ');
    return `${heading}\n\n${text.trim()}\n`;
  });
  const intro = 'Slotwright contains parts of these packages, each under its own license.\n';
  return [intro, ...sections].join(`\n${'-'.repeat(80)}\n\n`);
}

/** What a package's manifest and its license file say; without such a file, its readme's section. */
function readPackage(folder) {
  const path = join(root, folder);
  const { name, version, license, author } = JSON.parse(readFileSync(join(path, 'package.json'), 'utf8'));
  const fileNamed = (pattern) => {
    const file = readdirSync(path).find((entry) => pattern.test(entry));
    return file && readFileSync(join(path, file), 'utf8');
  };
  const text = fileNamed(/^licen[cs]e/i) ?? fileNamed(/^readme/i)?.match(/^#+ licen[cs]e\s[\s\S]*/im)?.[0];
  return { name, version, license, author, text };
}
