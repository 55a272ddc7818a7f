import { afterEach, beforeEach, expect, test } from 'vitest';
import { schedule } from '../../core/tables/schedule.ts';
import { study } from '../support/study.ts';
import { activateOnStub } from './activated.ts';
import { editorState, Uri } from './vscodeStub.ts';

const slots = (more: string) =>
  schedule(study(`winding "T"\nmachine { ${more} phases 3 }\nlayout { layers 2 span 1 }\n`).facts!, 'slots');
const table = Uri.parse('memory:/tables/winch.csv');

const run = async (csv: string | Uint8Array) => {
  editorState.files.set(String(table), typeof csv === 'string' ? new TextEncoder().encode(csv) : csv);
  editorState.answers.unshift([table]);
  await editorState.commands.get('slotwright.importTable')?.();
};

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

test('a slot table becomes a new text with its drawing beside it', async () => {
  await run(
    schedule(
      study('winding "T"\nmachine { slots 12 poles 2 phases 3 }\nlayout { layers 2 span 6 }\n').facts!,
      'slots',
    ),
  );
  const [document] = editorState.documents;
  expect(document?.getText()).toMatch(/^winding "Imported winding"/);
  expect(document?.getText()).toContain('poles 2 is that of the table');
  expect(editorState.shown[0]?.document).toBe(document);
  expect(editorState.executed.at(-1)).toEqual(['slotwright.showLayoutPanel']);
  expect(editorState.errors).toEqual([]);
});

test('what the table does not tell is asked for; Escape makes nothing', async () => {
  const teeth = slots('slots 12 poles 10');
  await run(teeth);
  expect(editorState.documents).toEqual([]);
  let asked: { readonly prompt: string; readonly validateInput: (text: string) => string | null } | null =
    null;
  editorState.answers.push((options: typeof asked) => {
    asked = options;
    return '14';
  });
  await run(teeth);
  expect(asked!.prompt).toContain('10, 14 poles');
  expect([asked!.validateInput('7'), asked!.validateInput('14')]).toEqual([
    'An even number from 2 to 2400 is expected.',
    null,
  ]);
  expect(editorState.documents[0]?.getText()).toMatch(/poles +14/);
  editorState.answers.push('delta');
  await run('U1;V1;W1\n1a;3a;5a\n4b;6b;2b\n');
  expect(editorState.documents[1]?.getText()).toMatch(/delta\s+path +U 1 from U1 1a 4b to U2/);
});

test('what cannot be read is told at its row and column, many troubles in a text of their own', async () => {
  await run('slot;a\n1;+U\n2;??\n3;-U');
  expect(editorState.errors[0]).toMatch(/^winch\.csv: Row 3, column B: '\?\?' is not understood/);
  editorState.answers.push('Show All');
  await run(`slot;a\n${Array.from({ length: 9 }, (_, i) => `${i + 1};?`).join('\n')}`);
  expect(editorState.errors[1]).toMatch(/^winch\.csv: Row 2, .*\. Row 3, .*\. Row 4, .*\. … and 6 more\.$/);
  expect(editorState.documents[0]?.getText().split('\n')).toHaveLength(11);
  await run(new Uint8Array([0x73, 0xff, 0x3b]));
  expect(editorState.errors[2]).toBe('winch.csv cannot be read: it is not UTF-8 text; save it as CSV UTF-8.');
});
