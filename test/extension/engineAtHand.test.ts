import { afterEach, expect, test } from 'vitest';
import * as engine from '../../extension/engine/entry.ts';
import { activateOnStub, brokenText, soundText } from './activated.ts';
import { editorState, openStubDocument } from './vscodeStub.ts';

let end: (() => void) | null = null;
afterEach(() => end?.());

/** Starts with an engine that is there when it is told to be, or fails. */
function started() {
  const asked: { resolve: () => void; reject: (problem: Error) => void }[] = [];
  const reading = () =>
    new Promise<typeof engine>((resolve, reject) => {
      asked.push({ resolve: () => resolve(engine), reject });
    });
  end = activateOnStub(undefined, { engine: reading });
  return asked;
}

const findings = () => editorState.diagnostics.get('memory:/pump.winding');

test('without a winding the engine is not read', async () => {
  const asked = started();
  await new Promise(setImmediate);
  expect(asked).toHaveLength(0);
});

test('a text is studied when the engine is there, as it stands by then, and what was asked meanwhile is answered', async () => {
  const asked = started();
  const document = openStubDocument('pump.winding', soundText);
  const symbols = editorState.providers.symbols!.provideDocumentSymbols(document);
  const edits = editorState.formatters[0]!.provideDocumentFormattingEdits(document);
  document.edit(brokenText);
  expect(findings()).toBeUndefined();
  expect(asked).toHaveLength(1);
  asked[0]!.resolve();
  expect(await symbols).not.toEqual([]);
  expect(await edits).toEqual([]);
  expect(findings()!.length).toBeGreaterThan(0);
  document.edit(soundText);
  expect(asked).toHaveLength(1);
});

test('an engine that cannot be read is told once, and tried again with the next key', async () => {
  const asked = started();
  const document = openStubDocument('pump.winding', soundText);
  asked[0]!.reject(new Error('the file has gone'));
  await expect.poll(() => editorState.errors).toHaveLength(1);
  document.edit(brokenText);
  expect(asked).toHaveLength(2);
  asked[1]!.reject(new Error('the file has gone'));
  await new Promise(setImmediate);
  document.edit(`${brokenText}\n`);
  asked[2]!.resolve();
  await expect.poll(() => findings()?.length ?? 0).toBeGreaterThan(0);
  expect(editorState.errors).toHaveLength(1);
});

test('an engine that comes after the end shows nothing any more', async () => {
  const asked = started();
  openStubDocument('pump.winding', brokenText);
  end?.();
  asked[0]!.resolve();
  await new Promise(setImmediate);
  expect(findings()).toBeUndefined();
});
