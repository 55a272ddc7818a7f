import { spawnSync } from 'node:child_process';
import { existsSync, lstatSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { decodedText, FileTrouble, readBytes, UsageError } from './files.ts';
import { codeOf } from './reasons.ts';

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

/**
 * The winding files of a file's or folder's repository, as they were at a commit and as they are now in
 * the working folder; ignored files and symbolic links are left out, renamed files recognized by what
 * they hold. A folder may hold none with `allowEmpty`. Throws UsageError where git is not there, there is
 * no repository or no such commit, or nothing of that name.
 */
export function filesSince(
  reference: string,
  path: string,
  allowEmpty = false,
): { readonly files: readonly FilePair[]; readonly folder: boolean } {
  if (reference === '' || reference.startsWith('-'))
    throw new UsageError(`'${reference}' names no commit, branch or tag.`);
  const root = rootOf(path);
  const below = pathBelow(root, path)!;
  const commit = commitOf(root, reference);
  const then = treeFiles(root, commit, below);
  const now = workingFiles(root, below);
  const folder = isFolder(path) || (!then.has(below) && !now.has(below));
  const wanted = (file: string) => below === '' || file === below || file.startsWith(`${below}/`);
  const pairs = pairUp(root, reference, then, now).filter(
    ({ file, oldFile }) => wanted(file) || (oldFile !== undefined && wanted(oldFile)),
  );
  if (pairs.length === 0 && !(allowEmpty && isFolder(path)))
    throw new UsageError(`${path}: no winding files, neither at ${reference} nor in the working folder.`);
  return { files: pairs, folder };
}

function isFolder(path: string): boolean {
  return existsSync(path) && statSync(path).isDirectory();
}

function rootOf(path: string): string {
  let folder = realPath(path);
  while (!isFolder(folder)) folder = dirname(folder);
  const found = git(folder, ['rev-parse', '--show-toplevel']);
  if (found.status !== 0) {
    const words = gitWords(found.stderr);
    if (/not a git repository/i.test(words)) throw new UsageError(`${path}: lies in no git repository.`);
    throw new UsageError(`${path}: git says: ${words}`);
  }
  return realPath(found.stdout.toString().replace(/\r?\n$/, ''));
}

function commitOf(root: string, reference: string): string {
  const found = git(root, ['rev-parse', '--verify', '--quiet', `${reference}^{commit}`]);
  const commit = found.stdout.toString().trim();
  if (found.status !== 0 || !/^[0-9a-f]{40,64}$/.test(commit))
    throw new UsageError(
      `'${reference}' is no commit, branch or tag of the repository; a shallow clone may have to fetch it first.`,
    );
  return commit;
}

/** Ids of the blobs of a commit by path: winding files, and the file named whatever its ending. */
function treeFiles(root: string, commit: string, named: string): ReadonlyMap<string, string> {
  const listed = requireSuccess(git(root, ['ls-tree', '-r', '-z', '--full-tree', commit]));
  const files = new Map<string, string>();
  for (const entry of listed.split('\0')) {
    const [, mode, id, path] = /^(\d+) blob ([0-9a-f]+)\t([\s\S]+)$/.exec(entry) ?? [];
    if (!path || !id || !mode?.startsWith('100')) continue;
    if (path.endsWith('.winding') || path === named) files.set(path, id);
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

/** What a file holds, as bytes and as text where it can be read. */
interface Held {
  readonly file: string;
  readonly bytes: Uint8Array | null;
  readonly text: string | FileTrouble;
}

function heldBy(file: string, read: () => Uint8Array, name: string): Held {
  let bytes: Uint8Array | null = null;
  try {
    bytes = read();
    return { file, bytes, text: decodedText(bytes, name) };
  } catch (problem) {
    if (!(problem instanceof FileTrouble)) throw problem;
    return { file, bytes, text: problem };
  }
}

function pairUp(
  root: string,
  reference: string,
  then: ReadonlyMap<string, string>,
  now: ReadonlySet<string>,
): readonly FilePair[] {
  const olds = readBlobs(root, [...then.values()]);
  const oldOf = (path: string) => heldBy(path, () => olds.get(then.get(path)!)!, `${reference}:${path}`);
  const newOf = (path: string) => heldBy(path, () => readBytes(join(root, path)), path);
  const both = [...now].filter((path) => then.has(path)).map((path) => pair(oldOf(path), newOf(path)));
  const gone = [...then.keys()].filter((path) => !now.has(path)).map(oldOf);
  const fresh = [...now].filter((path) => !then.has(path)).map(newOf);
  const candidates = gone
    .flatMap((old) => fresh.map((other) => ({ old, other, likeness: likeness(old.text, other.text) })))
    .filter((candidate) => candidate.likeness >= leastLikeness)
    .sort((a, b) => b.likeness - a.likeness);
  const moved: FilePair[] = [];
  for (const { old, other } of candidates) {
    if (!gone.includes(old) || !fresh.includes(other)) continue;
    gone.splice(gone.indexOf(old), 1);
    fresh.splice(fresh.indexOf(other), 1);
    moved.push({ ...pair(old, other), oldFile: old.file });
  }
  const all = [
    ...both,
    ...moved,
    ...gone.map(({ file, text }): FilePair => ({ file, old: text, now: null, sameBytes: false })),
    ...fresh.map(({ file, text }): FilePair => ({ file, old: null, now: text, sameBytes: false })),
  ];
  return all.sort((a, b) => (a.file < b.file ? -1 : 1));
}

function pair(old: Held, now: Held): FilePair {
  const sameBytes = old.bytes !== null && now.bytes !== null && Buffer.compare(old.bytes, now.bytes) === 0;
  return { file: now.file, old: old.text, now: now.text, sameBytes };
}

/** Share of lines in common from which on a file is the other one under a new name. */
const leastLikeness = 0.6;

function likeness(one: string | FileTrouble, other: string | FileTrouble): number {
  if (typeof one !== 'string' || typeof other !== 'string') return 0;
  if (one === other) return 1.5;
  const lines = (text: string) =>
    text
      .split(/\r\n|\r|\n/)
      .map((line) => line.trim().replace(/\s+/g, ' '))
      .filter((line) => line.length > 1);
  const counts = new Map<string, number>();
  const [before, after] = [lines(one), lines(other)];
  for (const line of before) counts.set(line, (counts.get(line) ?? 0) + 1);
  let common = 0;
  for (const line of after) {
    const left = counts.get(line) ?? 0;
    if (left > 0) common++;
    counts.set(line, left - 1);
  }
  return before.length + after.length === 0 ? 0 : (2 * common) / (before.length + after.length);
}

/** The contents of blobs by id, read in one run of git. */
function readBlobs(root: string, ids: readonly string[]): ReadonlyMap<string, Buffer> {
  const wanted = [...new Set(ids)];
  const blobs = new Map<string, Buffer>();
  if (wanted.length === 0) return blobs;
  const { stdout, status, stderr } = git(root, ['cat-file', '--batch'], `${wanted.join('\n')}\n`);
  if (status !== 0) throw new UsageError(`git says: ${gitWords(stderr)}`);
  let at = 0;
  for (const id of wanted) {
    const end = stdout.indexOf(10, at);
    const size = Number(/ blob (\d+)$/.exec(stdout.subarray(at, end).toString())?.[1]);
    if (end < 0 || !Number.isInteger(size)) throw new UsageError(`git could not read object ${id}.`);
    blobs.set(id, stdout.subarray(end + 1, end + 1 + size));
    at = end + 1 + size + 1;
  }
  return blobs;
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
  if ((error as NodeJS.ErrnoException | undefined)?.code === 'ENOENT')
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
