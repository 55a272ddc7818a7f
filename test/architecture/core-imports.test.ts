import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { breaches, importsOf, readSources } from './imports.ts';

const core = readSources(join(import.meta.dirname, '../../core'));

/** The file's own breaches after a line was planted at its head; cycles that this closes are left out. */
function planted(path: string, line: string): string[] {
  const found = breaches(new Map([...core, [path, `${line}\n${core.get(path) ?? ''}`]]));
  return found.filter((breach) => breach.startsWith(path));
}

describe('the core imports only itself, in the order of the flow', () => {
  test('as it is', () => {
    expect(core.size).toBeGreaterThan(20);
    expect(breaches(core)).toEqual([]);
  });

  const forbidden: readonly (readonly [string, string, string])[] = [
    ['the editor', 'language/text/lexer.ts', `import { window } from 'vscode';`],
    ['a Node module', 'winding/derive.ts', `import { readFileSync } from 'fs';`],
    ['a Node module by its other name', 'winding/derive.ts', `import * as fs from 'node:fs';`],
    ['a Node module by require', 'winding/derive.ts', `const fs = require('node:fs');`],
    ['a Node module on demand', 'study.ts', `const fs = await import('node:fs/promises');`],
    ['the command line', 'report/build.ts', `import { run } from '../../cli/main.ts';`],
    [
      'the extension, as a type',
      'study.ts',
      `import type { Studies } from '../extension/engine/studies.ts';`,
    ],
    ['the extension, passed on', 'study.ts', `export * from '../extension/engine/studies.ts';`],
    ['a package of the page', 'views/layout/layout.ts', `import { Scene } from 'three';`],
    ['the PDF library outside the PDF writer', 'report/build.ts', `import PDFDocument from 'pdfkit';`],
    [
      'a folder later in the flow',
      'language/text/parser.ts',
      `import { deriveWinding } from '../../winding/derive.ts';`,
    ],
    ['the study', 'report/build.ts', `import { study } from '../study.ts';`],
    [
      'a folder later in the flow, from deeper down',
      'views/layout/layout.ts',
      `import { sheets } from '../../sheets/sheets.ts';`,
    ],
    [
      'zod by the form that drags in all languages',
      'language/specification/values.ts',
      `import { z } from 'zod';`,
    ],
    ['an import that runs a file', 'language/text/lexer.ts', `import '../../winding/derive.ts';`],
  ];
  for (const [what, path, line] of forbidden)
    test(`${what} is refused`, () => {
      expect(planted(path, line)).toHaveLength(1);
    });

  test('a cycle within a folder is refused', () => {
    const cyclic = new Map([
      ['language/a.ts', `import { b } from './b.ts';`],
      ['language/b.ts', `import { a } from './a.ts';`],
    ]);
    expect(breaches(cyclic)).toEqual(['import cycle: language/a.ts -> language/b.ts -> language/a.ts']);
  });

  test('words in comments and strings of other files are no imports', () => {
    expect(importsOf(`// import 'fs'\n/* import 'fs' */\nimport { a } from "./a.ts";`)).toEqual(['./a.ts']);
  });
});
