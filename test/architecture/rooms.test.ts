import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';

const root = join(import.meta.dirname, '../..');

/** A folder with more in it hides what it holds: its files and their lines, without those of folders in it. */
const mostFiles = 25;
const mostLines = 2500;

/** A folder's own files with their lines. */
type Room = ReadonlyMap<string, number>;

/** Every folder at and below a path, by its path from the project's folder. */
function roomsOf(path: string): ReadonlyMap<string, Room> {
  const names = readdirSync(join(root, path)).map((name) => `${path}/${name}`);
  const isFolder = (name: string) => statSync(join(root, name)).isDirectory();
  const own = names.filter((name) => !isFolder(name));
  const lines = (name: string) => readFileSync(join(root, name), 'utf8').split('\n').length - 1;
  return new Map([
    [path, new Map(own.map((name) => [name, lines(name)]))],
    ...names.filter(isFolder).flatMap((name) => [...roomsOf(name)]),
  ]);
}

/** What is too large for a room, one sentence each. */
function crowded(rooms: ReadonlyMap<string, Room>): readonly string[] {
  return [...rooms].flatMap(([path, files]) => {
    const lines = [...files.values()].reduce((sum, count) => sum + count, 0);
    return [
      ...(files.size > mostFiles ? [`${path} has ${files.size} files, more than ${mostFiles}`] : []),
      ...(lines > mostLines ? [`${path} has ${lines} lines, more than ${mostLines}`] : []),
    ];
  });
}

describe('no folder holds more than a reader can look over', () => {
  test.each(['core', 'extension', 'cli'])('%s', (folder) => {
    const rooms = roomsOf(folder);
    expect(rooms.get(folder)!.size).toBeGreaterThan(0);
    expect(crowded(rooms)).toEqual([]);
  });

  test('a folder with one file or one line too many is told', () => {
    const room = (files: number, lines: number) =>
      new Map(Array.from({ length: files }, (_, index) => [`${index}.ts`, index === 0 ? lines : 0]));
    expect(crowded(new Map([['core/full', room(25, 2500)]]))).toEqual([]);
    expect(crowded(new Map([['core/full', room(26, 2501)]]))).toEqual([
      'core/full has 26 files, more than 25',
      'core/full has 2501 lines, more than 2500',
    ]);
  });
});
