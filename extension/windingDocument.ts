import type { TextDocument } from 'vscode';

/** The language of winding files, as contributed in package.json. */
export const windingLanguage = 'winding';

/** Whether the features look at a document: winding text, but not the old revision in a git comparison. */
export function isWinding(document: TextDocument): boolean {
  return document.languageId === windingLanguage && document.uri.scheme !== 'git';
}

/** The last part of the document's path, `pod-drive.winding`. */
export function fileName(document: TextDocument): string {
  return document.uri.path.split('/').at(-1) ?? document.uri.path;
}
