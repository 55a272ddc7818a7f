import {
  CancellationError,
  l10n,
  ProgressLocation,
  type QuickPickItem,
  type TextDocument,
  WorkspaceEdit,
  window,
  workspace,
} from 'vscode';
import { answer, collectionFor } from '../../../core/variants/answer.ts';
import { chosenText, takeOverEdits } from '../../../core/variants/chosen.ts';
import type { Collection } from '../../../core/variants/collect.ts';
import { type Evaluator, evaluator } from '../../../core/variants/evaluate.ts';
import { explore } from '../../../core/variants/explore.ts';
import { questionOf } from '../../../core/variants/question.ts';
import type { VariantRow, Variants } from '../../../core/variants/schema.ts';
import { figureWords, heldText, limitsWords, valueWords } from '../../../core/variants/words.ts';
import { windingLanguage } from '../../windingDocument.ts';
import { createPause } from '../inSlices.ts';
import { editorRange } from '../reveal.ts';
import { askedDocument } from './subject.ts';
import { varyWinding } from './vary.ts';

/** Rows to choose from beside the front. */
const top = 50;

/**
 * Judges the variants that the text's block asks for, in slices, and lists them: the one chosen is opened as a
 * winding of its own, or taken over into the file.
 */
export async function exploreVariants(uri?: unknown): Promise<void> {
  const document = await askedDocument(uri);
  if (!document) return;
  const text = document.getText();
  const question = questionOf(text);
  const [error] = question.errors;
  if (error) {
    window.showErrorMessage(l10n.t('The question has errors: {0}', error.message));
    return;
  }
  if (question.rows.length === 0) {
    const write = l10n.t('Vary This Winding');
    const chosen = await window.showInformationMessage(
      l10n.t("Nothing varies: a block 'vary' says what to try."),
      write,
    );
    if (chosen === write) await varyWinding(document.uri);
    return;
  }
  const judge = evaluator(question);
  const found = await judged(judge);
  if (found === null) return;
  if (found.rows.length === 0) {
    window.showInformationMessage(
      l10n.t(
        '{0} candidates: {1} make no winding, {2} do not meet what is kept; none is left.',
        found.candidates,
        refusals(found),
        found.leftOut,
      ),
    );
    return;
  }
  await choose(document, text, judge, found);
}

/** The answer, or a part of it where the run was cancelled; null where nothing was kept by then. */
async function judged(judge: Evaluator): Promise<Variants | null> {
  const { question } = judge;
  const collected = collectionFor(question, top);
  return window.withProgress(
    {
      location: ProgressLocation.Notification,
      title: l10n.t('Judging {0} candidates', question.candidates),
      cancellable: true,
    },
    async (progress, token) => {
      const pause = createPause(token);
      const tell = teller(collected, question.candidates, (message, increment) =>
        progress.report({ message, increment }),
      );
      let complete = true;
      try {
        for (const _ of explore(judge, collected, { first: 1, last: question.candidates })) {
          await pause();
          tell();
        }
      } catch (problem) {
        if (!(problem instanceof CancellationError)) throw problem;
        complete = false;
      }
      const steps = answer(judge, collected, { version: '', top, complete, shard: null });
      for (;;) {
        const step = steps.next();
        if (step.done) return complete || step.value.kept > 0 ? step.value : null;
        if (complete) await pause();
      }
    },
  );
}

/** Tells how far a run is, at most for every hundredth of it. */
function teller(
  collected: Collection,
  candidates: number,
  report: (message: string, increment: number) => void,
): () => void {
  let told = 0;
  return () => {
    const { judged: at, kept } = collected.counts();
    const share = Math.floor((100 * at) / candidates);
    if (share <= told) return;
    report(l10n.t('{0} kept', kept), share - told);
    told = share;
  };
}

function refusals({ refused }: Variants): number {
  return refused.reduce((sum, { count }) => sum + count, 0);
}

interface RowItem extends QuickPickItem {
  readonly row: VariantRow;
}

async function choose(
  document: TextDocument,
  text: string,
  judge: Evaluator,
  found: Variants,
): Promise<void> {
  const part = found.complete ? '' : ` ${l10n.t('(a part: the run was cancelled)')}`;
  const title = l10n.t(
    '{0} of {1} candidates kept, {2} make no winding{3}',
    found.kept,
    found.candidates,
    refusals(found),
    part,
  );
  const item = await window.showQuickPick(
    found.rows.map((row): RowItem => rowItem(judge, found, row)),
    {
      title,
      placeHolder: l10n.t('Held equal: {0}', heldText(found)),
      matchOnDescription: true,
      matchOnDetail: true,
    },
  );
  if (!item) return;
  const open = l10n.t('Open as New Winding');
  const take = l10n.t('Take Over into This File');
  const way = await window.showQuickPick([open, take], { title: item.label });
  if (way === open) await openChosen(document, judge, item.row.number);
  if (way === take) await takeOver(document, text, judge, item.row.number);
}

function rowItem(judge: Evaluator, found: Variants, row: VariantRow): RowItem {
  const values = found.vary.map(({ word, unit }) => `${word} ${valueWords(row.values[word] ?? '', unit)}`);
  const figures = found.figures.map((name) => `${name} ${figureWords(name, row.figures[name] ?? null)}`);
  const limits = found.limits.length > 0 && row.limits ? [l10n.t('limits met: {0}', limitsWords(row))] : [];
  const own = takeOverEdits(judge, row.number)?.length === 0;
  const marks = [
    ...(row.front ? [l10n.t('front')] : []),
    ...(own ? [l10n.t('as in the file')] : []),
    ...limits,
  ];
  return {
    label: `${row.number}: ${values.join(', ')}`,
    description: marks.join(' · '),
    detail: figures.join(' · '),
    row,
  };
}

async function openChosen(document: TextDocument, judge: Evaluator, number: number): Promise<void> {
  const content = chosenText(judge, number, document.uri.path.split('/').at(-1) ?? '');
  if (content === null) return;
  const made = await workspace.openTextDocument({ language: windingLanguage, content });
  await window.showTextDocument(made);
}

/** Changes just the words that vary, and those that follow from them; one step to undo. */
async function takeOver(
  document: TextDocument,
  text: string,
  judge: Evaluator,
  number: number,
): Promise<void> {
  if (document.getText() !== text) {
    window.showWarningMessage(
      l10n.t('The text has changed since the variants were judged, and was left as it is; judge them again.'),
    );
    return;
  }
  const edit = new WorkspaceEdit();
  for (const { range, text: written } of takeOverEdits(judge, number) ?? [])
    edit.replace(document.uri, editorRange(document, range), written);
  await workspace.applyEdit(edit);
}
