import { fstatSync } from 'node:fs';
import { codeOf, reasonOf } from '../reasons.ts';
import { writeDescriptor } from './writeFile.ts';

/**
 * Writes text to standard output and waits until it is taken. Returns why it could not be, as a sentence, or
 * null; a reader that stops early (head, less) is no trouble.
 */
export async function writeStandardOutput(text: string): Promise<string | null> {
  try {
    if (text !== '') await writeTo(process.stdout, text);
    return null;
  } catch (problem) {
    return codeOf(problem) === 'EPIPE' ? null : reasonOf(problem);
  }
}

/** Writes text to standard error; where even that fails, there is nobody left to tell. */
export async function writeStandardError(text: string): Promise<void> {
  if (text !== '') await writeTo(process.stderr, text).catch(() => undefined);
}

function writeTo(stream: NodeJS.WriteStream & { fd: number }, text: string): Promise<void> {
  // Node's own stream to a file gives up silently after a part of it, where the disk is full.
  if (isFileOrDevice(stream)) return writeDescriptor(stream.fd, new TextEncoder().encode(text));
  return new Promise((resolve, reject) => {
    stream.once('error', reject);
    stream.write(text, (problem) => {
      if (problem) return reject(problem);
      stream.off('error', reject);
      resolve();
    });
  });
}

function isFileOrDevice({ fd, isTTY }: NodeJS.WriteStream & { fd: number }): boolean {
  if (isTTY) return false;
  try {
    const stats = fstatSync(fd);
    return stats.isFile() || stats.isCharacterDevice();
  } catch {
    return false;
  }
}
