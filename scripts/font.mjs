// Cuts the font of PDF files: DejaVu Sans Condensed with the characters whose widths the drawings know.
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import * as esbuild from 'esbuild';
import subsetFont from 'subset-font';
import { root } from './shell.mjs';

const source = 'node_modules/dejavu-fonts-ttf';

/** Every character of the width table that the font has. */
async function characters() {
  const { outputFiles } = await esbuild.build({
    absWorkingDir: root,
    entryPoints: ['core/picture/fontTable.ts'],
    bundle: true,
    format: 'esm',
    write: false,
  });
  const table = await import(`data:text/javascript,${encodeURIComponent(outputFiles[0].text)}`);
  let text = '';
  for (const { first, widths } of table.widthRuns)
    for (let index = 0; index < widths.length / 3; index++)
      if (widths.slice(3 * index, 3 * index + 3) !== 'fff') text += String.fromCodePoint(first + index);
  return text;
}

/**
 * The font as bytes, the same each time. Without kerning and ligatures, so that every program that
 * lays out its text finds the widths of the table; without hints, which no printer needs.
 */
export async function drawingFont() {
  const font = await readFile(join(root, source, 'ttf/DejaVuSansCondensed.ttf'));
  return subsetFont(font, await characters(), {
    targetFormat: 'truetype',
    noLayoutClosure: true,
    noHinting: true,
    dropTables: ['GSUB', 'GPOS', 'GDEF', 'MATH', 'kern', 'gasp'],
  });
}

/** Writes the font and, beside it, its license; prints the size. */
export async function writeDrawingFont(path) {
  const font = await drawingFont();
  const file = join(root, path);
  await mkdir(dirname(file), { recursive: true });
  await writeFile(file, font);
  await writeFile(join(dirname(file), 'FONT-LICENSE.txt'), await readFile(join(root, source, 'LICENSE')));
  console.log(`${path.padEnd(28)} ${(font.length / 1000).toFixed(1).padStart(8)} kB`);
}
