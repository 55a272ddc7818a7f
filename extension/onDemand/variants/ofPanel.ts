import { commands, type TextDocument, window, workspace } from 'vscode';
import { chosenText, takeOverEdits } from '../../../core/variants/chosen.ts';
import { evaluator } from '../../../core/variants/evaluate.ts';
import { mostCandidates, type Question, questionOf } from '../../../core/variants/question.ts';
import { changeInSight } from '../../edits.ts';
import { minimalEdit } from '../../language/minimalEdit.ts';
import type { PageMessage } from '../../protocol/messages.ts';
import type { ShownVariants } from '../../protocol/shownVariants.ts';
import { fileName } from '../../windingDocument.ts';
import { findingWords, l10n } from '../../wording.ts';
import { newText } from '../newText.ts';
import { startRun, unasked, type VariantRun } from './run.ts';
import { shownQuestion } from './shown.ts';

/** Whole studies above which a run has to be asked for. */
const mostStudies = 1e5;

/** The variants of the text that one panel shows. */
export interface PanelVariants {
  /** The panel shows this text now; a run goes on while it is of the same document, or of one that says what it judged. */
  readonly follow: (document: TextDocument | null) => void;
  readonly shown: () => ShownVariants;
  readonly act: (message: Extract<PageMessage, { readonly kind: 'variants' }>) => void;
  /** Judges the candidates of the present text, if a block asks for some. */
  readonly run: () => Promise<void>;
  readonly end: () => void;
}

/** No variants are judged yet; `changed` is called when there are others to show. */
export function createPanelVariants(changed: () => void): PanelVariants {
  let document: TextDocument | null = null;
  let run: VariantRun | null = null;
  /** What was made of a text before it is judged. */
  let before: { readonly text: string; readonly shown: ShownVariants } | null = null;
  /** What is shown of the run, with how it stands to a text. */
  let stamped: {
    readonly of: ShownVariants;
    readonly inText: number | null;
    readonly shown: ShownVariants;
  } | null = null;

  const keys = workspace.onDidChangeTextDocument(() => run?.typed());
  const stop = () => {
    run?.end();
    run?.cancel();
    run = null;
    stamped = null;
  };
  const start = async () => {
    if (document === null) return;
    const present = document;
    const question = questionOf(present.getText());
    if (unaskedOf(question).standing.status !== 'ready') {
      stop();
      changed();
      return;
    }
    if (!(await isWanted(question)) || document !== present) return;
    stop();
    run = startRun(question, changed);
    changed();
    await run.done;
  };
  const shown = (): ShownVariants => {
    const text = document?.getText() ?? '';
    if (run !== null) {
      const of = run.shown();
      const inText = run.numberIn(text);
      if (stamped?.of !== of || stamped.inText !== inText) {
        const standing = { ...of.standing, stale: inText === null, inText: inText ?? 0 };
        stamped = { of, inText, shown: { ...of, standing } };
      }
      return stamped.shown;
    }
    before = before?.text === text ? before : { text, shown: unaskedOf(questionOf(text)) };
    return before.shown;
  };
  const open = async (number: number) => {
    if (run === null || document === null) return;
    const content = chosenText(run.judge, number, fileName(document));
    if (content === null) return;
    const stem = fileName(document).replace(/\.winding$/, '');
    await window.showTextDocument(await newText(content, `${stem}-candidate-${number}`));
  };
  /** Changes just the words that vary, and those that follow from them, which come into sight; one step to undo. */
  const take = async (number: number) => {
    if (run === null || document === null) return;
    const present = document.getText();
    if (run.numberIn(present) === null) {
      window.showWarningMessage(
        l10n.t(
          'The text has changed since the variants were judged, and was left as it is; judge them again.',
        ),
      );
      return;
    }
    const first = present === run.text;
    const text = run.takenOver(number);
    if (text === null) return;
    const whole = minimalEdit(present, text);
    const changes = first ? takeOverEdits(run.judge, number) : whole && [{ range: whole, text: whole.text }];
    await changeInSight(document, changes ?? []);
  };
  return {
    follow: (next) => {
      // A text that is saved under a name is another document.
      const judged = next !== null && run !== null && run.numberIn(next.getText()) !== null;
      if (next?.uri.toString() !== document?.uri.toString() && !judged) stop();
      document = next;
    },
    shown,
    act: ({ act, numbers }) => {
      const [number] = numbers;
      switch (act) {
        case 'run':
          void start();
          return;
        case 'cancel':
          run?.cancel();
          return;
        case 'vary':
          if (document) void commands.executeCommand('slotwright.varyWinding', document.uri);
          return;
        case 'open':
          if (number !== undefined) void open(number);
          return;
        case 'take':
          if (number !== undefined) void take(number);
          return;
        case 'beside':
          run?.setBeside(numbers);
      }
    },
    run: start,
    end: () => {
      keys.dispose();
      stop();
    },
  };
}

/** What there is to show of a text before its candidates are judged. */
function unaskedOf(question: Question): ShownVariants {
  const { rows, errors, candidates } = question;
  const [error] = errors;
  if (question.specification.vary && error) return unasked('faulty', 0, null, findingWords(error));
  if (rows.length === 0) return unasked('none', 0, null);
  if (candidates > mostCandidates)
    return unasked(
      'faulty',
      candidates,
      null,
      l10n.t('{0} candidates; at most {1} are judged.', candidates, mostCandidates),
    );
  return unasked('ready', candidates, shownQuestion(question, evaluator(question)));
}

/** Asks before very many whole studies. */
async function isWanted(question: Question): Promise<boolean> {
  if (question.candidates <= mostStudies || !evaluator(question).wholeAsked) return true;
  const start = l10n.t('Start');
  const answer = await window.showWarningMessage(
    l10n.t(
      'Up to {0} whole studies, with paths and copper, take long: a keep of layout quantities leaves out most before. The run can be canceled at any time.',
      question.candidates,
    ),
    { modal: true },
    start,
  );
  return answer === start;
}
