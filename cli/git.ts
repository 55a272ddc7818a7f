import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, lstatSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import {
  decodedText,
  FileTrouble,
  mostBytes,
  readBytes,
  requireName,
  tooLarge,
  UsageError,
} from './files/files.ts';
import { codeOf } from './reasons.ts';
import { findRenames } from './renames.ts';

/** A winding file on both sides of a comparison; null where it is not there, the trouble where it cannot be read. */
export interface FilePair {
  /** Path from the root of the repository, with forward slashes. */
  readonly file: string;
  /** The path before, where it was another. */
  readonly oldFile?: string;
  readonly old: string | FileTrouble | null;
  readonly now: string | FileTrouble | null;
  /** Whether both sides hold the same bytes. */
  readonly sameBytes: boolean;
}

/** The folder that holds `.git`, from a file or folder upwards; null where there is none. Needs no git. */
export function repositoryRoot(path: string): string | null {
  for (let folder = realPath(path); ; folder = dirname(folder)) {
    if (existsSync(join(folder, '.git'))) return folder;
    if (dirname(folder) === folder) return null;
  }
}

/** The real path of what is there, and of what is not: that of its nearest folder, with the rest added. */
function realPath(path: string): string {
  const whole = resolve(path);
  try {
    return realpathSync(whole);
  } catch {
    return dirname(whole) === whole ? whole : join(realPath(dirname(whole)), basename(whole));
  }
}

/** A path from a folder, with forward slashes; the empty text for the folder itself, null for what lies outside. */
export function pathBelow(folder: string, path: string): string | null {
  const below = relative(realPath(folder), realPath(path));
  if (below === '..' || below.startsWith(`..${sep}`) || isAbsolute(below)) return null;
  return below.split(sep).join('/');
}

/** The files of a comparison with a commit. */
export interface FilesSince {
  readonly files: readonly FilePair[];
  /** Whether a folder was named, and not a file. */
  readonly folder: boolean;
  /** What was not looked at to recognize renamed files, as sentences. */
  readonly notes: readonly string[];
}

/**
 * The winding files of a file's or folder's repository, as they were at a commit and as they are now in
 * the working folder; ignored files and symbolic links are left out, renamed files recognized by what
 * they hold. A folder may hold none with `allowEmpty`. Throws UsageError where git is not there, there is
 * no repository or no such commit, or nothing of that name.
 */
export function filesSince(reference: string, path: string, allowEmpty = false): FilesSince {
  requireName(path);
  if (reference === '' || reference.startsWith('-'))
    throw new UsageError(`'${reference}' names no commit, branch or tag.`);
  const { root, commit } = commitAt(path, reference);
  const below = pathBelow(root, path)!;
  const then = treeFiles(root, commit, below);
  const now = workingFiles(root, below);
  const folder = isFolder(path) || (!then.has(below) && !now.has(below));
  const wanted = (file: string) => below === '' || file === below || file.startsWith(`${below}/`);
  const { files: all, notes } = pairUp(root, reference, then, now, wanted);
  const pairs = all.filter(({ file, oldFile }) => wanted(file) || (oldFile !== undefined && wanted(oldFile)));
  if (pairs.length === 0 && !(allowEmpty && isFolder(path)))
    throw new UsageError(`${path}: no winding files, neither at ${reference} nor in the working folder.`);
  return { files: pairs, folder, notes };
}

function isFolder(path: string): boolean {
  return existsSync(path) && statSync(path).isDirectory();
}

/** The root of the repository that holds a path, and the id of the commit that a reference names there. */
function commitAt(path: string, reference: string): { readonly root: string; readonly commit: string } {
  let folder = realPath(path);
  while (!isFolder(folder)) folder = dirname(folder);
  const asked = ['--show-toplevel', '--verify', '--quiet', `${reference}^{commit}`];
  const { status, stdout, stderr } = git(folder, ['rev-parse', ...asked]);
  const said = stdout.toString();
  // The root comes first, also where there is no such commit.
  if (said === '') {
    const words = gitWords(stderr);
    if (/not a git repository/i.test(words)) throw new UsageError(`${path}: lies in no git repository.`);
    throw new UsageError(`${path}: git says: ${words}`);
  }
  const [, root, commit] = /^([\s\S]+?)\r?\n([0-9a-f]{40,64})\r?\n$/.exec(said) ?? [];
  if (status !== 0 || !root || !commit)
    throw new UsageError(
      `'${reference}' is no commit, branch or tag of the repository; a shallow clone may have to fetch it first.`,
    );
  return { root: realPath(root), commit };
}

/** What git has of a file. */
interface Blob {
  readonly id: string;
  readonly bytes: number;
}

/** The blobs of a commit by path: winding files, and the file named whatever its ending. */
function treeFiles(root: string, commit: string, named: string): ReadonlyMap<string, Blob> {
  const listed = requireSuccess(git(root, ['ls-tree', '-r', '-l', '-z', '--full-tree', commit]));
  const files = new Map<string, Blob>();
  for (const entry of listed.split('\0')) {
    const [, mode, id, bytes, path] = /^(\d+) blob ([0-9a-f]+) +(\d+)\t([\s\S]+)$/.exec(entry) ?? [];
    if (!path || !id || !mode?.startsWith('100')) continue;
    if (path.endsWith('.winding') || path === named) files.set(path, { id, bytes: Number(bytes) });
  }
  return files;
}

/** Paths of the files in the working folder, those not yet added to git among them. */
function workingFiles(root: string, named: string): ReadonlySet<string> {
  const listed = requireSuccess(
    git(root, ['ls-files', '-z', '--cached', '--others', '--exclude-standard', '--full-name']),
  );
  const names = listed.split('\0').filter((path) => path.endsWith('.winding') || path === named);
  const present = [...names, named].filter((path) => {
    const file = join(root, path);
    return path !== '' && isFileOrUnread(file);
  });
  return new Set(present);
}

/** Whether a file is there; one that cannot be looked at is not taken for deleted, reading it says why. */
function isFileOrUnread(file: string): boolean {
  try {
    // What a link leads to is a file of its own, or none of the repository's.
    return lstatSync(file).isFile();
  } catch (problem) {
    return !['ENOENT', 'ENOTDIR'].includes(codeOf(problem) ?? '');
  }
}

/** What a file holds, where it can be read. */
interface Held {
  readonly file: string;
  /** Git's id of it; null where it could not be read. */
  readonly id: string | null;
  readonly bytes: number;
  readonly text: string | null;
  readonly trouble: FileTrouble | null;
}

function heldBy(
  file: string,
  read: () => { readonly id: string; readonly bytes: Uint8Array },
  name: string,
): Held {
  let [id, bytes]: [string | null, number] = [null, 0];
  try {
    const found = read();
    [id, bytes] = [found.id, found.bytes.length];
    return { file, id, bytes, text: decodedText(found.bytes, name), trouble: null };
  } catch (problem) {
    if (!(problem instanceof FileTrouble)) throw problem;
    return { file, id, bytes, text: null, trouble: problem };
  }
}

/** Pairs the files of both sides; of those on both sides only the wanted ones. */
function pairUp(
  root: string,
  reference: string,
  then: ReadonlyMap<string, Blob>,
  now: ReadonlySet<string>,
  wanted: (file: string) => boolean,
): Pick<FilesSince, 'files' | 'notes'> {
  const algorithm = [...then.values()][0]?.id.length === 64 ? 'sha256' : 'sha1';
  const newOf = (path: string) =>
    heldBy(
      path,
      () => {
        const bytes = readBytes(join(root, path));
        return { id: blobId(bytes, algorithm), bytes };
      },
      path,
    );
  const kept = [...now].filter((path) => then.has(path) && wanted(path)).map(newOf);
  const fresh = [...now].filter((path) => !then.has(path)).map(newOf);
  // What is the same on both sides need not be read twice.
  const isSame = ({ file, id, text }: Held) => text !== null && id === then.get(file)!.id;
  const changed = kept.filter((held) => !isSame(held)).map(({ file }) => file);
  const away = [...then.keys()].filter((path) => !now.has(path));
  const blobs = readBlobs(
    root,
    [...changed, ...away].map((path) => then.get(path)!),
  );
  const oldOf = (path: string) => {
    const { id } = then.get(path)!;
    const name = `${reference}:${path}`;
    const read = () => {
      const bytes = blobs.get(id);
      if (!bytes) throw new FileTrouble(name, tooLarge);
      return { id, bytes };
    };
    return heldBy(path, read, name);
  };
  const both = kept.map((held) => pair(isSame(held) ? held : oldOf(held.file), held));
  const gone = away.map(oldOf);
  const { renamed, notes } = findRenames(gone, fresh);
  const arrived = new Set(renamed.values());
  const all = [
    ...both,
    ...[...renamed].map(([old, held]): FilePair => ({ ...pair(old, held), oldFile: old.file })),
    ...gone.filter((old) => !renamed.has(old)).map((old) => pair(old, null)),
    ...fresh.filter((held) => !arrived.has(held)).map((held) => pair(null, held)),
  ];
  return { files: all.sort((a, b) => (a.file < b.file ? -1 : 1)), notes };
}

function pair(old: Held | null, now: Held | null): FilePair {
  const sideOf = (held: Held | null) => held && (held.text ?? held.trouble);
  const sameBytes = !!old && !!now && old.id !== null && old.id === now.id;
  return { file: (now ?? old)!.file, old: sideOf(old), now: sideOf(now), sameBytes };
}

/** The id that git gives to contents. */
function blobId(bytes: Uint8Array, algorithm: 'sha1' | 'sha256'): string {
  return createHash(algorithm).update(`blob ${bytes.length}\0`).update(bytes).digest('hex');
}

/** So many bytes are asked of git at once. */
const batchBytes = 16 * 1024 * 1024;

/** The contents of blobs by id, of all that are not too large to be read. */
function readBlobs(root: string, blobs: readonly Blob[]): ReadonlyMap<string, Buffer> {
  const wanted = new Map(blobs.filter(({ bytes }) => bytes <= mostBytes).map((blob) => [blob.id, blob]));
  const read = new Map<string, Buffer>();
  let batch: string[] = [];
  let room = batchBytes;
  for (const { id, bytes } of wanted.values()) {
    if (bytes > room) {
      readBatch(root, batch, read);
      [batch, room] = [[], batchBytes];
    }
    batch.push(id);
    room -= bytes;
  }
  readBatch(root, batch, read);
  return read;
}

function readBatch(root: string, ids: readonly string[], into: Map<string, Buffer>): void {
  if (ids.length === 0) return;
  const { stdout, status, stderr } = git(root, ['cat-file', '--batch'], `${ids.join('\n')}\n`);
  if (status !== 0) throw new UsageError(`git says: ${gitWords(stderr)}`);
  let at = 0;
  for (const id of ids) {
    const end = stdout.indexOf(10, at);
    const size = Number(/ blob (\d+)$/.exec(stdout.subarray(at, end).toString())?.[1]);
    if (end < 0 || !Number.isInteger(size)) throw new UsageError(`git could not read object ${id}.`);
    into.set(id, stdout.subarray(end + 1, end + 1 + size));
    at = end + 1 + size + 1;
  }
}

interface GitResult {
  readonly status: number | null;
  readonly stdout: Buffer;
  readonly stderr: Buffer;
}

/** Runs git without a shell; paths are taken literally, and no program of the repository's own is started. */
function git(folder: string, args: readonly string[], input?: string): GitResult {
  const { status, stdout, stderr, error } = spawnSync('git', ['-c', 'core.fsmonitor=false', ...args], {
    cwd: folder,
    input: input ?? '',
    maxBuffer: 1024 * 1024 * 1024,
    env: { ...process.env, LC_ALL: 'C', GIT_LITERAL_PATHSPECS: '1', GIT_OPTIONAL_LOCKS: '0' },
  });
  if (codeOf(error) === 'ENOENT')
    throw new UsageError(
      'git is not installed or not on the PATH, and --base needs it; two files compare without it: slotwright compare OLD NEW.',
    );
  if (error) throw new UsageError(`git could not run: ${error.message}`);
  return { status, stdout, stderr };
}

/** What git complains of, in one line. */
function gitWords(stderr: Buffer): string {
  return stderr.toString().trim().replace(/\r?\n/g, '; ');
}

function requireSuccess({ status, stdout, stderr }: GitResult): string {
  if (status !== 0) throw new UsageError(`git says: ${gitWords(stderr)}`);
  return stdout.toString();
}
