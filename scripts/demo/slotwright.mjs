// Calls the built command line as a user would, and keeps a list of the files that it made.
import { existsSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join, relative } from 'node:path';
import { capture, HouseError, root } from '../shell.mjs';

const program = 'dist/cli/slotwright.js';

/** What slotwright writes; exit code 1 only says that it found errors in the winding. */
export async function slotwright(...args) {
  const { code, output, complaints } = await capture('node', [program, ...args]);
  if (code > 1)
    throw new HouseError(`slotwright ${args.join(' ')} failed (exit code ${code}):\n${complaints}`);
  return output;
}

/**
 * A folder that remembers what was put into it: `files` are name, what it is, and the command that made it (null
 * for what the demonstration itself wrote).
 */
export function createOutbox(folder) {
  const files = [];
  const path = (name) => relative(root, join(folder, name)).replaceAll('\\', '/');
  const note = (name, what, args) =>
    files.push({ name, what, command: args && `npx slotwright ${args.join(' ')}` });
  return {
    files,
    path,
    /** Writes a text of the demonstration's own. */
    put: (name, what, text) => {
      writeFileSync(join(folder, name), text);
      note(name, what, null);
    },
    /** Writes what a command prints, and resolves to it. */
    print: async (name, what, args) => {
      const text = await slotwright(...args);
      writeFileSync(join(folder, name), text);
      note(name, what, [...args, '>', path(name)]);
      return text;
    },
    /** Lets a command write the file; resolves to whether it did: a text that yields no winding has no drawing. */
    write: async (name, what, args) => {
      const whole = [...args, '--output', path(name)];
      rmSync(join(folder, name), { force: true });
      await slotwright(...whole);
      const written = existsSync(join(folder, name));
      if (written) note(name, what, whole);
      return written;
    },
  };
}

/** Does all works, a few at a time, and resolves to their results in order. */
export async function inParallel(works) {
  const results = [];
  let next = 0;
  const worker = async () => {
    for (let mine = next++; mine < works.length; mine = next++) results[mine] = await works[mine]();
  };
  await Promise.all(Array.from({ length: availableParallelism() }, worker));
  return results;
}
