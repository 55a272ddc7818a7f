// Takes its time: compiles the core.

import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';

const root = join(import.meta.dirname, '../..');

let folder = '';

beforeAll(() => {
  mkdirSync(join(root, 'out'), { recursive: true });
  folder = mkdtempSync(join(root, 'out/globals-'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Files that ask for a global, each for one, and one that asks for none. */
const sources: Readonly<Record<string, string>> = {
  plain: 'export const half = (value: number): number => Math.fround(value / 2);',
  document: 'export const title: string = document.title;',
  process: 'export const system: string = process.platform;',
  window: 'export const width: number = window.innerWidth;',
  Buffer: "export const bytes = Buffer.from('a');",
  console: "console.log('a');\nexport {};",
  setTimeout: 'setTimeout(() => undefined, 1);\nexport {};',
};

test('the core compiles without the globals of any host, and a file that asks for one is refused', () => {
  const names = Object.keys(sources);
  const core = join(root, 'core/tsconfig.json');
  for (const name of names) writeFileSync(join(folder, `${name}.ts`), `${sources[name]}\n`);
  // The very options with which the core is compiled.
  const config = { extends: core, compilerOptions: { rootDir: '.', outDir: './types' }, include: ['*.ts'] };
  writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify(config));
  const compiler = join(root, 'node_modules/typescript/bin/tsc');
  const { status, stdout } = spawnSync(process.execPath, [compiler, '-p', folder, '--pretty', 'false'], {
    encoding: 'utf8',
  });
  expect(status).not.toBe(0);
  // One line for each, with its file and the global, and none for the file that asks for none.
  const lines = stdout.split('\n').filter((line) => line !== '');
  const refused = lines.map((line) => /(\w+)\.ts\(1,\d+\): error .*?'(\w+)'/.exec(line)?.slice(1) ?? line);
  const asking = names.filter((name) => name !== 'plain');
  expect(refused.sort()).toEqual(asking.map((name) => [name, name]).sort());
});
