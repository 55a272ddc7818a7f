import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { activateOnStub, brokenText, soundText } from './activated.ts';
import {
  codeOf,
  DiagnosticSeverity,
  editorState,
  events,
  openStubDocument,
  StubDocument,
  Uri,
} from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => {
  vi.restoreAllMocks();
  end();
});

const errorsAt = (address: string) =>
  (editorState.diagnostics.get(address) ?? []).filter(
    ({ severity }) => severity === DiagnosticSeverity.Error,
  );

test('a sound text has no errors, a broken one shows them where they stand, and mending takes them away', () => {
  const document = openStubDocument('pump.winding', soundText);
  expect(errorsAt('memory:/pump.winding')).toEqual([]);
  document.edit(brokenText);
  const errors = errorsAt('memory:/pump.winding');
  const line = brokenText.split('\n').findIndex((text) => text.includes('polse'));
  const [misspelled] = errors.filter(({ range }) => range.start.line === line);
  expect(misspelled).toMatchObject({ source: 'slotwright', range: { start: { line, character: 2 } } });
  expect(codeOf(misspelled!)).toMatch(/^[a-z]+(-[a-z]+)*$/);
  document.edit(soundText);
  expect(errorsAt('memory:/pump.winding')).toEqual([]);
});

test('an edit that moves and changes no finding tells the editor nothing', () => {
  const document = openStubDocument('pump.winding', brokenText);
  expect(errorsAt('memory:/pump.winding').length).toBeGreaterThan(0);
  const told = vi.spyOn(editorState.diagnostics, 'set');
  document.edit(brokenText.replace('trial', 'trial x'));
  expect(told).not.toHaveBeenCalled();
  document.edit(`# a remark\n${brokenText}`);
  expect(told).toHaveBeenCalledTimes(1);
  document.edit(soundText);
  expect(told).toHaveBeenCalledTimes(2);
  expect(errorsAt('memory:/pump.winding')).toEqual([]);
});

test('a finding that is written over is shown anew, though it is the same', () => {
  // The editor takes away what it shows of a stretch that is written over.
  const document = openStubDocument('pump.winding', brokenText);
  const told = vi.spyOn(editorState.diagnostics, 'set');
  const { range } = errorsAt('memory:/pump.winding').find(({ message }) => message.includes('polse'))!;
  events.changed.fire({ document, contentChanges: [{ range, text: 'polse' }] });
  expect(told).toHaveBeenCalledTimes(1);
  events.changed.fire({ document, contentChanges: [] });
  expect(told).toHaveBeenCalledTimes(1);
});

test('the same text has its findings again once it is opened again', () => {
  const document = openStubDocument('pump.winding', brokenText);
  events.closed.fire(document);
  events.opened.fire(document);
  expect(errorsAt('memory:/pump.winding').length).toBeGreaterThan(0);
});

test('closing a text removes its findings', () => {
  const document = openStubDocument('pump.winding', brokenText);
  expect(errorsAt('memory:/pump.winding').length).toBeGreaterThan(0);
  events.closed.fire(document);
  expect(editorState.diagnostics.has('memory:/pump.winding')).toBe(false);
});

test('other languages and old revisions are left alone', () => {
  const old = new StubDocument(Uri.parse('git:/pump.winding'), brokenText);
  const note = new StubDocument(Uri.parse('memory:/note.txt'), brokenText);
  note.languageId = 'plaintext';
  events.opened.fire(old);
  events.opened.fire(note);
  expect(editorState.diagnostics.size).toBe(0);
});
