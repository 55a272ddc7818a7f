import { commands, env, UIKind, type Uri, window, workspace } from 'vscode';
import { lastPart } from '../../windingDocument.ts';
import { l10n } from '../../wording.ts';

/** What was written. */
export interface Written {
  /** The file to open: the only one, or that to read first. */
  readonly open: Uri;
  readonly words: string;
}

/**
 * Says what was written, and offers to open it or to show where it lies. Texts open in the editor; PDF and drawings
 * open outside it, which only an editor on the same machine as its files can do. Elsewhere the editor's own list of
 * files shows them, where they can be downloaded.
 */
export async function offerToOpen({ open, words }: Written): Promise<void> {
  const isText = /\.(md|csv|json|winding)$/i.test(open.path);
  const local = isLocal(open);
  const listed = workspace.getWorkspaceFolder(open) !== undefined;
  const [openIt, revealIt] = [l10n.t('Open'), l10n.t('Reveal')];
  const choices = [...(isText || local ? [openIt] : []), ...(local || listed ? [revealIt] : [])];
  const choice = await window.showInformationMessage(words, ...choices);
  if (choice === revealIt) await commands.executeCommand(local ? 'revealFileInOS' : 'revealInExplorer', open);
  if (choice !== openIt) return;
  if (isText) await commands.executeCommand('vscode.open', open);
  else if (!(await env.openExternal(open)))
    window.showWarningMessage(l10n.t('Nothing on this system opens {0}.', lastPart(open.path)));
}

/** Whether programs of the reader's own machine can reach the file. */
function isLocal({ scheme }: Uri): boolean {
  return scheme === 'file' && env.uiKind === UIKind.Desktop && env.remoteName === undefined;
}
