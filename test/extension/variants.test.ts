import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { checkText } from '../../core/findings/checkedText.ts';
import { activateOnStub, soundText } from './activated.ts';
import { type CodeLens, editorState, openStubDocument, uncancelled } from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

const run = (command: string, argument?: unknown) => editorState.commands.get(command)!(argument);
const asking = `${soundText.replace('poles  2', 'poles  4')}
vary {
  machine slots 12 24
  layout span nominal -1 to nominal
  rank most winding-factor harmonic 1 least differential-leakage
}
`;
interface Item {
  readonly label: string;
  readonly description: string;
  readonly detail: string;
}

/** Chooses the row whose label has these words, then the way. */
function choosing(words: string, way: string): { items: readonly Item[] } {
  const seen: { items: readonly Item[] } = { items: [] };
  editorState.answers.push((items: readonly Item[]) => {
    seen.items = items;
    return items.find(({ label }) => label.includes(words));
  });
  editorState.answers.push((ways: readonly string[]) => ways.find((one) => one === way));
  return seen;
}

describe('variants in the editor', () => {
  test('above the block stands how many there are, with a way to judge them', async () => {
    const document = openStubDocument('pump.winding', asking);
    const provider = editorState.provided.get('CodeLens');
    const lenses: readonly CodeLens[] = await provider.provideCodeLenses(document, uncancelled);
    const resolved = await Promise.all(lenses.map((lens) => provider.resolveCodeLens(lens, uncancelled)));
    const lens = resolved.find(({ command }) => command!.command === 'slotwright.exploreVariants');
    expect(lens!.command!.title).toBe('4 candidates: Run');
  });

  test('the best come first, and one opens as a winding of its own', async () => {
    const document = openStubDocument('pump.winding', asking);
    const seen = choosing('slots 24, layout span 5', 'Open as New Winding');
    await run('slotwright.exploreVariants', document.uri);
    expect(seen.items).toHaveLength(4);
    expect(seen.items[0]!.label).toContain('machine slots 12, layout span 3');
    expect(seen.items[0]!.detail).toContain('winding-factor harmonic 1 1 · differential-leakage 9.66 %');
    expect(seen.items[0]!.description).toContain('front');
    const opened = editorState.documents.at(-1)!.getText();
    expect(opened).toContain('slots  24');
    expect(opened).not.toContain('vary {');
    expect(checkText(opened).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(document.getText()).toBe(asking);
  });

  test('one is taken over into the file: just its words change', async () => {
    const document = openStubDocument('pump.winding', asking);
    choosing('slots 24, layout span 6', 'Take Over into This File');
    await run('slotwright.exploreVariants');
    expect(document.getText()).toBe(asking.replace('slots  12', 'slots  24').replace('span   5', 'span   6'));
  });

  test('a text that changed meanwhile is left as it is, and that is said', async () => {
    const document = openStubDocument('pump.winding', asking);
    choosing('slots 24, layout span 6', 'Take Over into This File');
    const [first, second] = editorState.answers.splice(-2);
    editorState.answers.push(first!, (ways: readonly string[]) => {
      document.edit(`${asking}# meanwhile\n`);
      return (second as (ways: readonly string[]) => unknown)(ways);
    });
    await run('slotwright.exploreVariants');
    expect(document.getText()).toBe(`${asking}# meanwhile\n`);
  });

  test('a question with errors is not judged', async () => {
    openStubDocument('pump.winding', asking.replace('slots 12 24', 'slots 12 12.5'));
    await run('slotwright.exploreVariants');
    expect(editorState.answers).toEqual([]);
  });

  test('Vary This Winding writes the block that was asked for, ready to be judged', async () => {
    const document = openStubDocument('pump.winding', soundText);
    editorState.answers.push((items: readonly Item[]) =>
      items.filter(({ label }) => /Slots|Span/.test(label)),
    );
    await run('slotwright.varyWinding', document.uri);
    const text = document.getText();
    expect(text.startsWith(soundText)).toBe(true);
    expect(text).toContain('\nvary {\n  machine slots 6 to 30 by 6\n  layout span nominal -2 to nominal\n');
    expect(checkText(text).findings.filter(({ code }) => code.startsWith('vary'))).toEqual([]);
  });
});
