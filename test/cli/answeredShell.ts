import { spawn } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Readable, Writable } from 'node:stream';
import { complete } from '../../cli/complete.ts';
import { run } from '../../cli/program.ts';

/** What a shell said and how it ended. */
export interface ShellEnded {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/**
 * A shell whose `node` asks this process, which answers as the program would: by the program's function, in the
 * caller's folder. For scripts that call the program often, each start of which would cost more than all it does.
 */
export interface AnsweredShell {
  /** Runs a script; `file` is the only program that its `node` knows. */
  run(script: string, file: string, environment: NodeJS.ProcessEnv, cwd: string): Promise<ShellEnded>;
  dispose(): void;
}

/** How bash is called by build servers. */
export const bashOptions = ['--noprofile', '--norc', '-eo', 'pipefail', '-c'] as const;

/** Asks through descriptor 3, with the number of arguments first, and hears the exit code from descriptor 4. */
const askingNode = `#!/bin/bash
printf '%s\\0' "$#" "$PWD" "$@" >&3
read -r code <&4
cat -- "$ANSWERS/complaints" >&2
cat -- "$ANSWERS/output"
exit "$code"
`;

export function answeredShell(): AnsweredShell {
  const place = mkdtempSync(join(tmpdir(), 'slotwright-answers-'));
  const node = join(place, 'bin/node');
  mkdirSync(join(place, 'bin'));
  writeFileSync(node, askingNode);
  chmodSync(node, 0o755);

  /** Answers one call; returns the exit code. */
  async function answer(file: string, [folder, called, ...args]: readonly string[]): Promise<number> {
    if (called !== file) throw new Error(`node ${called} is not the program`);
    const home = process.cwd();
    process.chdir(folder!);
    try {
      const { exitCode, output, complaints } = await complete(run(args, '0.0.0'));
      writeFileSync(join(place, 'complaints'), complaints);
      writeFileSync(join(place, 'output'), output);
      return exitCode;
    } finally {
      process.chdir(home);
    }
  }

  return {
    run: (script, file, environment, cwd) =>
      new Promise((resolve, reject) => {
        const env = { ...environment, PATH: `${join(place, 'bin')}:${process.env.PATH}`, ANSWERS: place };
        const stdio = ['ignore', 'pipe', 'pipe', 'pipe', 'pipe'] as const;
        const shell = spawn('bash', [...bashOptions, script], { cwd, env, stdio: [...stdio] });
        const [, stdout, stderr, questions] = shell.stdio.map((stream) =>
          stream === null ? { text: '' } : heard(stream as Readable),
        );
        const answers = shell.stdio[4] as Writable;
        questions!.whole = (text) => {
          const [count = '', ...fields] = text.split('\0');
          if (fields.length < Number(count) + 2) return;
          questions!.text = '';
          answer(file, fields.slice(0, -1)).then(
            (code) => answers.write(`${code}\n`),
            (problem) => {
              shell.kill();
              reject(problem);
            },
          );
        };
        shell.on('error', reject);
        shell.on('close', (status) => resolve({ status, stdout: stdout!.text, stderr: stderr!.text }));
      }),
    dispose: () => rmSync(place, { recursive: true, force: true }),
  };
}

interface Heard {
  text: string;
  /** Called with all that came so far, whenever more comes. */
  whole?: (text: string) => void;
}

/** What a stream says, as it comes. */
function heard(stream: Readable): Heard {
  const said: Heard = { text: '' };
  stream.setEncoding('utf8').on('data', (part: string) => {
    said.text += part;
    said.whole?.(said.text);
  });
  return said;
}
