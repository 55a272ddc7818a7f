import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readSources } from './imports.ts';
import { surfaceBreaches } from './surfaces.ts';

const root = join(import.meta.dirname, '../..');

const sources: ReadonlyMap<string, string> = new Map(
  ['extension', 'cli'].flatMap((folder) =>
    [...readSources(join(root, folder))].map(
      ([path, text]) => [`${folder}/${path}`, text] as [string, string],
    ),
  ),
);

/** The breaches of one file after a line was planted at its head; circles that this closes are left out. */
function planted(path: string, line: string): readonly string[] {
  expect(sources.has(path), path).toBe(true);
  const found = surfaceBreaches(
    new Map<string, string>([...sources, [path, `${line}\n${sources.get(path)}`]]),
  );
  return found.filter((breach) => breach.startsWith(path));
}

describe('extension and command line load only what is theirs', () => {
  test('as they are, without import circles', () => {
    expect(sources.size).toBeGreaterThan(60);
    expect(surfaceBreaches(sources)).toEqual([]);
  });

  const forbidden: readonly (readonly [string, string, string])[] = [
    ['the editor, on the page', 'extension/webview/panel.ts', `import { window } from 'vscode';`],
    ['the engine, on the page', 'extension/webview/panel.ts', `import { study } from '../support/study.ts';`],
    [
      'the host, on the page',
      'extension/webview/panel.ts',
      `import { names } from '../onDemand/panel/words.ts';`,
    ],
    ['the host, in what both ends know', 'extension/protocol/feed.ts', `import { a } from '../panel.ts';`],
    [
      'the engine at the start',
      'extension/diagnostics.ts',
      `import { checkText } from '../core/findings/checkedText.ts';`,
    ],
    [
      'the engine of the editor at the start',
      'extension/activate.ts',
      `import { createStudies } from './engine/studies.ts';`,
    ],
    [
      'pictures with every keystroke',
      'extension/engine/entry.ts',
      `import { drawView } from '../../core/views/views.ts';`,
    ],
    [
      'reports with every keystroke',
      'extension/engine/studies.ts',
      `import { buildReport } from '../../core/report/build.ts';`,
    ],
    ['what is loaded on demand, at once', 'extension/panel.ts', `import { a } from './onDemand/tables.ts';`],
    [
      'a Node module in the host',
      'extension/onDemand/exporting/exporting.ts',
      `import { readFileSync } from 'node:fs';`,
    ],
    ['a Node module by its other name', 'extension/diagnostics.ts', `import * as path from 'path';`],
    ['zod in full, in the host', 'extension/protocol/messages.ts', `import * as z from 'zod';`],
    ['the editor in the command line', 'cli/commands/check.ts', `import { window } from 'vscode';`],
    [
      'the extension in the command line',
      'cli/commands/check.ts',
      `import { a } from '../../extension/protocol/messages.ts';`,
    ],
  ];
  for (const [what, path, line] of forbidden)
    test(`${what} is refused`, () => {
      expect(planted(path, line)).toHaveLength(1);
    });

  test.each([
    ['values', `import { b } from './b.ts';`],
    ['types', `import type { B } from './b.ts';`],
    ['what is loaded later', `export type B = typeof import('./b.ts');`],
  ])('a circle of %s is refused', (_, line) => {
    const circle = new Map([
      ['extension/a.ts', line],
      ['extension/b.ts', `import { a } from './a.ts';`],
    ]);
    expect(surfaceBreaches(circle)).toEqual([
      'import cycle: extension/a.ts -> extension/b.ts -> extension/a.ts',
    ]);
  });
});
