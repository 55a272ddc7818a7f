import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { codeOf } from '../reasons.ts';

const chunkSize = 64 * 1024;

/** Fills a stretch of bytes and says how many it put there; 0 at the end. */
export type ReadChunk = (chunk: Uint8Array) => number;

/** Everything up to the end; null as soon as it is more than `most` bytes, the rest left unread. */
export function readAtMost(most: number, read: ReadChunk): Uint8Array | null {
  const chunks: Uint8Array[] = [];
  for (let length = 0; length <= most; ) {
    const chunk = new Uint8Array(chunkSize);
    const count = read(chunk);
    if (count === 0) return Buffer.concat(chunks, length);
    chunks.push(chunk.subarray(0, count));
    length += count;
  }
  return null;
}

/**
 * The bytes of a file, a pipe or a device, or of standard input for `-`; null where they are more than `most`.
 * Throws what the operating system says where they cannot be read.
 */
export function readFileAtMost(most: number, file: string): Uint8Array | null {
  const descriptor = file === '-' ? 0 : openSync(file, 'r');
  try {
    const stats = fstatSync(descriptor);
    if (stats.isFile() && stats.size > most) return null;
    return readAtMost(most, (chunk) => readChunk(descriptor, chunk));
  } finally {
    if (file !== '-') closeSync(descriptor);
  }
}

function readChunk(descriptor: number, chunk: Uint8Array): number {
  for (;;) {
    try {
      return readSync(descriptor, chunk);
    } catch (problem) {
      const code = codeOf(problem);
      if (code === 'EOF') return 0;
      // A terminal or a pipe that somebody set so has nothing yet.
      if (code !== 'EAGAIN') throw problem;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 10);
    }
  }
}
