import {
  CancellationError,
  CodeAction,
  CodeActionKind,
  type Diagnostic,
  type Range as EditorRange,
  ProgressLocation,
  type QuickPickItem,
  type TextDocument,
  window,
} from 'vscode';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { countedIn, limitFailed, limitName, limitValue } from '../../../core/findings/limits.ts';
import { changeInSight } from '../../edits.ts';
import type { Studies } from '../../engine/studies.ts';
import { codeOf } from '../../findingCode.ts';
import { l10n } from '../../wording.ts';
import { createPause } from '../inSlices.ts';
import { askedDocument } from '../variants/subject.ts';
import { type Answer, meetingChanges } from './meeting.ts';

/** Asks what would meet the failed limits at a stretch of the text. */
export function meetingActions(
  study: CheckedText,
  document: TextDocument,
  at: EditorRange,
  diagnostics: readonly Diagnostic[],
): CodeAction[] {
  const stretch = { start: document.offsetAt(at.start), end: document.offsetAt(at.end) };
  return study.limits.flatMap(({ met, range }, index) => {
    if (met !== false || range.start > stretch.end || stretch.start > range.end) return [];
    const action = new CodeAction(l10n.t('What would meet this?'), CodeActionKind.QuickFix);
    const title = action.title;
    action.command = { title, command: 'slotwright.meetLimit', arguments: [document.uri, index] };
    action.diagnostics = diagnostics.filter((each) => codeOf(each) === limitFailed.code);
    return [action];
  });
}

interface AnswerItem extends QuickPickItem {
  readonly answer: Answer;
}

/** Lists which single values, changed, would meet a limit of a text, and writes the chosen one: one step to undo. */
export async function meetLimit(studies: Studies, uri: unknown, index: unknown): Promise<void> {
  const document = await askedDocument(uri);
  if (!document || typeof index !== 'number') return;
  const study = studies.of(document);
  const limit = study.limits[index];
  if (!limit) return;
  const name = `${limitName(limit)} ${limit.relation} ${limit.source.written}`;
  const answers = await window.withProgress(
    {
      location: ProgressLocation.Notification,
      title: l10n.t('Looking for what meets {0}', name),
      cancellable: true,
    },
    (_, token) =>
      meetingChanges(study, index, createPause(token)).catch((problem: unknown) => {
        if (problem instanceof CancellationError) return null;
        throw problem;
      }),
  );
  if (answers === null) return;
  if (answers.length === 0) {
    window.showInformationMessage(
      l10n.t(
        'No single value within a few steps meets {0}. A block vary tries several together: Vary This Winding.',
        name,
      ),
    );
    return;
  }
  const item = await window.showQuickPick(
    answers.map((answer) => itemOf(answer, index)),
    {
      title: l10n.t('What would meet {0}', name),
      placeHolder: l10n.t('The one chosen is written into the text; all else stays'),
      matchOnDescription: true,
      matchOnDetail: true,
    },
  );
  if (!item) return;
  if (document.getText() !== study.text) {
    window.showWarningMessage(
      l10n.t('The text has changed since the answers were found, and was left as it is; ask again.'),
    );
    return;
  }
  await changeInSight(document, [{ range: item.answer.value.range, text: item.answer.written }]);
}

function itemOf(answer: Answer, index: number): AnswerItem {
  const { statement, value, written, limits, unjoined } = answer;
  const limit = limits[index]!;
  const failing = limits.filter(({ met }) => met === false);
  const unknown = limits.filter(({ met }) => met === null);
  return {
    label: `${statement.entry.block} ${statement.entry.word} ${value.written} \u2192 ${written}`,
    description: `${limitName(limit)} = ${limitValue(limit, limit.actual!)}${countedIn(limit)}`,
    detail: [
      ...(unjoined ? [l10n.t('No paths')] : []),
      failing.length === 0
        ? l10n.t('no limit fails')
        : l10n.t('still fails: {0}', failing.map(limitName).join(', ')),
      ...(unknown.length > 0
        ? [l10n.t('to be seen once it is written: {0}', unknown.map(limitName).join(', '))]
        : []),
    ].join(' \u00B7 '),
    answer,
  };
}
