import { type Dirent, readdirSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { reasonOf } from '../reasons.ts';
import { identityOf } from './destination.ts';
import { FileTrouble } from './files.ts';

/** What a search for winding files came upon. */
export interface Search {
  readonly files: readonly string[];
  /** Folders that could not be looked through. */
  readonly unread: readonly UnreadPlace[];
}

/** A file or folder that could not be read, and the sentence that says so. */
export interface UnreadPlace {
  readonly file: string;
  readonly problem: string;
}

/**
 * The winding files named, folders searched for `*.winding` (hidden ones and node_modules left out), sorted; each once,
 * under the name by which it comes first.
 */
export function windingFiles(names: readonly string[]): Search {
  const unread: UnreadPlace[] = [];
  const files = names.flatMap((name) => {
    if (name === '-') return [name];
    try {
      return statSync(name).isDirectory() ? filesBelow(name, unread) : [name];
    } catch {
      // Reading it says what is wrong, in its place among the others.
      return [name];
    }
  });
  return { files: eachOnce(files, (file) => file), unread: eachOnce(unread, ({ file }) => file) };
}

/** Items without those of files and folders that came before, by this or another name. */
function eachOnce<Item>(items: readonly Item[], nameOfItem: (item: Item) => string): readonly Item[] {
  const seen = new Set<string>();
  return items.filter((item) => {
    const name = nameOfItem(item);
    const identity = name === '-' ? name : (identityOf(name) ?? resolve(name));
    if (seen.has(identity)) return false;
    seen.add(identity);
    return true;
  });
}

function filesBelow(folder: string, unread: UnreadPlace[]): readonly string[] {
  return entriesOf(folder, unread).flatMap((entry) => {
    if (entry.name.startsWith('.') || entry.name === 'node_modules') return [];
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return filesBelow(path, unread);
    return entry.isFile() && entry.name.endsWith('.winding') ? [path] : [];
  });
}

/** What lies in a folder; where that cannot be told, the folder is noted and the search goes on. */
function entriesOf(folder: string, unread: UnreadPlace[]): readonly Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1));
  } catch (problem) {
    const trouble = new FileTrouble(folder, `the folder cannot be searched: ${reasonOf(problem)}`);
    unread.push({ file: folder, problem: trouble.message });
    return [];
  }
}
