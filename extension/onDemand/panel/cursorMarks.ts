import { type Disposable, type TextEditor, window } from 'vscode';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import type { Range } from '../../../core/language/finding.ts';
import type { Studies } from '../../engine/studies.ts';
import type { PageMessage } from '../../protocol/messages.ts';
import type { PanelMarks } from '../../protocol/shownParts.ts';
import type { Subject } from '../../protocol/subject.ts';
import { addressNamed } from '../../windingDocument.ts';
import { marksAt, marksOf, nextBar, textOf } from '../marks.ts';
import { nameOf } from '../names.ts';
import { reveal } from '../reveal.ts';

/** The panel whose picture is kept in step with the text's cursor. */
export interface MarkedPanel {
  /** Address of the text it shows. */
  readonly source: () => string;
  /** The study it draws. */
  readonly study: () => CheckedText | null;
  /** Lets these stand out. */
  readonly mark: (marks: PanelMarks) => void;
  /** Names what the pointer is on. */
  readonly name: (words: string) => void;
}

type Pointing = Extract<PageMessage, { readonly kind: 'point' | 'choose' | 'step' }>;

/** Cursor to picture and picture to cursor. */
export interface CursorMarks extends Disposable {
  readonly answer: (message: Pointing) => void;
  /** Lights what the cursor of the active editor stands on. */
  readonly light: () => void;
}

/**
 * Lights in the picture what the text's cursor stands on, names what the page points at, and selects the
 * text of what the reader chose there. The cursor is moved only when a reader chose something, and the
 * selection that this makes does not light anything else.
 */
export function startCursorMarks(studies: Studies, panel: MarkedPanel): CursorMarks {
  let ownSelection: Range | null = null;

  const follow = (editor: TextEditor) => {
    const { document, selection } = editor;
    if (document.uri.toString() !== panel.source()) return;
    const study = studies.of(document);
    const isOwn =
      ownSelection !== null &&
      ownSelection.start === document.offsetAt(selection.start) &&
      ownSelection.end === document.offsetAt(selection.end);
    if (isOwn) return;
    ownSelection = null;
    if (study !== panel.study()) return;
    const marks = marksAt(study, document.offsetAt(selection.active));
    const [only] = marks.bars.length === 1 ? marks.bars : [];
    panel.mark({ ...marks, chosen: null, words: only === undefined ? '' : nameOf(study, { bar: only }) });
  };
  const choose = async (study: CheckedText, source: string, subject: Subject) => {
    const range = textOf(study, subject);
    const chosen = 'bar' in subject ? subject.bar : null;
    panel.mark({ ...marksOf(subject), chosen, words: nameOf(study, subject) });
    // A picture that is out of date has its places in an older text.
    if (range === null || !isPresent(study, source)) return;
    ownSelection = range;
    await reveal(addressNamed(source), range, { preserveFocus: true });
  };
  const isPresent = (study: CheckedText, source: string) => {
    const editor = window.visibleTextEditors.find(({ document }) => document.uri.toString() === source);
    return editor === undefined || studies.of(editor.document) === study;
  };
  const answer = async (message: Pointing) => {
    const { source } = message;
    const study = panel.study();
    if (study === null || source !== panel.source()) return;
    if (message.kind === 'point') panel.name(nameOf(study, message.subject));
    else if (message.kind === 'choose') await choose(study, source, message.subject);
    else {
      const next = nextBar(study, message.bar, message.by);
      if (next !== null) await choose(study, source, { bar: next });
    }
  };
  const selected = window.onDidChangeTextEditorSelection(({ textEditor }) => follow(textEditor));
  const light = () => {
    ownSelection = null;
    if (window.activeTextEditor) follow(window.activeTextEditor);
  };
  return { answer: (message) => void answer(message), light, dispose: () => selected.dispose() };
}
