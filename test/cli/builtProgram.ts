import { spawnSync } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as esbuild from 'esbuild';
import { projectFolder } from '../support/files.ts';

/** What a program said and how it ended. */
export interface Ended {
  readonly status: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** The program as Node runs it, bundled in the way the build does, with a folder to work in. */
export interface BuiltProgram {
  readonly file: string;
  readonly folder: string;
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

export async function buildProgram(): Promise<BuiltProgram> {
  const place = mkdtempSync(join(tmpdir(), 'slotwright-built-'));
  const folder = mkdtempSync(join(place, 'work-'));
  const file = join(place, 'slotwright.cjs');
  writeFileSync(file, await programText());
  for (const path of [place, folder]) chmodSync(path, 0o755);
  const ended = (command: string, args: readonly string[], input: string, user: User = {}): Ended => {
    const options = { input, encoding: 'utf8', cwd: folder, maxBuffer: 64 * 1024 * 1024, ...user } as const;
    const { status, signal, stdout, stderr } = spawnSync(command, args, options);
    return { status, signal, stdout, stderr };
  };
  return {
    file,
    folder,
    call: (args, input = '', flags = [], user = {}) =>
      ended(process.execPath, [...flags, file, ...args], input, user),
    bash: (line) =>
      ended('bash', ['-c', `slotwright() { '${process.execPath}' '${file}' "$@"; }; ${line}`], ''),
    dispose: () => rmSync(place, { recursive: true, force: true }),
  };
}
