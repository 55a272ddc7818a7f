import { type Dirent, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

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

/** Bytes after which a file is not read: the engine refuses such texts anyway. */
const mostBytes = 8 * 1024 * 1024;

/** The text of a file, or of standard input for `-`; a byte order mark is kept. Throws FileTrouble. */
export function readText(file: string): string {
  return decodedText(readBytes(file), nameOf(file));
}

/** What a file holds, or standard input for `-`. Throws FileTrouble where it cannot be read, or is too large. */
export function readBytes(file: string): Uint8Array {
  try {
    if (file !== '-' && statSync(file).size > mostBytes) throw new FileTrouble(file, tooLarge);
    return readFileSync(file === '-' ? 0 : file);
  } catch (problem) {
    if (problem instanceof FileTrouble) throw problem;
    throw new FileTrouble(nameOf(file), reason(problem));
  }
}

function nameOf(file: string): string {
  return file === '-' ? 'standard input' : file;
}

const tooLarge = 'larger than 8 MB; this is no winding file.';

/** Bytes as text; a byte order mark is kept. Throws FileTrouble where they are no UTF-8 or too many. */
export function decodedText(bytes: Uint8Array, name: string): string {
  if (bytes.length > mostBytes) throw new FileTrouble(name, tooLarge);
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new FileTrouble(name, 'not UTF-8 text.');
  }
}

/** Writes a file; its folder has to exist. */
export function writeText(file: string, content: string): void {
  try {
    writeFileSync(file, content);
  } catch (problem) {
    throw new UsageError(`${file}: ${reason(problem)}`);
  }
}

/** Writes a file of bytes; its folder has to exist. */
export function writeBytes(file: string, content: Uint8Array): void {
  try {
    writeFileSync(file, content);
  } catch (problem) {
    throw new UsageError(`${file}: ${reason(problem)}`);
  }
}

/** The winding files named, folders searched for `*.winding` (hidden ones and node_modules left out), sorted. */
export function windingFiles(names: readonly string[]): readonly string[] {
  return names.flatMap((name) => {
    if (name === '-') return [name];
    try {
      return statSync(name).isDirectory() ? filesBelow(name) : [name];
    } catch {
      // Reading it says what is wrong, in its place among the others.
      return [name];
    }
  });
}

function filesBelow(folder: string): readonly string[] {
  return entriesOf(folder).flatMap((entry) => {
    if (entry.name.startsWith('.') || entry.name === 'node_modules') return [];
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return filesBelow(path);
    return entry.isFile() && entry.name.endsWith('.winding') ? [path] : [];
  });
}

function entriesOf(folder: string): readonly Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1));
  } catch (problem) {
    throw new UsageError(`${folder}: ${reason(problem)}`);
  }
}

function reason(problem: unknown): string {
  const code = (problem as { code?: string }).code;
  switch (code) {
    case 'ENOENT':
      return 'no such file or folder.';
    case 'EISDIR':
      return 'is a folder, not a file.';
    case 'EACCES':
    case 'EPERM':
      return 'access denied.';
    default:
      return problem instanceof Error ? problem.message : String(problem);
  }
}
