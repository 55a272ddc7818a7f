// Takes its time: compiles the core.

import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

const root = join(import.meta.dirname, '../..');

let folder = '';

beforeAll(() => {
  mkdirSync(join(root, 'out'), { recursive: true });
  folder = mkdtempSync(join(root, 'out/globals-'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What the compiler says of a file under the very options with which the core is compiled. */
function compile(name: string, source: string): { readonly status: number | null; readonly output: string } {
  const place = join(folder, name);
  mkdirSync(place);
  writeFileSync(join(place, 'planted.ts'), source);
  const compilerOptions = { rootDir: '.', outDir: './types' };
  const config = { extends: '../../../core/tsconfig.json', compilerOptions, include: ['planted.ts'] };
  writeFileSync(join(place, 'tsconfig.json'), JSON.stringify(config));
  const compiler = join(root, 'node_modules/typescript/bin/tsc');
  const { status, stdout } = spawnSync(process.execPath, [compiler, '-p', place], { encoding: 'utf8' });
  return { status, output: stdout };
}

describe('the core compiles without the globals of any host', () => {
  test('plain code passes', () => {
    expect(
      compile('plain', 'export const half = (value: number): number => Math.fround(value / 2);\n'),
    ).toEqual({
      status: 0,
      output: '',
    });
  });

  const globals = {
    document: 'export const title: string = document.title;',
    process: 'export const system: string = process.platform;',
    window: 'export const width: number = window.innerWidth;',
    Buffer: "export const bytes = Buffer.from('a');",
    console: "console.log('a');\nexport {};",
    setTimeout: 'setTimeout(() => undefined, 1);\nexport {};',
  };
  for (const [name, source] of Object.entries(globals))
    test(`${name} is refused`, () => {
      const { status, output } = compile(name, source);
      expect(status).not.toBe(0);
      expect(output).toContain(`'${name}'`);
    });
});
