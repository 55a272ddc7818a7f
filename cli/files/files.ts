import { type Dirent, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { reasonOf } from '../reasons.ts';
import { readFileAtMost } from './boundedRead.ts';

/** Trouble with a file or the way the program was called: exit code 2. */
export class UsageError extends Error {}

/** A file that cannot be read or written, and why. */
export class FileTrouble extends UsageError {
  readonly why: string;

  constructor(file: string, why: string) {
    super(`${file}: ${why}`);
    this.why = why;
  }
}

/** Bytes after which a file is read no further: the engine refuses such texts anyway. */
export const mostBytes = 8 * 1024 * 1024;

/** The text of a file, or of standard input for `-`; a byte order mark is kept. Throws FileTrouble. */
export function readText(file: string): string {
  return decodedText(readBytes(file), nameOf(file));
}

/** What a file holds, or standard input for `-`. Throws FileTrouble where it cannot be read, or is too large. */
export function readBytes(file: string): Uint8Array {
  let bytes: Uint8Array | null;
  try {
    bytes = readFileAtMost(mostBytes, file);
  } catch (problem) {
    throw new FileTrouble(nameOf(file), reasonOf(problem));
  }
  if (bytes === null) throw new FileTrouble(nameOf(file), tooLarge);
  return bytes;
}

/** The name of a file as a message tells it. */
export function nameOf(file: string): string {
  return file === '-' ? 'standard input' : file;
}

export const tooLarge = 'larger than 8 MB; this is no winding file.';

/** Bytes as text; a byte order mark is kept. Throws FileTrouble where they are no UTF-8 or too many. */
export function decodedText(bytes: Uint8Array, name: string): string {
  if (bytes.length > mostBytes) throw new FileTrouble(name, tooLarge);
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new FileTrouble(name, 'not UTF-8 text.');
  }
}

/** What a search for winding files came upon. */
export interface Search {
  readonly files: readonly string[];
  /** Folders that could not be looked through. */
  readonly unread: readonly UnreadPlace[];
}

/** A file or folder that could not be read, and the sentence that says so. */
export interface UnreadPlace {
  readonly file: string;
  readonly problem: string;
}

/** The winding files named, folders searched for `*.winding` (hidden ones and node_modules left out), sorted. */
export function windingFiles(names: readonly string[]): Search {
  const unread: UnreadPlace[] = [];
  const files = names.flatMap((name) => {
    if (name === '-') return [name];
    try {
      return statSync(name).isDirectory() ? filesBelow(name, unread) : [name];
    } catch {
      // Reading it says what is wrong, in its place among the others.
      return [name];
    }
  });
  return { files, unread };
}

function filesBelow(folder: string, unread: UnreadPlace[]): readonly string[] {
  return entriesOf(folder, unread).flatMap((entry) => {
    if (entry.name.startsWith('.') || entry.name === 'node_modules') return [];
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return filesBelow(path, unread);
    return entry.isFile() && entry.name.endsWith('.winding') ? [path] : [];
  });
}

/** What lies in a folder; where that cannot be told, the folder is noted and the search goes on. */
function entriesOf(folder: string, unread: UnreadPlace[]): readonly Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1));
  } catch (problem) {
    const trouble = new FileTrouble(folder, `the folder cannot be searched: ${reasonOf(problem)}`);
    unread.push({ file: folder, problem: trouble.message });
    return [];
  }
}
