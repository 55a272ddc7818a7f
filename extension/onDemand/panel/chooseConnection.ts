import { ProgressLocation, type TextDocument, window } from 'vscode';
import type { ConnectionState } from '../../../core/facts/connection.ts';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { changeInSight } from '../../edits.ts';
import type { Studies } from '../../engine/studies.ts';
import { l10n } from '../../wording.ts';
import {
  type ConnectionChoices,
  connectionDetail,
  connectionLine,
  onlyConnection,
} from './connectionChoices.ts';

/**
 * Lets the reader choose among the connections of a text, each drawn while it is marked. Gives the index of the
 * chosen one; undefined for none, and a word about it where there is nothing to choose.
 */
export async function chooseConnection(
  choices: ConnectionChoices,
  study: CheckedText | null,
): Promise<number | undefined> {
  const state = study?.facts?.connection;
  if (state?.kind !== 'connected' || !state.facts.candidates) {
    window.showInformationMessage(nothingToChoose(state?.kind));
    return undefined;
  }
  const found = await window.withProgress(
    { location: ProgressLocation.Notification, title: l10n.t('Looking for connections') },
    () => choices.found(),
  );
  if (found.length === 1) {
    window.showInformationMessage(onlyConnection());
    return undefined;
  }
  const items = found.map((each, index) => ({
    index,
    label: `${index + 1}`,
    description: connectionLine(each) + (index === 0 ? ` (${l10n.t('as now')})` : ''),
    detail: connectionDetail(each),
  }));
  const picked = await window.showQuickPick(items, {
    title: l10n.t('Choose a connection'),
    placeHolder: l10n.t('The panel draws the one that is marked; the one chosen is written into the text'),
    matchOnDescription: true,
    matchOnDetail: true,
    onDidSelectItem: (item) => {
      if (typeof item === 'object' && 'index' in item) choices.draw(Number(item.index));
    },
  });
  return picked?.index;
}

/** Why there is nothing to choose from. */
function nothingToChoose(kind: ConnectionState['kind'] | undefined): string {
  if (kind === 'connected')
    return l10n.t(
      "The paths are written in the text: there is nothing to choose from. With a route, as in 'route paths 2', in their place, connections are found.",
    );
  if (kind === 'pending') return l10n.t('The paths are still being found. Ask again when they are there.');
  return l10n.t(
    "The text has no connection: there is nothing to choose from. A block connect with a route, as in 'route paths 2', and no errors before it have some found.",
  );
}

/** Writes one of the connections into its text, as an edit that undo takes back; a text that has changed is left alone. */
export async function writeConnection(
  choices: ConnectionChoices,
  index: number,
  document: TextDocument | undefined,
  studies: Studies,
): Promise<void> {
  const chosen = choices.candidate(index);
  if (document === undefined || chosen === null || studies.of(document) !== chosen.study) return;
  const edit = chosen.study.writeOutPaths(chosen.candidate.facts.paths);
  if (edit === null) return;
  await changeInSight(document, [edit]);
}
