import * as fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { minimalEdit } from '../../../extension/language/minimalEdit.ts';
import { tries } from '../../support/tries.ts';
import { activateOnStub, soundText } from '../activated.ts';
import { EndOfLine, editorState, openStubDocument, type StubDocument } from '../vscodeStub.ts';

describe('formatting a document', () => {
  let end: () => void;
  beforeEach(() => {
    end = activateOnStub();
  });
  afterEach(() => end());

  const edits = (document: StubDocument) =>
    editorState.formatters[0]?.provideDocumentFormattingEdits(document);

  test('a well-formed text needs no edit', () => {
    expect(edits(openStubDocument('pump.winding', soundText))).toEqual([]);
  });

  test('only the stretch that differs is replaced', () => {
    const document = openStubDocument('pump.winding', soundText.replace('  span   5', '  span 5'));
    expect(edits(document)).toMatchObject([
      { range: { start: { line: 10 }, end: { line: 10 } }, newText: '  ' },
    ]);
  });

  test('a text with CR LF line ends keeps them', () => {
    const document = openStubDocument('pump.winding', soundText.replaceAll('\n', '\r\n'));
    document.eol = EndOfLine.CRLF;
    expect(edits(document)).toEqual([]);
  });
});

describe('the smallest edit', () => {
  const piece = fc.constantFrom('a', 'b', '\r\n', '\r', '\n', '😀', '😁', '\u{1F680}', ' ');
  const text = fc.array(piece, { maxLength: 12 }).map((pieces) => pieces.join(''));

  test('turns one text into the other and cuts no pair in two', () => {
    fc.assert(
      fc.property(text, text, (before, after) => {
        const edit = minimalEdit(before, after);
        if (edit === null) {
          expect(before).toBe(after);
          return;
        }
        const { start, end } = edit;
        expect(before.slice(0, start) + edit.text + before.slice(end)).toBe(after);
        const parts = [before.slice(0, start), before.slice(start, end), edit.text, before.slice(end)];
        expect(parts.filter((part) => /^[\uDC00-\uDFFF]|[\uD800-\uDBFF]$/.test(part))).toEqual([]);
      }),
      { seed: 7, numRuns: tries(500) },
    );
  });

  test('is as small as can be', () => {
    expect(minimalEdit('span 5 slots', 'span   5 slots')).toEqual({ start: 5, end: 5, text: '  ' });
    expect(minimalEdit('same', 'same')).toBeNull();
  });
});
