// Starting other programs, the same way on every system.
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The folder of the repository. */
export const root = fileURLToPath(new URL('..', import.meta.url));

/** An error whose message says all that a reader needs: shown without a stack trace. */
export class HouseError extends Error {}

/** `npm` and `node` by the very files that run now; anything else by its name. */
function program(command, args) {
  if (command === 'node') return [process.execPath, args, false];
  if (command !== 'npm') return [command, args, false];
  const npm = process.env.npm_execpath;
  if (npm !== undefined && /\.c?js$/.test(npm)) return [process.execPath, [npm, ...args], false];
  return ['npm', args, process.platform === 'win32'];
}

/** Runs a program in the repository's folder, its output shown as it comes; resolves to its exit code. */
export function exitCode(command, args, environment = {}) {
  const [file, list, shell] = program(command, args);
  return new Promise((resolve, reject) => {
    const child = spawn(file, list, {
      cwd: root,
      stdio: 'inherit',
      shell,
      env: { ...process.env, ...environment },
    });
    child.on('error', reject);
    child.on('close', (code) => resolve(code ?? 1));
  });
}

/** Like `exitCode`, but any other exit code than 0 is an error. */
export async function run(command, args, environment = {}) {
  const code = await exitCode(command, args, environment);
  if (code !== 0) throw new HouseError(`${command} ${args.join(' ')} failed (exit code ${code})`);
}

/** Runs a program and resolves to its exit code and everything it wrote. */
export function capture(command, args, environment = {}) {
  const [file, list, shell] = program(command, args);
  return new Promise((resolve, reject) => {
    const child = spawn(file, list, { cwd: root, shell, env: { ...process.env, ...environment } });
    let output = '';
    let complaints = '';
    child.stdout.on('data', (part) => {
      output += part;
    });
    child.stderr.on('data', (part) => {
      complaints += part;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code: code ?? 1, output, complaints }));
  });
}
