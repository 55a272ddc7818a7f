import { fstatSync } from 'node:fs';
import { codeOf, reasonOf } from '../reasons.ts';
import { writeDescriptor } from './writeFile.ts';

/** Writes text to standard output; see `written`. */
export function writeStandardOutput(text: string): Promise<string | null> {
  return written(process.stdout, text);
}

/** Writes text to standard error; likewise. */
export function writeStandardError(text: string): Promise<string | null> {
  return written(process.stderr, text);
}

/**
 * Writes text and waits until it is taken. Returns why it could not be, as a sentence, or null; a reader that stops
 * early (head, less) is no trouble.
 */
async function written(stream: StandardStream, text: string): Promise<string | null> {
  try {
    if (text !== '') await writeTo(stream, text);
    return null;
  } catch (problem) {
    return codeOf(problem) === 'EPIPE' ? null : reasonOf(problem);
  }
}

type StandardStream = NodeJS.WriteStream & { fd: number };

function writeTo(stream: StandardStream, text: string): Promise<void> {
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

function isFileOrDevice({ fd, isTTY }: StandardStream): boolean {
  if (isTTY) return false;
  try {
    const stats = fstatSync(fd);
    return stats.isFile() || stats.isCharacterDevice();
  } catch {
    return false;
  }
}
