import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readSources, type Sources } from './imports.ts';

const core = readSources(join(import.meta.dirname, '../../core'));

/** What code of the core must not hold, and how to tell it. */
const forbidden: readonly { readonly what: string; readonly tell: RegExp }[] = [
  {
    what: 'reads a clock',
    tell: /\bDate\.now\b|\bnew Date\b(?!\()|\bDate\(\s*\)|=\s*Date\b|\bperformance\b/,
  },
  { what: 'draws at random', tell: /\bMath\s*\.\s*random\b|\bMath\s*\[|=\s*Math\s*[;,]|\bcrypto\b/ },
  { what: 'reaches around its imports', tell: /\bglobalThis\b/ },
  {
    what: 'follows the settings of the machine',
    tell: /\bIntl\b|\.toLocale\w*\(|\.localeCompare\([^,()]*\)/,
  },
  { what: 'keeps state between calls', tell: /^(?:export )?(?:let|var)\b/m },
  { what: 'declares what is not there', tell: /^\s*(?:export )?declare\b/m },
  { what: 'refers to types beside the imports', tell: /^\/\/\/\s*<reference/m },
];

/** Typings of packages that bring none are named here; they may declare the module. */
const typings = ['tables/papaparse.d.ts', 'views/chart/d3-array.d.ts', 'picture/pdf/pdfkit.d.ts'];

function breaches(sources: Sources): readonly string[] {
  return [...sources].flatMap(([path, source]) => {
    const code = source.replace(/\/\*[\s\S]*?\*\/|(?<!\/)\/\/(?!\/).*$/gm, '');
    return forbidden.flatMap(({ what, tell }) =>
      tell.test(code) && !(typings.includes(path) && what.startsWith('declares')) ? [`${path} ${what}`] : [],
    );
  });
}

describe('the core is plain functions: no clock, no random numbers, no settings of the machine, no state', () => {
  test('as it is', () => {
    expect(breaches(core)).toEqual([]);
  });

  test('each named typing is there', () => {
    for (const path of typings) expect(core.has(path), path).toBe(true);
  });

  const planted: readonly (readonly [string, string])[] = [
    ['const now = Date.now();', 'reads a clock'],
    ['const today = new Date();', 'reads a clock'],
    ['const today = new Date;', 'reads a clock'],
    ['const { now } = Date;', 'reads a clock'],
    ['const start = performance.now();', 'reads a clock'],
    ['const chance = Math.random();', 'draws at random'],
    ['const { random } = Math;', 'draws at random'],
    ['const chance = Math["random"]();', 'draws at random'],
    ['const clock = globalThis;', 'reaches around its imports'],
    ['const words = (12.5).toLocaleString();', 'follows the settings of the machine'],
    ['const first = "a".localeCompare("b");', 'follows the settings of the machine'],
    ['const bytes = crypto.getRandomValues(new Uint8Array(4));', 'draws at random'],
    ['let count = 0;', 'keeps state between calls'],
    ['export let last = 0;', 'keeps state between calls'],
    ['declare const window: unknown;', 'declares what is not there'],
    ['/// <reference lib="dom" />', 'refers to types beside the imports'],
  ];
  for (const [line, what] of planted)
    test(`refused: ${line}`, () => {
      const path = 'winding/model.ts';
      expect(breaches(new Map([[path, `${core.get(path)}\n${line}\n`]]))).toEqual([`${path} ${what}`]);
    });

  test('words in comments are no breach', () => {
    expect(
      breaches(new Map([['a.ts', '// Date.now()\n/* Math.random() */\nexport const a = 1;\n']])),
    ).toEqual([]);
  });
});
