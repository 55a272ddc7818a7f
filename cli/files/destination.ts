import {
  accessSync,
  constants,
  fstatSync,
  lstatSync,
  readlinkSync,
  realpathSync,
  type Stats,
  statSync,
} from 'node:fs';
import { dirname, isAbsolute, sep } from 'node:path';
import { codeOf, reasonOf } from '../reasons.ts';
import { FileTrouble, requireName, UsageError } from './files.ts';

/** What a file name to write to leads to. */
export type Destination =
  /** A regular file with all links followed; `old` is null where there is none yet. */
  | { readonly kind: 'file'; readonly path: string; readonly old: Stats | null }
  /** A pipe or a device. */
  | { readonly kind: 'stream'; readonly path: string }
  /** What this process holds open already, such as /dev/stdout. */
  | { readonly kind: 'descriptor'; readonly descriptor: number };

/** Links that lead to links are followed this far, as the operating system does. */
const mostLinks = 40;

/** Follows a name to what would be written. Throws FileTrouble where that can be no file. */
export function destinationOf(file: string): Destination {
  requireName(file);
  if (file.endsWith('/') || file.endsWith(sep))
    throw new FileTrouble(file, 'is the name of a folder, not of a file.');
  try {
    return followed(file);
  } catch (problem) {
    if (problem instanceof UsageError) throw problem;
    throw new FileTrouble(file, reasonOf(problem));
  }
}

function followed(file: string): Destination {
  let path = file;
  for (let links = 0; links <= mostLinks; links++) {
    const descriptor = descriptorOf(path);
    if (descriptor !== null) return { kind: 'descriptor', descriptor };
    const here = orNull(() => lstatSync(path));
    if (here === null) return absent(file, path);
    if (here.isDirectory()) throw new FileTrouble(file, 'is a folder, not a file.');
    if (here.isFile()) return { kind: 'file', path, old: here };
    if (!here.isSymbolicLink()) return { kind: 'stream', path };
    const link = readlinkSync(path);
    // Not normalized: after a link to a folder, `..` is that folder's parent.
    path = isAbsolute(link) ? link : `${realpathSync(dirname(path))}${sep}${link}`;
  }
  throw new FileTrouble(file, 'its links lead in a circle.');
}

/** A file that is not there yet; its folder has to be. */
function absent(file: string, path: string): Destination {
  // What another process holds open looks like a link, but its text leads nowhere.
  if (orNull(() => statSync(file))) return { kind: 'stream', path: file };
  const folder = dirname(path);
  const stats = orNull(() => statSync(folder));
  if (stats === null) throw new FileTrouble(file, `there is no folder ${folder}.`);
  if (!stats.isDirectory()) throw new FileTrouble(file, `${folder} is no folder.`);
  return { kind: 'file', path, old: null };
}

/** The number of this process's open file that a name stands for. */
function descriptorOf(path: string): number | null {
  const [, pid, number] = /^\/(?:dev|proc\/(self|\d+))\/fd\/(\d+)$/.exec(path) ?? [];
  if (number === undefined) return null;
  return pid === undefined || pid === 'self' || pid === String(process.pid) ? Number(number) : null;
}

function orNull(read: () => Stats): Stats | null {
  try {
    return read();
  } catch (problem) {
    if (codeOf(problem) === 'ENOENT') return null;
    throw problem;
  }
}

/**
 * The format that the ending of an output file asks for; null for a pipe or a device, which needs none.
 * Throws UsageError for any other ending, and where the file is the winding that is read, or another one.
 */
export function outputFormat<Ending extends string>(
  output: string,
  endings: readonly Ending[],
  input: string,
): Ending | null {
  if (output === '-') throw new UsageError('--output -: leave --output out to write to standard output.');
  const destination = destinationOf(output);
  const ending = endings.find((one) => output.toLowerCase().endsWith(`.${one}`));
  if (ending === undefined && destination.kind === 'file') {
    const names = endings.map((one) => `.${one}`);
    const last = names.pop();
    const choice = names.length === 0 ? last : `${names.join(', ')} or ${last}`;
    throw new UsageError(`${output}: the ending of the output file has to be ${choice}.`);
  }
  if (destination.kind === 'file') {
    if (isSameFile(destination.path, input))
      throw new FileTrouble(output, 'is the winding that is read; write to another file.');
    const isNewWinding = ending === 'winding' && destination.old === null;
    if (destination.path.toLowerCase().endsWith('.winding') && !isNewWinding)
      throw new FileTrouble(output, `leads to the winding ${destination.path}; write to another file.`);
  }
  return ending ?? null;
}

/** Whether a path is the file that is read, under whatever name; standard input may be a file too. */
function isSameFile(path: string, input: string): boolean {
  const identity = identityOf(path);
  return identity !== null && identity === identityOf(input);
}

/** What tells a file from all others, links and further names of it followed; null where it is not there. */
export function identityOf(file: string): string | null {
  try {
    const exact = { bigint: true } as const;
    const { dev, ino } = file === '-' ? fstatSync(0, exact) : statSync(file, exact);
    // Some file systems number no files.
    return ino === 0n ? realpathSync(file) : `${dev}:${ino}`;
  } catch {
    return null;
  }
}

/** Throws FileTrouble where an old file must not be written. */
export function requireWritable(file: string, path: string): void {
  try {
    accessSync(path, constants.W_OK);
  } catch (problem) {
    const why = codeOf(problem) === 'EACCES' ? 'write-protected.' : reasonOf(problem);
    throw new FileTrouble(file, why);
  }
}

/** Throws FileTrouble where a file could not be written, before what takes long is done in vain. */
export function requireFolder(file: string): void {
  const destination = destinationOf(file);
  if (destination.kind !== 'file') return;
  const { path, old } = destination;
  if (old) requireWritable(file, path);
  const folder = dirname(path);
  try {
    accessSync(folder, constants.W_OK | constants.X_OK);
  } catch (problem) {
    throw new FileTrouble(file, `no file can be made in its folder ${folder}: ${reasonOf(problem)}`);
  }
}
