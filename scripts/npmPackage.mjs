// The command line and the engine as one npm package, without dependencies: dist/npm, packed into out/.
import { copyFileSync, cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as esbuild from 'esbuild';
import { noticesFile } from './notices.mjs';
import { capture, HouseError, root } from './shell.mjs';

const folder = join(root, 'dist/npm');

/**
 * Options of esbuild for the engine: one ES module that asks its host for nothing.
 *
 * @type {import('esbuild').BuildOptions}
 */
export const engineBundle = {
  entryPoints: ['npm/engine.ts'],
  outfile: 'dist/npm/engine/engine.mjs',
  bundle: true,
  format: 'esm',
  platform: 'browser',
  target: 'es2022',
  charset: 'utf8',
  minify: true,
  legalComments: 'none',
  logLevel: 'warning',
  absWorkingDir: root,
};

/** The package's manifest, from that of the project. */
export function npmManifest({ name, version, license, engines }) {
  return {
    name,
    version,
    description:
      'The winding of an electric machine as a text file: command line and engine to check, compute and draw it.',
    keywords: ['winding', 'electric-machine', 'hairpin', 'stator'],
    license,
    type: 'commonjs',
    engines: { node: engines.node },
    bin: { slotwright: 'cli/slotwright.js' },
    types: './types/npm/engine.d.ts',
    exports: {
      '.': { types: './types/npm/engine.d.ts', default: './engine/engine.mjs' },
      './report.schema.json': './report.schema.json',
      './compare.schema.json': './compare.schema.json',
      './variants.schema.json': './variants.schema.json',
      './package.json': './package.json',
    },
    sideEffects: false,
    files: [
      'cli',
      'fileFormats',
      'engine',
      'types',
      'report.schema.json',
      'compare.schema.json',
      'variants.schema.json',
      'THIRD-PARTY-NOTICES.txt',
    ],
  };
}

/** Declarations as the package holds them: of files that end in .js, and the types of schemas beside them. */
export function packedDeclaration(text, depth) {
  const zod = (part) => `${'../'.repeat(depth)}zod/${part}/external.js`;
  return text
    .replace(/(from\s+|import\()(['"])(\.{1,2}\/[^'"]+)\.ts\2/g, '$1$2$3.js$2')
    .replace(/(from\s+|import\()(['"])zod\2/g, `$1$2${zod('classic')}$2`)
    .replace(/(from\s+|import\()(['"])zod\/mini\2/g, `$1$2${zod('mini')}$2`);
}

/** Fills dist/npm; the bundles of the command line and of the file formats have been built. */
export async function fillFolder() {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  await esbuild.build(engineBundle);
  await writeTypes();
  cpSync(join(root, 'dist/cli'), join(folder, 'cli'), { recursive: true });
  cpSync(join(root, 'dist/fileFormats'), join(folder, 'fileFormats'), { recursive: true });
  const copies = [
    ['docs/report.schema.json', 'report.schema.json'],
    ['docs/compare.schema.json', 'compare.schema.json'],
    ['docs/variants.schema.json', 'variants.schema.json'],
    ['npm/README.md', 'README.md'],
    ['LICENSE', 'LICENSE'],
    [noticesFile, 'THIRD-PARTY-NOTICES.txt'],
  ];
  for (const [from, to] of copies) copyFileSync(join(root, from), join(folder, to));
  const manifest = npmManifest(JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')));
  writeFileSync(join(folder, 'package.json'), `${JSON.stringify(manifest, null, 2)}\n`);
}

/** The engine's declarations, and those of zod that the report's schema is told in. */
async function writeTypes() {
  const compiler = join(root, 'node_modules/typescript/bin/tsc');
  const { code, output } = await capture('node', [compiler, '-p', join(root, 'npm/tsconfig.json')]);
  if (code !== 0) throw new HouseError(`The declarations cannot be made:\n${output}`);
  const types = join(folder, 'types');
  for (const path of declarationsIn(types)) {
    const file = join(types, path);
    writeFileSync(file, packedDeclaration(readFileSync(file, 'utf8'), path.split('/').length - 1));
  }
  for (const part of ['classic', 'core', 'locales', 'mini']) {
    const from = join(root, 'node_modules/zod/v4', part);
    mkdirSync(join(types, 'zod', part), { recursive: true });
    for (const path of declarationsIn(from)) copyFileSync(join(from, path), join(types, 'zod', part, path));
  }
}

function declarationsIn(path) {
  const names = readdirSync(path, { recursive: true }).map((name) => String(name).replaceAll('\\', '/'));
  return names.filter((name) => name.endsWith('.d.ts'));
}

/** Packs dist/npm into out/, and gives the tarball's path from the project's folder. */
export async function packFolder() {
  await fillFolder();
  mkdirSync(join(root, 'out'), { recursive: true });
  const target = ['--pack-destination', join(root, 'out')];
  const { code, output, complaints } = await capture('npm', [
    'pack',
    folder,
    '--json',
    '--offline',
    ...target,
  ]);
  if (code !== 0) throw new HouseError(`npm pack failed:\n${complaints}`);
  return join('out', JSON.parse(output)[0].filename);
}
