import { type TextDocument, Uri, window, workspace } from 'vscode';

/** The language of winding files, as contributed in package.json. */
export const windingLanguage = 'winding';

/** Whether the features look at a document: winding text, but not the old revision in a git comparison. */
export function isWinding(document: TextDocument): boolean {
  return document.languageId === windingLanguage && document.uri.scheme !== 'git';
}

/** The address of a text as it was told by its name; throws where that is none. */
export function addressNamed(name: string): Uri {
  return Uri.parse(name, true);
}

/** The last part of a path, `pod-drive.winding`. */
export function lastPart(path: string): string {
  return path.split('/').at(-1) ?? path;
}

/** The last part of the document's path. */
export function fileName({ uri }: TextDocument): string {
  return lastPart(uri.path);
}

/** The document a command was called on, else the one in the active editor, if it is a winding. */
export async function chosenWinding(uri: unknown): Promise<TextDocument | null> {
  const document =
    uri instanceof Uri ? await workspace.openTextDocument(uri) : window.activeTextEditor?.document;
  return document !== undefined && isWinding(document) ? document : null;
}
