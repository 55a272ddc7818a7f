import { randomBytes } from 'node:crypto';
import { constants, type Stats, writeSync } from 'node:fs';
import * as node from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { codeOf, reasonOf } from '../reasons.ts';
import { destinationOf, requireWritable } from './destination.ts';
import { FileTrouble } from './files.ts';

/** What writing asks of the file system; tests put calls in its place that fail. */
export type Disk = Pick<typeof node, 'open' | 'readFile' | 'rename' | 'unlink'>;

export interface WriteOptions {
  /** What the file held when it was read: where it holds anything else by now, it is left alone. */
  readonly held?: Uint8Array | undefined;
  /** Names of the temporary files there are at present; one that stops the program removes them. */
  readonly temporaries?: Set<string>;
  readonly disk?: Disk;
}

/**
 * Writes a file whole or not at all: into a temporary file beside it, synced, which then takes its place and
 * keeps its mode and owner. Links are followed; a pipe or a device is written directly, and one whose reader
 * stops early is no trouble. Throws FileTrouble; an old file is then as it was.
 */
export async function writeWhole(
  file: string,
  content: Uint8Array,
  { held, temporaries = new Set(), disk = node }: WriteOptions = {},
): Promise<void> {
  const destination = destinationOf(file);
  if (destination.kind !== 'file') return writeStream(file, destination, content, disk);
  const { path, old } = destination;
  if (old) requireWritable(file, path);
  const folder = dirname(path);
  const temporary = join(folder, `.slotwright-${process.pid}-${randomBytes(8).toString('hex')}.tmp`);
  temporaries.add(temporary);
  try {
    await fillTemporary(file, temporary, content, old, disk);
    if (held) await requireUnchanged(file, path, held, disk);
    await disk.rename(temporary, path);
  } catch (problem) {
    await disk.unlink(temporary).catch(() => undefined);
    if (problem instanceof FileTrouble) throw problem;
    throw new FileTrouble(file, `${reasonOf(problem)} ${unharmed(old)}`);
  } finally {
    temporaries.delete(temporary);
  }
  await syncFolder(folder, disk);
  await removeLeftovers(folder, path);
}

const temporaryName = /^\.slotwright-(\d+)-[0-9a-f]{16}\.tmp$/;
/** Ten minutes: no file that is still being written stands still for so long. */
const leftAlone = 600_000;

/**
 * Removes temporary files that a program which was killed has left beside a file just written: those of a
 * process that is gone and, because other computers may share the folder, much older than that file.
 */
async function removeLeftovers(folder: string, written: string): Promise<void> {
  try {
    const now = (await node.stat(written)).mtimeMs;
    for (const name of await node.readdir(folder)) {
      const owner = temporaryName.exec(name)?.[1];
      if (owner === undefined || isRunning(Number(owner))) continue;
      const { mtimeMs } = await node.lstat(join(folder, name));
      if (now - mtimeMs > leftAlone) await node.unlink(join(folder, name));
    }
  } catch {
    // The file is written; what cannot be tidied harms nobody.
  }
}

function isRunning(processId: number): boolean {
  try {
    process.kill(processId, 0);
    return true;
  } catch (problem) {
    return codeOf(problem) !== 'ESRCH';
  }
}

function unharmed(old: Stats | null): string {
  return old ? 'The file is left as it was.' : 'Nothing is written.';
}

async function fillTemporary(
  file: string,
  temporary: string,
  content: Uint8Array,
  old: Stats | null,
  disk: Disk,
): Promise<void> {
  // What replaces a private file is private from its first byte on.
  const handle = await disk.open(temporary, 'wx', old ? 0o600 : 0o666).catch((problem) => {
    if (codeOf(problem) === 'ENAMETOOLONG') throw problem;
    const why = `no file can be made in its folder ${dirname(temporary)}: ${reasonOf(problem)}`;
    throw new FileTrouble(file, `${why} ${unharmed(old)}`);
  });
  try {
    await handle.writeFile(content);
    if (old) await keepOwnerAndMode(handle, old);
    await handle.sync().catch(unlessUnknownHere);
  } finally {
    await handle.close();
  }
}

/** Gives a new file the old one's owner, group and mode. */
async function keepOwnerAndMode(handle: node.FileHandle, old: Stats): Promise<void> {
  const mine = await handle.stat();
  const keep = (uid: number, gid: number) =>
    handle.chown(uid, gid).then(
      () => true,
      () => false,
    );
  const groupKept = mine.gid === old.gid || (await keep(mine.uid, old.gid));
  const ownerKept = mine.uid === old.uid || (await keep(old.uid, groupKept ? old.gid : mine.gid));
  const bits = ownerKept && groupKept ? 0o7777 : 0o777;
  // Another group may do what anybody may, not what the old group might.
  const mode = groupKept ? old.mode : (old.mode & 0o707) | ((old.mode & 0o007) << 3);
  await handle.chmod(mode & bits);
}

/** Some file systems, those over a network among them, know no syncing: then there is nothing to wait for. */
function unlessUnknownHere(problem: unknown): void {
  if (!['EINVAL', 'ENOSYS', 'ENOTSUP', 'EOPNOTSUPP'].includes(codeOf(problem) ?? '')) throw problem;
}

async function requireUnchanged(file: string, path: string, held: Uint8Array, disk: Disk): Promise<void> {
  const now = await disk.readFile(path).catch((problem) => {
    if (codeOf(problem) === 'ENOENT') return null;
    throw problem;
  });
  if (now === null) throw new FileTrouble(file, 'is gone since it was read; nothing is written.');
  if (Buffer.compare(now, held) !== 0)
    throw new FileTrouble(file, 'has been changed since it was read; it is left as it is.');
}

/** Makes the new name last; where a folder cannot be synced, the file is whole all the same. */
async function syncFolder(folder: string, disk: Disk): Promise<void> {
  const handle = await disk.open(folder, 'r').catch(() => null);
  await handle?.sync().catch(() => undefined);
  await handle?.close().catch(() => undefined);
}

type Stream =
  | { readonly kind: 'stream'; readonly path: string }
  | { readonly kind: 'descriptor'; readonly descriptor: number };

async function writeStream(file: string, stream: Stream, content: Uint8Array, disk: Disk): Promise<void> {
  try {
    if (stream.kind === 'descriptor') return await writeDescriptor(stream.descriptor, content);
    const handle = await disk.open(stream.path, constants.O_WRONLY);
    try {
      await handle.writeFile(content);
    } finally {
      await handle.close();
    }
  } catch (problem) {
    if (codeOf(problem) !== 'EPIPE') throw new FileTrouble(file, reasonOf(problem));
  }
}

/** Writes all of it to an open file, at its place; waits where the other end is slow to read. */
export async function writeDescriptor(descriptor: number, content: Uint8Array): Promise<void> {
  for (let at = 0; at < content.length; ) {
    try {
      at += writeSync(descriptor, content, at);
    } catch (problem) {
      if (codeOf(problem) !== 'EAGAIN') throw problem;
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
  }
}
