// Takes its time: drives the extension with whole windings.

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { vocabulary } from '../../../core/language/vocabulary/vocabulary.ts';
import { tries } from '../../support/tries.ts';
import { activateOnStub, soundText } from '../activated.ts';
import { editorState, openStubDocument, uncanceled } from '../vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

/** Opens the text without its mark `¦`; the position is where the mark was. */
function opened(marked: string) {
  const document = openStubDocument('pump.winding', marked.replace('¦', ''));
  return { document, at: document.positionAt(marked.indexOf('¦')) };
}

async function offered(marked: string, triggerCharacter?: string) {
  const { document, at } = opened(marked);
  const context = triggerCharacter === undefined ? {} : { triggerCharacter };
  return editorState.providers.completion!.provideCompletionItems(document, at, undefined, context);
}

const words = async (marked: string, trigger?: string) =>
  (await offered(marked, trigger)).map(({ label }) => label);

async function hovered(marked: string): Promise<string> {
  const { document, at } = opened(marked);
  return (await editorState.providers.hover!.provideHover(document, at, uncanceled))?.contents.value ?? '';
}

const blockWords = (block: string) =>
  vocabulary
    .filter((entry) => entry.block === block && ['statement', 'quantity', 'block'].includes(entry.role))
    .map(({ word }) => word);

describe('completion', () => {
  test('an empty file offers its head and the blocks', async () => {
    expect(await words('¦')).toEqual(blockWords('file'));
  });

  test('a block offers its words, without those that are given', async () => {
    const inside = await words('winding "x"\nmachine {\n  slots 12\n  ¦\n}\n');
    expect(inside).toEqual(blockWords('machine').filter((word) => word !== 'slots'));
    expect(await words('slot a b {\n  w¦\n}')).toEqual(blockWords('slot'));
    expect(await words('require {\n  ¦')).toEqual(blockWords('require'));
  });

  test('a word that is being written is replaced, and stays on offer', async () => {
    const [first] = await offered('machine {\n  slots 12\n  po¦l\n}');
    expect(first?.range).toMatchObject({ start: { line: 2, character: 2 }, end: { line: 2, character: 5 } });
    expect(await words('machine {\n  poles¦\n}')).toContain('poles');
  });

  test('behind a number stand the units of what it measures', async () => {
    expect((await words('machine {\n  bore 162 ¦\n}')).slice(0, 3)).toEqual(['mm', 'm', 'um']);
    expect((await words('machine {\n  speed 3600 ¦\n}'))[0]).toBe('rpm');
    expect((await words('require {\n  slot-fill <= 78 ¦\n}'))[0]).toBe('%');
    expect(await words('machine {\n  slots 48 ¦\n}')).not.toContain('mm');
  });

  test('inside a statement stand its keywords and choices with their meaning', async () => {
    expect((await words('machine {\n  gap ¦\n}')).slice(0, 3)).toEqual(['inner', 'outer', 'both']);
    expect((await words('connect {\n  star\n  route paths 2 ¦\n}')).slice(0, 2)).toEqual([
      'fewest',
      'pieces',
    ]);
    expect((await words('require {\n  winding-factor ¦\n}'))[0]).toBe('harmonic');
    const [inner] = await offered('machine {\n  gap ¦\n}');
    expect(inner?.documentation?.value).toContain('The rotor stands inside the stator.');
  });

  test('comments, texts and numbers offer nothing; a blank offers only what goes on', async () => {
    expect(await words('machine {\n  # slo¦\n}')).toEqual([]);
    expect(await words('winding "slo¦"')).toEqual([]);
    expect(await words('machine {\n  slots 4¦\n}')).toEqual([]);
    expect(await words('machine {\n  ¦\n}', ' ')).toEqual([]);
    expect((await words('machine {\n  bore 162 ¦\n}', ' '))[0]).toBe('mm');
  });

  test('a word that needs a value brings the blank before it, or the quotes of a text', async () => {
    const taken = async (marked: string, word: string) => {
      const item = (await offered(marked)).find(({ label }) => label === word)!;
      const inserted = item.insertText as { readonly value: string } | string | undefined;
      return [typeof inserted === 'object' ? inserted.value : (inserted ?? word), item.command?.command];
    };
    const more = 'editor.action.triggerSuggest';
    expect(await taken('¦', 'winding')).toEqual(['winding "$1"$0', undefined]);
    expect(await taken('machine {\n  slo¦\n}', 'slots')).toEqual(['slots ', undefined]);
    expect(await taken('machine {\n  ga¦\n}', 'gap')).toEqual(['gap ', more]);
    expect(await taken('connect {\n  ro¦\n}', 'route')).toEqual(['route ', more]);
    expect(await taken('sheet {\n  own¦\n}', 'owner')).toEqual(['owner "$1"$0', undefined]);
    expect(await taken('require {\n  ¦\n}', 'winding-factor')).toEqual(['winding-factor ', more]);
    expect(await taken('require {\n  ¦\n}', 'slot-fill')).toEqual(['slot-fill ', undefined]);
    // What needs nothing, and what has its value already, stay as they are.
    expect(await taken('connect {\n  st¦\n}', 'star')).toEqual(['star', undefined]);
    expect(await taken('machine {\n  slo¦ 48\n}', 'slots')).toEqual(['slots', undefined]);
    expect(await taken('wind¦ "Pump"', 'winding')).toEqual(['winding', undefined]);
  });

  test('it answers at every place of a text, whole or broken off', async () => {
    for (let offset = 0; offset <= soundText.length; offset++) {
      const [before, after] = [soundText.slice(0, offset), soundText.slice(offset)];
      const texts = [`${before}¦${after}`, `${before}¦`];
      // By turns, and both with more tries.
      for (const text of tries(1) > 1 ? texts : [texts[offset % 2]!])
        expect(await words(text)).toBeInstanceOf(Array);
    }
  });
});

describe('hovers', () => {
  test('a word shows meaning, values, default and an example', async () => {
    const text = await hovered('machine {\n  magnet-perme¦ability 1.05\n}');
    expect(text).toContain('Relative recoil permeability of the magnets.');
    expect(text).toContain('Values: a number from 1 to 100.');
    expect(text).toContain('Default: `1.05`');
    expect(text).toContain('```winding\nmagnet-permeability 1.05\n```');
  });

  test('a block, a choice and a keyword are explained too; a name is not', async () => {
    expect(await hovered('mach¦ine { slots 12 }')).toContain('The machine around the winding');
    expect(await hovered('machine {\n  gap ou¦ter\n}')).toContain('The rotor stands outside');
    expect(await hovered('connect {\n  route pa¦ths 2\n}')).toContain('Number of parallel paths');
    expect(await hovered('winding "sl¦ots"')).toBe('');
  });

  test('a limit shows the actual value', async () => {
    const text = (limit: string) =>
      hovered(`${soundText}require {\n  winding-f¦actor harmonic 1 >= ${limit}\n}\n`);
    expect(await text('0.9')).toMatch(/Now 0\.9\d+: the limit holds\./);
    expect(await text('0.999')).toContain('the limit does not hold');
    expect(await hovered(`${soundText}require {\n  slot-f¦ill <= 70 %\n}\n`)).toContain('Cannot be computed');
  });

  test('a place of a row and a step of a path show their bars', async () => {
    const machine = 'winding "x"\nmachine { slots 12 poles 2 phases 3 }\n';
    const row = await hovered(`${machine}layout {\n  layers 1\n  layer a +U -¦W +V -U +W -V repeat 2\n}\n`);
    expect(row.split('\n')).toHaveLength(2);
    expect(row).toContain('2a: phase W, back to the connection side');
    const path = soundText
      .replace('poles  2', 'poles  4')
      .replace('span   5', 'span   3')
      .replace(
        'star',
        'star\n  path U 1 from U1 1a +3b ¦+3a +3b to N\n  path U 2 from U1 1b -3a -3b -3a to N\n  repeat U as V shift 2\n  repeat U as W shift 4',
      );
    expect(await hovered(path)).toContain('7a: phase U, path 1, bar 3 of 4, away from the connection side');
  });
});

describe('outline and folding', () => {
  test('title, blocks and statements, each within its parent', () => {
    const { document } = opened(`¦${soundText}`);
    const symbols = editorState.providers.symbols!.provideDocumentSymbols(document);
    expect(symbols.map(({ name }) => name)).toEqual(['winding', 'machine', 'layout', 'connect']);
    expect(symbols[1]?.children.map(({ name, detail }) => `${name} ${detail}`)).toEqual([
      'slots 12',
      'poles 2',
      'phases 3',
    ]);
    for (const { range, selectionRange, children } of symbols)
      for (const inner of [selectionRange, ...children.map((child) => child.range)]) {
        expect(document.offsetAt(inner.start)).toBeGreaterThanOrEqual(document.offsetAt(range.start));
        expect(document.offsetAt(inner.end)).toBeLessThanOrEqual(document.offsetAt(range.end));
      }
  });

  test('blocks fold to their first line, their closing brace stays', () => {
    const { document } = opened(`¦${soundText}`);
    const folded = editorState.providers.folding!.provideFoldingRanges(document);
    const lines = soundText.split('\n');
    expect(folded.map(({ start }) => lines[start])).toEqual(['machine {', 'layout {', 'connect {']);
    for (const { end: last } of folded) expect(lines[last + 1]).toBe('}');
  });
});
