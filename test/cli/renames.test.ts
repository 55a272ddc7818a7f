import { describe, expect, it } from 'vitest';
import {
  findRenames,
  type LoneFile,
  mostRenameBytes,
  mostRenameLines,
  mostRenamePairs,
} from '../../cli/renames.ts';

/** A file of some lines; its id stands for its bytes. */
function file(name: string, lines: readonly string[], bytes?: number): LoneFile {
  const text = lines.join('\n');
  return { file: name, id: text, bytes: bytes ?? text.length, text };
}

const numbered = (from: number, count: number) => Array.from({ length: count }, (_, i) => `line ${from + i}`);
const names = (gone: readonly LoneFile[], fresh: readonly LoneFile[]) =>
  [...findRenames(gone, fresh).renamed].map(([old, now]) => `${old.file} -> ${now.file}`);

describe('renamed files', () => {
  it('are those with the same bytes, whatever their size, then those most alike', () => {
    const gone = [file('a', numbered(0, 10)), file('b', numbered(100, 10)), file('c', ['x'], 9e9)];
    const fresh = [
      file('d', ['x'], 9e9),
      file('e', [...numbered(0, 8), 'other', 'another']),
      file('f', [...numbered(0, 9), 'other']),
      file('g', numbered(105, 10)),
    ];
    expect(names(gone, fresh)).toEqual(['c -> d', 'a -> f']);
    // 0.6 of the lines in common is enough, 0.5 is not; blanks do not count.
    expect(
      names(gone, [
        file(
          'h',
          numbered(4, 10).map((line) => `  ${line.replace(' ', '\t ')} `),
        ),
      ]),
    ).toEqual(['a -> h']);
    expect(names([file('a', [])], [file('b', []), file('c', ['long enough'])])).toEqual(['a -> b']);
  });

  it('are paired once each, in their order where they are equally alike', () => {
    const same = ['one line', 'two lines'];
    expect(
      names([file('a', same), file('b', same)], [file('c', same), file('d', same), file('e', same)]),
    ).toEqual(['a -> c', 'b -> d']);
  });

  it('are not looked for where nothing can be read', () => {
    const unread = (name: string): LoneFile => ({ file: name, id: null, bytes: 0, text: null });
    expect(findRenames([unread('a')], [unread('b')])).toEqual({
      renamed: new Map(),
      notes: [],
      work: { linesRead: 0, pairsCompared: 0 },
    });
  });

  it('cost one reading of every line, and one comparison of every likely pair', () => {
    const gone = Array.from({ length: 40 }, (_, i) => file(`old ${i}`, numbered(1000 * i, 100)));
    const fresh = Array.from({ length: 40 }, (_, i) => file(`new ${i}`, numbered(1000 * i + 5, 100)));
    const { renamed, notes, work } = findRenames(gone, fresh);
    expect([renamed.size, notes]).toEqual([40, []]);
    expect(work).toEqual({ linesRead: 80 * 100, pairsCompared: 1600 });
    // Files of quite other lengths cannot be alike, and those of the same bytes need no comparison.
    const short = Array.from({ length: 40 }, (_, i) => file(`new ${i}`, numbered(1000 * i, 30)));
    expect(findRenames(gone, short).work).toEqual({ linesRead: 40 * 130, pairsCompared: 0 });
    expect(findRenames(gone, gone).work).toEqual({ linesRead: 0, pairsCompared: 0 });
  });

  it('are not looked for in large files, and that is said', () => {
    const large = (name: string, i: number) => file(name, numbered(i, 10), mostRenameBytes + 1);
    const gone = Array.from({ length: 40 }, (_, i) => large(`old ${i}`, 100 * i));
    const fresh = [
      ...Array.from({ length: 39 }, (_, i) => large(`new ${i}`, 100 * i + 1)),
      file('s', ['small']),
    ];
    const { renamed, notes, work } = findRenames(gone, fresh);
    expect([renamed.size, work]).toEqual([0, { linesRead: 1, pairsCompared: 0 }]);
    expect(notes).toEqual([
      'Of 40 deleted files and 39 added files, larger than 256 kB, none is compared for renames: a renamed one counts as deleted and added, unless it holds the same bytes.',
    ]);
    // Without a file on the other side there is nothing to look for.
    expect(findRenames(gone, []).notes).toEqual([]);
    expect(
      findRenames([file('a', numbered(0, 9), mostRenameBytes)], [file('b', numbered(1, 9))]).renamed.size,
    ).toBe(1);
  });

  it('are not looked for among too many, and that is said', () => {
    const side = Math.ceil(Math.sqrt(mostRenamePairs)) + 1;
    const many = (name: string, lines: (i: number) => readonly string[]) =>
      Array.from({ length: side }, (_, i) => file(`${name} ${i}`, lines(i)));
    const few = findRenames(
      many('old', (i) => ['a line', `old ${i}`]),
      many('new', (i) => ['a line', `new ${i}`]).slice(0, 10),
    );
    expect([few.notes, few.work.pairsCompared]).toEqual([[], 10 * side]);
    const { renamed, notes, work } = findRenames(
      many('old', (i) => ['a line', `old ${i}`]),
      [...many('new', (i) => ['a line', `new ${i}`]), file('kept', ['a line', 'old 7'])],
    );
    expect(work).toEqual({ linesRead: 4 * side - 2, pairsCompared: 0 });
    expect([...renamed].map(([old, now]) => [old.file, now.file])).toEqual([['old 7', 'kept']]);
    expect(notes).toEqual([
      `${side - 1} deleted files and ${side} added files are too many to be compared for renames (at most 100000 pairs and 200000000 lines in these): a renamed one counts as deleted and added, unless it holds the same bytes.`,
    ]);
  });

  it('are not looked for among too many lines', () => {
    const long = (name: string) => file(name, numbered(name.length, 1100), mostRenameBytes);
    const side = Math.ceil(Math.sqrt(mostRenameLines / 2200)) + 1;
    expect(side * side).toBeLessThan(mostRenamePairs);
    const gone = Array.from({ length: side }, (_, i) => ({ ...long('old'), file: `old ${i}` }));
    const fresh = Array.from({ length: side }, (_, i) => ({ ...long('anew'), file: `new ${i}` }));
    const { renamed, work } = findRenames(gone, fresh);
    expect([renamed.size, work]).toEqual([0, { linesRead: 2200 * side, pairsCompared: 0 }]);
  });
});
