// Makes everything that package.json points to, in dist/.
import { mkdir, rm, writeFile } from 'node:fs/promises';
import { join, relative } from 'node:path';
import * as esbuild from 'esbuild';
import { changelogText, packedChangelog } from './changelog.mjs';
import { fileFormatsBundle, fontFile } from './fileFormats.mjs';
import { writeDrawingFont } from './font.mjs';
import { bundledPackages, noticesFile, noticesText } from './notices.mjs';
import { HouseError, root } from './shell.mjs';

const shared = {
  bundle: true,
  target: 'es2022',
  charset: 'utf8',
  legalComments: 'none',
  logLevel: 'warning',
};
const host = { ...shared, format: 'cjs', external: ['vscode'], minify: true };

/**
 * What the extension reads after its start: the engine with the first text, the other part with the first question
 * beside the typing. Both are built together, so that what they share, most of the engine, is there once.
 */
const parts = {
  ...host,
  platform: 'browser',
  format: 'esm',
  splitting: true,
  write: false,
  entryPoints: { engine: 'extension/engine/entry.ts', onDemand: 'extension/onDemand/entry.ts' },
  chunkNames: 'shared',
  outdir: 'dist/extension',
};

/** A script of the pages inside the editor. */
function pageBundle(entry, outfile) {
  return { ...shared, format: 'iife', platform: 'browser', minify: true, entryPoints: [entry], outfile };
}

/** One entry a bundle; parts needed on demand only get a bundle of their own here. */
const bundles = {
  // The start, one bundle for both extension hosts: it uses nothing that only one of them has.
  host: {
    ...host,
    platform: 'browser',
    entryPoints: ['extension/host.ts'],
    outfile: 'dist/extension/host.js',
  },
  // Words of another language: read at the start where it is spoken.
  german: {
    ...host,
    platform: 'browser',
    entryPoints: ['extension/german/main.ts'],
    outfile: 'dist/extension/german.js',
  },
  // Tables of spreadsheets: read with the first that is imported.
  tableReader: {
    ...host,
    platform: 'browser',
    entryPoints: ['core/tables/import/tableReader.ts'],
    outfile: 'dist/extension/tableReader.js',
  },
  panel: pageBundle('extension/webview/panel.ts', 'dist/extension/panel.js'),
  // The bars in space live: loaded by the page when they are first shown.
  space: pageBundle('extension/webview/space/main.ts', 'dist/extension/space.js'),
  // The variants of a text: likewise.
  variants: pageBundle('extension/webview/variants/main.ts', 'dist/extension/variants.js'),
  // Drawing paths by hand: loaded by the page when a reader first draws.
  later: pageBundle('extension/webview/later/main.ts', 'dist/extension/later.js'),
  comparison: pageBundle('extension/webview/comparison.ts', 'dist/extension/comparison.js'),
  style: {
    ...shared,
    minify: true,
    entryPoints: ['extension/webview/styles/layoutPanel.css'],
    outfile: 'dist/extension/panel.css',
  },
  comparisonStyle: {
    ...shared,
    minify: true,
    entryPoints: ['extension/webview/styles/comparison.css'],
    outfile: 'dist/extension/comparison.css',
  },
  fileFormats: fileFormatsBundle,
  cli: {
    ...shared,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    entryPoints: ['cli/main.ts'],
    minify: true,
    banner: { js: '#!/usr/bin/env node' },
    outfile: 'dist/cli/slotwright.js',
  },
};

/** Builds the named bundles (all by default, with the notices of what is in them and the changelog) and prints their sizes. */
export async function runStep(names = []) {
  const known = ['parts', ...Object.keys(bundles)];
  const wanted = names.length > 0 ? names : known;
  const unknown = wanted.filter((name) => !known.includes(name));
  if (unknown.length > 0) throw new HouseError(`No bundle "${unknown[0]}"; there are ${known.join(', ')}.`);
  if (names.length === 0) {
    await rm(join(root, 'dist/extension'), { recursive: true, force: true });
    await rm(join(root, 'dist/fileFormats'), { recursive: true, force: true });
    await rm(join(root, 'dist/cli'), { recursive: true, force: true });
  }
  const metafiles = [];
  for (const name of wanted) metafiles.push(await (name === 'parts' ? writeParts() : bundle(bundles[name])));
  if (names.length === 0) {
    await writeFile(join(root, noticesFile), noticesText(bundledPackages(metafiles)));
    await writeFile(join(root, packedChangelog), changelogText());
  }
  if (wanted.includes('fileFormats')) await writeDrawingFont(fontFile);
}

/**
 * The files of `parts` by their names, as bundles of the form that extension hosts run, and what is in them. Only
 * modules of the newer form can be split, so that they are brought into the older one after that.
 * @returns {Promise<{ files: [string, string][], metafile: esbuild.Metafile }>}
 */
export async function bundledParts() {
  const { metafile, outputFiles } = await esbuild.build({ ...parts, absWorkingDir: root, metafile: true });
  const { format, target, charset, legalComments, minify } = host;
  const files = outputFiles.map(async ({ path, text }) => {
    const { code } = await esbuild.transform(sharedByName(text), {
      format,
      target,
      charset,
      legalComments,
      minify,
    });
    return [relative(root, path), code];
  });
  return { files: await Promise.all(files), metafile };
}

/**
 * A part with what it takes of the shared one under names of its own. As an import, each use of it would be looked up
 * in the module, in 1 % more letters; nothing shared is assigned anew once its module has run.
 */
function sharedByName(code) {
  return code.replace(
    /(?<=^|;)import\s*\{([^}]*)\}\s*from\s*"(\.\/[^"]+)";/gm,
    (_, names, file) =>
      `const {${names.replace(/\bas\b/g, ':').replaceAll(' : ', ': ')}} = require("${file}");`,
  );
}

async function writeParts() {
  const { files, metafile } = await bundledParts();
  await mkdir(join(root, parts.outdir), { recursive: true });
  for (const [path, code] of files) {
    await writeFile(join(root, path), code);
    tellSize(path, Buffer.byteLength(code));
  }
  return metafile;
}

function tellSize(path, bytes) {
  console.log(`${path.padEnd(28)} ${(bytes / 1000).toFixed(1).padStart(8)} kB`);
}

async function bundle(options) {
  try {
    const { metafile } = await esbuild.build({ ...options, absWorkingDir: root, metafile: true });
    for (const [path, { bytes }] of Object.entries(metafile.outputs)) tellSize(path, bytes);
    return metafile;
  } catch {
    throw new HouseError(`${options.outfile} could not be built (see above).`);
  }
}
