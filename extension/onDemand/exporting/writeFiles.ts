import { CancellationError, FilePermission, FileSystemError, FileType, Uri, workspace } from 'vscode';
import { lastPart } from '../../windingDocument.ts';
import { l10n } from '../../wording.ts';
import { createNonce } from '../nonce.ts';
import type { NamedFile } from './packageFiles.ts';
import { isPlainName } from './safeName.ts';

/**
 * Writes files into a folder of any file system that the editor knows, all of them or none: whole into temporary
 * files beside them first, which then take their places. Where one fails, what was there before is put back,
 * and the error says what is there now. Between files `pause` may give way to others, or throw to end it all.
 */
export async function writeFiles(
  folder: Uri,
  files: readonly NamedFile[],
  pause: () => Promise<void>,
): Promise<void> {
  if (workspace.fs.isWritableFileSystem(folder.scheme) === false)
    throw new Error(l10n.t('Files cannot be written there. Choose another folder.'));
  const isNew = !(await isThere(folder));
  if (isNew) await workspace.fs.createDirectory(folder);
  const places: Place[] = [];
  const touched: Place[] = [];
  try {
    await pause();
    for (const file of files) places.push(await placeOf(folder, file));
    for (const { temporary, bytes } of places) {
      await pause();
      await workspace.fs.writeFile(temporary, bytes);
    }
    for (const place of places) {
      await pause();
      touched.push(place);
      await take(place);
    }
  } catch (error) {
    const state = [...(await undo(touched)), ...(await removeTemporaries(places))];
    if (isNew) await removeIfThere(folder);
    const isClean = state.every((sentence) => sentence === unchanged());
    if (error instanceof CancellationError && isClean) throw error;
    throw new Error(
      [error instanceof CancellationError ? l10n.t('Canceled.') : messageOf(error), ...state].join(' '),
    );
  }
}

/** Whether there is a file or folder. Throws where that cannot be told. */
export async function isThere(uri: Uri): Promise<boolean> {
  return (await statOf(uri)) !== null;
}

/** Where a file goes, and what was there before. */
interface Place extends NamedFile {
  readonly target: Uri;
  readonly temporary: Uri;
  /** What the file held; null where there was none. */
  readonly old: Uint8Array | null;
  /** Whether the target is a link, which is to stay one. */
  readonly linked: boolean;
}

async function placeOf(folder: Uri, file: NamedFile): Promise<Place> {
  if (!isPlainName(file.name)) throw new Error(l10n.t('{0} is no name of a file.', file.name));
  const target = Uri.joinPath(folder, file.name);
  const temporary = Uri.joinPath(folder, `.slotwright-${createNonce()}.tmp`);
  const stat = await statOf(target);
  if (stat && (stat.type & FileType.Directory) !== 0)
    throw new Error(l10n.t('{0} is a folder, not a file.', file.name));
  if (stat && ((stat.permissions ?? 0) & FilePermission.Readonly) !== 0)
    throw new Error(l10n.t('{0} is write-protected.', file.name));
  const old = stat ? await workspace.fs.readFile(target) : null;
  const linked = stat !== null && (stat.type & FileType.SymbolicLink) !== 0;
  return { ...file, target, temporary, old, linked };
}

/** Puts the new file in the old one's place; where the file system cannot do that at once, by writing it. */
async function take({ target, temporary, bytes, linked }: Place): Promise<void> {
  if (!linked) {
    try {
      await workspace.fs.rename(temporary, target, { overwrite: true });
      return;
    } catch {
      // Not every file system renames over a file; where the disk is at fault, writing says so.
    }
  }
  await workspace.fs.writeFile(target, bytes);
  await removeIfThere(temporary);
}

/** Takes everything back as far as that goes; resolves to sentences about what is there now. */
async function undo(places: readonly Place[]): Promise<readonly string[]> {
  const [written, cutOff]: [string[], string[]] = [[], []];
  for (const place of places) {
    const state = await putBack(place);
    if (state === 'new') written.push(place.name);
    if (state === 'cut off') cutOff.push(place.name);
  }
  if (written.length + cutOff.length === 0) return [unchanged()];
  return [
    ...(written.length > 0 ? [l10n.t('Written all the same: {0}.', written.join(', '))] : []),
    ...(cutOff.length > 0 ? [l10n.t('Cut off: {0}.', cutOff.join(', '))] : []),
  ];
}

function unchanged(): string {
  return l10n.t('No file was changed.');
}

async function removeTemporaries(places: readonly Place[]): Promise<readonly string[]> {
  const left: string[] = [];
  for (const { temporary } of places)
    if (!(await removeIfThere(temporary))) left.push(lastPart(temporary.path));
  return left.length === 0 ? [] : [l10n.t('To be deleted: {0}.', left.join(', '))];
}

async function putBack(place: Place): Promise<'old' | 'new' | 'cut off'> {
  const { target, temporary, old, bytes, linked } = place;
  const now = await contentOf(target);
  if (isSame(now, old)) return 'old';
  if (old === null && (await removeIfThere(target))) return 'old';
  // A new file that is whole gives way to nothing but a whole old one.
  if (old !== null && !linked && (await isReplaced(target, temporary, old))) return 'old';
  if (isSame(await contentOf(target), bytes)) return 'new';
  if (old === null) return 'cut off';
  return workspace.fs.writeFile(target, old).then(
    () => 'old' as const,
    () => 'cut off' as const,
  );
}

async function isReplaced(target: Uri, temporary: Uri, content: Uint8Array): Promise<boolean> {
  try {
    await workspace.fs.writeFile(temporary, content);
    await workspace.fs.rename(temporary, target, { overwrite: true });
    return true;
  } catch {
    await removeIfThere(temporary);
    return false;
  }
}

async function contentOf(uri: Uri): Promise<Uint8Array | null> {
  try {
    return await workspace.fs.readFile(uri);
  } catch {
    return null;
  }
}

function isSame(one: Uint8Array | null, other: Uint8Array | null): boolean {
  if (one === null || other === null) return one === other;
  return one.length === other.length && one.every((byte, i) => byte === other[i]);
}

async function statOf(uri: Uri) {
  try {
    return await workspace.fs.stat(uri);
  } catch (error) {
    if (error instanceof FileSystemError && error.code === 'FileNotFound') return null;
    throw error;
  }
}

/** Deletes a file, or a folder that is empty; resolves to whether it is gone. */
async function removeIfThere(uri: Uri): Promise<boolean> {
  try {
    await workspace.fs.delete(uri, { recursive: false, useTrash: false });
  } catch {
    // It may not be there, which is as well.
  }
  return !(await isThere(uri).catch(() => true));
}

function messageOf(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  return /[.!?]$/.test(message) ? message : `${message}.`;
}
