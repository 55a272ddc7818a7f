import { type TextDocument, Uri, window, workspace } from 'vscode';
import { windingLanguage } from '../../windingDocument.ts';
import { l10n } from '../../wording.ts';

/** The winding text that a command is about: the one named, or the one that is being edited; null, and said, where there is none. */
export async function askedDocument(uri: unknown): Promise<TextDocument | null> {
  const document =
    uri instanceof Uri ? await workspace.openTextDocument(uri) : window.activeTextEditor?.document;
  if (document?.languageId === windingLanguage) return document;
  window.showInformationMessage(l10n.t('Open a winding first.'));
  return null;
}
