// Takes its time: bundles the engine.

import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join, relative } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { expect, test } from 'vitest';
import { engineBundle, npmManifest, packedDeclaration } from '../../scripts/npmPackage.mjs';
import { capture, root } from '../../scripts/shell.mjs';

/** Every value that the package exports. */
const names = [
  'compare',
  'comparisonMarkdown',
  'drawView',
  'format',
  'pictureToSvg',
  'reportSchema',
  'schedule',
  'scheduleTables',
  'sheets',
  'shopModel',
  'study',
  'troubleWords',
  'viewNames',
  'windingFromTable',
  'writeStep',
  'writeStl',
];

test('the engine is one ES module of the listed names, which asks its host for nothing', async () => {
  const folder = mkdtempSync(join(root, 'node_modules/.engine-'));
  try {
    const outfile = join(folder, 'engine.mjs');
    const { metafile } = await build({ ...engineBundle, outfile, minify: false, metafile: true });
    const [output] = Object.values(metafile!.outputs);
    expect([...output!.exports].sort()).toEqual(names);
    expect(output!.imports.filter(({ external }) => external)).toEqual([]);
    const engine = await import(pathToFileURL(outfile).href);
    const { findings, facts } = engine.study(
      'winding "T"\nmachine { slots 12 poles 2 phases 3 }\nlayout { layers 2 span 6 }\n',
    );
    expect(findings).toEqual([]);
    expect(engine.windingFromTable(engine.schedule(facts, 'slots'))).toMatchObject({ kind: 'winding' });
    const readme = readFileSync(join(root, 'npm/README.md'), 'utf8');
    for (const name of names) expect(readme).toContain(`\`${name}`);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test('the page of the package links to nothing that is not in it', () => {
  const readme = readFileSync(join(root, 'npm/README.md'), 'utf8');
  const links = [...readme.matchAll(/\]\(([^)\s]+)/g)].map(([, link]) => link!);
  expect(links.filter((link) => !/^(?:\w+:|#)/.test(link))).toEqual([]);
});

test('the manifest has no dependency, and points to files of the allow-list', () => {
  const project = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const manifest: Record<string, unknown> & { files: string[]; exports: Record<string, unknown> } =
    npmManifest(project);
  expect(manifest).toMatchObject({ name: 'slotwright', version: project.version, license: 'MIT' });
  expect(manifest).not.toHaveProperty('dependencies');
  const pointed = [
    ...JSON.stringify([manifest.exports, manifest.bin]).matchAll(
      /"(?:\.\/)?((?:[\w.-]+\/)*[\w.-]+\.(?:mjs|js|ts|json))"/g,
    ),
  ];
  expect(pointed.length).toBeGreaterThan(4);
  for (const [, path] of pointed)
    expect(
      path === 'package.json' ||
        manifest.files.some((entry) => path === entry || path!.startsWith(`${entry}/`)),
      path,
    ).toBe(true);
});

test('its declarations are made with those of every package that comes without', async () => {
  const compiler = join(root, 'node_modules/typescript/bin/tsc');
  const project = join(root, 'npm/tsconfig.json');
  const { output } = await capture('node', [compiler, '-p', project, '--listFilesOnly']);
  const read = new Set(
    String(output)
      .split('\n')
      .map((path) => relative(root, path).replaceAll('\\', '/')),
  );
  const packages = readdirSync(join(root, 'core'), { recursive: true })
    .map((path) => `core/${String(path).replaceAll('\\', '/')}`)
    .filter((path) => path.endsWith('.d.ts'));
  expect(packages.length).toBeGreaterThan(1);
  expect(packages.filter((path) => !read.has(path))).toEqual([]);
});

test('declarations name files that are there', () => {
  const text = `import type { A } from './a.ts';\nexport * from "../b/c.ts";\nimport * as z from 'zod';\nimport { m } from 'zod/mini';\n`;
  expect(packedDeclaration(text, 3)).toBe(
    `import type { A } from './a.js';\nexport * from "../b/c.js";\nimport * as z from '../../../zod/classic/external.js';\nimport { m } from '../../../zod/mini/external.js';\n`,
  );
});
