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
  requireName(file);
  let bytes: Uint8Array | null;
  try {
    bytes = readFileAtMost(mostBytes, file);
  } catch (problem) {
    throw new FileTrouble(nameOf(file), reasonOf(problem));
  }
  if (bytes === null) throw new FileTrouble(nameOf(file), tooLarge);
  return bytes;
}

/** Throws UsageError for no name at all, as a shell's variable that is not set gives it. */
export function requireName(file: string): void {
  if (file === '') throw new UsageError('a file name is expected, not an empty text.');
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
