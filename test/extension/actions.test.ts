import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { study } from '../support/study.ts';
import { actionsAt, activateOnStub, brokenText, soundText } from './activated.ts';
import { editorState, openStubDocument, type Range, workspace } from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

describe('code actions', () => {
  test('a misspelled word is replaced by the one that was meant', async () => {
    const document = openStubDocument('pump.winding', brokenText);
    const [fix] = await actionsAt(document, 'polse');
    expect(fix?.diagnostics).toHaveLength(1);
    await workspace.applyEdit(fix!.edit!);
    expect(document.getText()).toBe(soundText);
  });

  test('odd blanks are replaced one by one, or all at once', async () => {
    const odd = soundText.replaceAll('  slots  12', '\u00a0\u00a0slots\u00a012').replace('5', '5\u200b');
    const document = openStubDocument('pump.winding', odd);
    const titles = (await actionsAt(document, 'slots')).map(({ title }) => title);
    expect(titles).toEqual([
      'Replace U+00A0 by a plain blank',
      'Replace U+00A0 by a plain blank',
      'Replace or remove all odd characters of the text',
    ]);
    const all = (await actionsAt(document, 'slots')).at(-1)!;
    await workspace.applyEdit(all.edit!);
    expect(document.getText()).toBe(soundText.replace('slots  12', 'slots 12'));
    expect(
      editorState.diagnostics.get(document.uri.toString())!.filter(({ severity }) => severity === 0),
    ).toEqual([]);
  });

  test('the found paths are written out where connect stands, and only there', async () => {
    const document = openStubDocument('pump.winding', soundText);
    expect(await actionsAt(document, 'slots')).toEqual([]);
    const before = study(soundText).report().paths;
    await workspace.applyEdit((await actionsAt(document, 'star'))[0]!.edit!);
    expect(document.getText()).toContain('path U 1 from U1');
    expect(study(document.getText()).report().paths).toEqual(before);
    expect((await actionsAt(document, 'star')).map(({ title }) => title)).not.toContain(
      'Write out the found paths',
    );
  });

  test('the command writes them out, or says why there is nothing to write', async () => {
    const document = openStubDocument('pump.winding', soundText);
    await editorState.commands.get('slotwright.writeOutPaths')?.();
    expect(document.getText()).toContain('path U 1 from U1');
    // Wherever the cursor stood, what was written is in sight.
    const [{ start, end }] = editorState.revealed as [Range];
    const written = document.getText().slice(document.offsetAt(start), document.offsetAt(end));
    expect(written.trim()).toMatch(/^path U 1 from U1 .*\n.*\n +repeat U as W shift \d+$/);
    await editorState.commands.get('slotwright.writeOutPaths')?.();
    expect(editorState.information).toHaveLength(1);
  });
});

test('a fix that mends a finding of either side is offered once', async () => {
  const text = `winding "Buoy hub"
machine { gap both slots 18 poles 4 phases 3 bore 80 mm stack 60 mm }
slot a b { width 5 mm depth 13.5 mm opening 2 mm opening-height 0.8 mm }
slot c d { width 5 mm depth 13.5 mm opening 2 mm opening-height 0.8 mm }
bar {
  form straight width 4 mm height 5 mm end-straight 9 mm bend-radius 4 mm end-clearance 0.8 mm
  joint-straight 9 mm
}
layout { layers 4 span 4 skew a b +1 slot skew c d -1 slot }
connect { delta }
`;
  const found = study(text).findings.filter(({ code }) => code === 'joint-planes-differ');
  expect(found.map(({ data }) => (data as { side: string }).side)).toEqual(['connection', 'far']);
  const document = openStubDocument('hub.winding', text);
  const titles = (await actionsAt(document, 'joint-straight')).map(({ title }) => title);
  expect(titles).toEqual(["Write 'joint-plane level'"]);
});
