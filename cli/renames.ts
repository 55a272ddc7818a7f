import { plural } from '../core/language/lists.ts';

/** A file that is on one side of a comparison only. */
export interface LoneFile {
  readonly file: string;
  /** Git's id of what it holds; null where that could not be read. */
  readonly id: string | null;
  readonly bytes: number;
  /** Its text; null where that could not be read. */
  readonly text: string | null;
}

/** Files that were renamed, from the old to the new one. */
export interface Renames<File extends LoneFile> {
  readonly renamed: ReadonlyMap<File, File>;
  /** What was not looked at, as sentences. */
  readonly notes: readonly string[];
  /** How much was done, for tests that nothing is done twice. */
  readonly work: { readonly linesRead: number; readonly pairsCompared: number };
}

/** Share of lines in common from which on a file is the other one under a new name. */
const leastLikeness = 0.6;
/** Larger files are only recognized by the same bytes; the largest windings written out have 200 kB. */
export const mostRenameBytes = 256 * 1024;
/** So many pairs of files, and lines of these in all, are compared. */
export const mostRenamePairs = 100_000;
export const mostRenameLines = 200_000_000;

/**
 * Which of the files that are gone came back under a new name: the same bytes first, then those with most
 * lines in common. Every file's lines are read once. Where there are too many files to compare, only the same
 * bytes count, and the notes say so.
 */
export function findRenames<File extends LoneFile>(
  gone: readonly File[],
  fresh: readonly File[],
): Renames<File> {
  const renamed = new Map(sameBytes(gone, fresh));
  const taken = new Set(renamed.values());
  const [olds, news] = [gone.filter((file) => !renamed.has(file)), fresh.filter((file) => !taken.has(file))];
  const read = lineReader();
  const small = ({ bytes }: LoneFile) => bytes <= mostRenameBytes;
  const [before, after] = [olds, news].map((files) => files.filter(small).flatMap(read.lines));
  const pairs = likelyPairs(before!, after!);
  const work = { linesRead: read.count(), pairsCompared: pairs?.length ?? 0 };
  const large = [olds, news].map((files) => files.filter((file) => !small(file)).length) as [number, number];
  const notes: string[] = [];
  if (olds.length > 0 && news.length > 0 && large[0] + large[1] > 0)
    notes.push(
      `Of ${sides(large[0], large[1])}, larger than ${mostRenameBytes / 1024} kB, none is compared for renames${otherwise}`,
    );
  if (pairs === null)
    notes.push(
      `${sides(before!.length, after!.length)} are too many to be compared for renames (at most ${mostRenamePairs} pairs and ${mostRenameLines} lines in these)${otherwise}`,
    );
  const ranked = (pairs ?? [])
    .map(([old, now]) => ({ old: old.file, now: now.file, likeness: likeness(old, now) }))
    .filter((pair) => pair.likeness >= leastLikeness)
    .sort((a, b) => b.likeness - a.likeness);
  for (const { old, now } of ranked) {
    if (renamed.has(old) || taken.has(now)) continue;
    renamed.set(old, now);
    taken.add(now);
  }
  return { renamed, notes, work };
}

const otherwise = ': a renamed one counts as deleted and added, unless it holds the same bytes.';

function sides(old: number, now: number): string {
  return `${plural(old, 'deleted file')} and ${plural(now, 'added file')}`;
}

function sameBytes<File extends LoneFile>(
  gone: readonly File[],
  fresh: readonly File[],
): readonly (readonly [File, File])[] {
  const byId = new Map<string, File[]>();
  for (const file of [...fresh].reverse())
    if (file.id !== null) byId.set(file.id, [...(byId.get(file.id) ?? []), file]);
  return gone.flatMap((file) => {
    const same = file.id === null ? undefined : byId.get(file.id)?.pop();
    return same ? [[file, same] as const] : [];
  });
}

/** A file with the numbers of its lines, ascending. */
interface Lined<File> {
  readonly file: File;
  readonly lines: Uint32Array;
}

/** Reads lines, blanks aside, as numbers that are the same for the same line. */
function lineReader() {
  const numbers = new Map<string, number>();
  let read = 0;
  return {
    count: () => read,
    lines: <File extends LoneFile>(file: File): readonly Lined<File>[] => {
      if (file.text === null) return [];
      const lines = file.text
        .split(/\r\n|\r|\n/)
        .map((line) => line.trim().replace(/\s+/g, ' '))
        .filter((line) => line.length > 1)
        .map((line) => {
          const number = numbers.get(line) ?? numbers.size;
          numbers.set(line, number);
          return number;
        });
      read += lines.length;
      return [{ file, lines: Uint32Array.from(lines).sort() }];
    },
  };
}

/** Pairs whose numbers of lines allow them to be alike; null where that is more than is compared. */
function likelyPairs<File>(
  before: readonly Lined<File>[],
  after: readonly Lined<File>[],
): readonly (readonly [Lined<File>, Lined<File>])[] | null {
  const pairs: (readonly [Lined<File>, Lined<File>])[] = [];
  let lines = 0;
  for (const old of before)
    for (const now of after) {
      const [a, b] = [old.lines.length, now.lines.length];
      if ((2 * Math.min(a, b)) / (a + b) < leastLikeness || a + b === 0) continue;
      lines += a + b;
      if (pairs.length >= mostRenamePairs || lines > mostRenameLines) return null;
      pairs.push([old, now]);
    }
  return pairs;
}

/** Twice the lines in common over those of both. */
function likeness<File>({ lines: before }: Lined<File>, { lines: after }: Lined<File>): number {
  let [common, i, j] = [0, 0, 0];
  while (i < before.length && j < after.length) {
    const difference = before[i]! - after[j]!;
    if (difference === 0) common++;
    if (difference <= 0) i++;
    if (difference >= 0) j++;
  }
  return (2 * common) / (before.length + after.length);
}
