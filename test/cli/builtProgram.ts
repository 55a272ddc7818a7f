import { spawnSync } from 'node:child_process';
import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as esbuild from 'esbuild';
import { projectFolder } from '../support/files.ts';
import { cleanWinding } from '../support/windingText.ts';

/** What a program said and how it ended. */
export interface Ended {
  readonly status: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** The program as Node runs it, bundled in the way the build does, with a folder to work in. */
export interface BuiltProgram {
  readonly folder: string;
  /** Its name in a shell: words that start it. */
  readonly name: string;
  /** Runs it with flags for Node, as another user where one is given. */
  call(args: readonly string[], input?: string, flags?: readonly string[], user?: User): Ended;
  /** A line of bash run in the folder; `slotwright` is the program. */
  bash(line: string): Ended;
  dispose(): void;
}

/** Numbers of a user and a group. */
export interface User {
  readonly uid?: number;
  readonly gid?: number;
}

let built: Promise<string> | undefined;

/** The program's text, bundled in the way the build does, once for all files of tests. */
export function programText(): Promise<string> {
  built ??= esbuild
    .build({
      absWorkingDir: projectFolder,
      bundle: true,
      minify: true,
      format: 'cjs',
      platform: 'node',
      target: 'node20',
      entryPoints: ['cli/main.ts'],
      write: false,
      logLevel: 'error',
    })
    .then(({ outputFiles }) => outputFiles[0]!.text);
  return built;
}

/**
 * Has Node take the program's functions as compiled before, from the file beside this one, or leave them there: to
 * compile them is nearly half of a start. Nothing else of the program differs.
 */
const compiledBefore = `
const { existsSync, readFileSync, writeFileSync } = require('node:fs');
const Module = require('node:module');
const { Script } = require('node:vm');
const kept = __dirname + '/compiled';
const compile = Module.prototype._compile;
Module.prototype._compile = function (text, file) {
  if (file !== __dirname + '/slotwright.cjs') return compile.call(this, text, file);
  const cachedData = existsSync(kept) ? readFileSync(kept) : undefined;
  const script = new Script(Module.wrap(text), { filename: file, cachedData });
  if (!cachedData) process.on('exit', () => writeFileSync(kept, script.createCachedData()));
  const given = [this.exports, Module.createRequire(file), this, file, __dirname];
  return script.runInThisContext().apply(this.exports, given);
};
`;

/** What the program's first start left, for all files of tests. */
let compiled: Buffer | undefined;

export async function buildProgram(): Promise<BuiltProgram> {
  const place = mkdtempSync(join(tmpdir(), 'slotwright-built-'));
  const folder = mkdtempSync(join(place, 'work-'));
  const file = join(place, 'slotwright.cjs');
  const preload = join(place, 'compiledBefore.cjs');
  writeFileSync(file, await programText());
  writeFileSync(preload, compiledBefore);
  const node = ['--require', preload];
  if (compiled === undefined) {
    spawnSync(process.execPath, [...node, file, 'report', '-'], { input: cleanWinding });
    compiled = readFileSync(join(place, 'compiled'));
  } else writeFileSync(join(place, 'compiled'), compiled);
  for (const path of [place, folder]) chmodSync(path, 0o755);
  const name = [process.execPath, ...node, file].map((part) => `'${part}'`).join(' ');
  const ended = (command: string, args: readonly string[], input: string, user: User = {}): Ended => {
    const options = { input, encoding: 'utf8', cwd: folder, maxBuffer: 64 * 1024 * 1024, ...user } as const;
    const { status, signal, stdout, stderr } = spawnSync(command, args, options);
    return { status, signal, stdout, stderr };
  };
  return {
    folder,
    name,
    call: (args, input = '', flags = [], user = {}) =>
      ended(process.execPath, [...node, ...flags, file, ...args], input, user),
    bash: (line) => ended('bash', ['-c', `slotwright() { ${name} "$@"; }; ${line}`], ''),
    dispose: () => rmSync(place, { recursive: true, force: true }),
  };
}
