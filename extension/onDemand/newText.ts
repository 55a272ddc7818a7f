import { type TextDocument, Uri, workspace } from 'vscode';
import { changeText } from '../edits.ts';
import { windingLanguage } from '../windingDocument.ts';
import { safeStem } from './exporting/safeName.ts';

/** Further names that are tried where files have the first ones. */
const mostTried = 100;

/**
 * A text of the reader's that is no file yet. Where a folder is open it has a name in there that no file and no open
 * text has, so that its tab and its panel tell it from others, and saving it asks for nothing.
 */
export async function newText(content: string, name: string): Promise<TextDocument> {
  const place = await freePlace(safeStem(name));
  if (place === null) return workspace.openTextDocument({ language: windingLanguage, content });
  const document = await workspace.openTextDocument(place);
  await changeText(document, [{ range: { start: 0, end: 0 }, text: content }]);
  return document;
}

/** `name.winding` in the folder that is open, or `name-2.winding` ...; null where there is no folder or no such name. */
async function freePlace(stem: string): Promise<Uri | null> {
  const folder = workspace.workspaceFolders?.[0];
  if (folder === undefined) return null;
  const taken = await namesIn(folder.uri);
  if (taken === null) return null;
  for (let number = 1; number <= mostTried; number++) {
    const name = `${stem}${number === 1 ? '' : `-${number}`}.winding`;
    const uri = Uri.joinPath(folder.uri, name).with({ scheme: 'untitled' });
    const open = workspace.textDocuments.some((each) => each.uri.toString() === uri.toString());
    if (!open && !taken.has(name.toLowerCase())) return uri;
  }
  return null;
}

/** Names of what is in a folder, in small letters, as some systems take both for one; null where it cannot be read. */
async function namesIn(folder: Uri): Promise<ReadonlySet<string> | null> {
  try {
    const entries = await workspace.fs.readDirectory(folder);
    return new Set(entries.map(([name]) => name.toLowerCase()));
  } catch {
    return null;
  }
}
