// Takes its time: bundles the engine.

import { join } from 'node:path';
import * as esbuild from 'esbuild';
import { expect, test } from 'vitest';
import type { TableReader } from '../../extension/onDemand/importTable.ts';
import { fileFormatsBundle } from '../../scripts/fileFormats.mjs';
import { bundledPackages } from '../../scripts/notices.mjs';
import { builtParts } from './builtParts.ts';

const root = join(import.meta.dirname, '../..');

/** An entry's bundle, its size in bytes, and the files that something of is left in it; as the build makes it. */
async function bundled(entry: string, format: 'cjs' | 'iife') {
  const { metafile, outputFiles } = await esbuild.build({
    absWorkingDir: root,
    entryPoints: [entry],
    bundle: true,
    minify: true,
    metafile: true,
    write: false,
    outdir: 'dist',
    format,
    platform: 'browser',
    target: 'es2022',
    charset: 'utf8',
    legalComments: 'none',
    external: ['vscode'],
  });
  const [output] = Object.values(metafile.outputs);
  const files = Object.entries(output!.inputs).flatMap(([file, { bytesInOutput }]) =>
    bytesInOutput > 0 ? [file] : [],
  );
  return { code: outputFiles[0]!.text, size: output!.bytes, files };
}

test('what loads at the start is at most 30 kB, without the engine', async () => {
  const { size, files } = await bundled('extension/host.ts', 'cjs');
  expect(size).toBeLessThanOrEqual(30_000);
  // A file that is not open is read without the editor.
  expect(files.filter((file) => !/^extension\/(?!(?:engine|onDemand|webview)\/)/.test(file))).toEqual([
    'core/language/text/lines.ts',
  ]);
});

test('what every keystroke needs is at most 530 kB, without words of figures, pictures, tables, reports, sheets, comparison and variants', async () => {
  const { files, metafile } = await builtParts();
  const sizes = new Map(files.map(([path, code]) => [path, Buffer.byteLength(code)]));
  const [engine, shared] = ['dist/extension/engine.js', 'dist/extension/shared.js'];
  expect([...sizes.keys()].sort()).toEqual([engine, 'dist/extension/onDemand.js', shared]);
  // Of these 1 kB so that segments are told apart without measuring them, a fifth of what contacts take.
  expect(sizes.get(engine)! + sizes.get(shared)!).toBeLessThanOrEqual(530_000);
  const inputs = [engine, shared].flatMap((path) =>
    Object.entries(metafile.outputs[path]!.inputs).flatMap(([file, { bytesInOutput }]) =>
      bytesInOutput > 0 ? [file] : [],
    ),
  );
  expect(inputs).toContain('core/findings/checkedText.ts');
  const later =
    /^(?:core\/(?:figures\/(?:groups|register)\.|(?:picture|tables|report|views|sheets|review|variants)\/)|extension\/(?:onDemand|webview)\/)/;
  expect(inputs.filter((file) => later.test(file))).toEqual([]);
});

test('what reads tables of spreadsheets comes in a bundle of its own, at most 45 kB, which runs by itself', async () => {
  const { code, size, files } = await bundled('core/tables/import/tableReader.ts', 'cjs');
  expect(size).toBeLessThanOrEqual(45_000);
  expect(files.filter((file) => /^core\/language\/(?:format|specification|vocabulary)\//.test(file))).toEqual(
    [],
  );
  const { metafile } = await builtParts();
  const { inputs } = metafile.outputs['dist/extension/onDemand.js']!;
  expect(Object.keys(inputs).filter((file) => file.startsWith('core/tables/import/'))).toEqual([]);
  const module = { exports: {} as TableReader };
  new Function('module', 'exports', code)(module, module.exports);
  const made = module.exports.readWinding('slot;a\n1;+U\n2;-W\n3;+V\n4;-U\n5;+W\n6;-V\n', {
    poles: 2,
    connection: 'star',
  });
  expect(made).toMatchObject({ kind: 'winding', text: expect.stringContaining('slots 6') });
});

test('the page of the panel is at most 80 kB, and holds nothing of the engine but what draws', async () => {
  const { size, files } = await bundled('extension/webview/panel.ts', 'iife');
  expect(size).toBeLessThanOrEqual(80_000);
  const own =
    /^(?:core\/(?:picture\/|language\/(?:numbers|layerLetters)|winding\/model|winding\/integers|views\/space\/camera)|extension\/|node_modules\/(?!three\/))/;
  expect(files.filter((file) => !own.test(file))).toEqual([]);
});

test('the bars in space come live in a bundle of their own, at most 600 kB, that the page loads later', async () => {
  const { size, files } = await bundled('extension/webview/space/main.ts', 'iife');
  expect(size).toBeLessThanOrEqual(600_000);
  const own =
    /^(?:core\/views\/space\/camera|core\/language\/layerLetters|core\/winding\/(?:model|integers)|extension\/|node_modules\/three\/)/;
  expect(files.filter((file) => !own.test(file))).toEqual([]);
  expect(files.filter((file) => /zod/.test(file))).toEqual([]);
});

test('drawing by hand comes in a small bundle of its own, which the page loads with the first drawing', async () => {
  const { size, files } = await bundled('extension/webview/later/main.ts', 'iife');
  expect(size).toBeLessThanOrEqual(10_000);
  expect(files.filter((file) => !/^extension\/(?:webview|protocol)\//.test(file))).toEqual([]);
});

test('the writers of files are at most 560 kB, without what drawings never come to and what takes long to read', async () => {
  const options = { ...(fileFormatsBundle as esbuild.BuildOptions), metafile: true as const, write: false };
  const { metafile } = await esbuild.build(options);
  const [output] = Object.values(metafile.outputs);
  expect(output!.bytes).toBeLessThanOrEqual(560_000);
  const packages = bundledPackages([metafile]);
  expect(packages).toContain('node_modules/pdfkit');
  expect(packages.filter((name) => /brotli|ciphers|linebreak/.test(name))).toEqual([]);
});
