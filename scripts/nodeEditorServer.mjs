// Serves a real VS Code whose extensions run in Node, with the packaged extension and one folder open.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { dataFolder } from './editorServer.mjs';
import { anyPort, serving } from './localServer.mjs';
import { capture, HouseError } from './shell.mjs';

/** The npm package that carries VS Code's server, built from its open source; its lock pins all that it needs. */
const carrier = { name: 'code-server', version: '4.100.3' };

/**
 * What the editor finds files with, as a program that npm brings; the one that the editor names is fetched by a script,
 * and without it the editor leaves out walkthroughs that are meant for certain files.
 */
const ripgrep = '@vscode/ripgrep@1.18.0';

const place = join(dataFolder, `node-editor-${carrier.version}-ripgrep`);
const editor = join(place, 'node_modules', carrier.name, 'lib/vscode');
const program = join(editor, 'out/server-main.js');

/** Why the editor cannot be started yet; null where it can. */
export function whyNoNodeEditor() {
  return existsSync(program)
    ? null
    : 'An editor whose extensions run in Node is not installed: "npm run node-host" fetches it.';
}

/**
 * Fetches it with npm, once; a fetch that broke off is not taken for whole. No script of a package is run: what needs
 * compiled parts, such as terminals, does without.
 */
export async function fetchNodeEditor() {
  if (whyNoNodeEditor() === null) return;
  const { name, version } = carrier;
  console.log(`Fetching ${name} ${version} from the package registry, 110 MB, once ...`);
  await mkdir(dataFolder, { recursive: true });
  const unfinished = await mkdtemp(`${place}-unfinished-`);
  try {
    await writeFile(join(unfinished, 'package.json'), '{ "private": true }');
    const inside = join(unfinished, 'node_modules', name, 'lib/vscode');
    await install(unfinished, `${name}@${version}`);
    await install(inside, '--omit=dev');
    await install(inside, ripgrep);
    await install(join(inside, 'extensions'), '--omit=dev');
    await rm(place, { recursive: true, force: true });
    await rename(unfinished, place);
  } finally {
    await rm(unfinished, { recursive: true, force: true });
  }
}

async function install(folder, what) {
  const quiet = ['--ignore-scripts', '--no-audit', '--no-fund'];
  const { code, complaints } = await capture('npm', ['install', '--prefix', folder, what, ...quiet]);
  if (code !== 0)
    throw new HouseError(`The editor could not be fetched, which needs the package registry:\n${complaints}`);
}

/** As on a desktop: nothing is saved unasked; and no pages before the files. */
const settings = { 'files.autoSave': 'off', 'workbench.startupEditor': 'none' };

const quietly = ['--accept-server-license-terms', '--telemetry-level', 'off', '--disable-workspace-trust'];

/**
 * Starts it on localhost with the package at `extension` installed and the given folder open; what is saved is
 * written to the folder. Resolves to the address and a function that stops the server.
 */
export async function startNodeEditor({ folder, extension }) {
  const problem = whyNoNodeEditor();
  if (problem !== null) throw new HouseError(problem);
  const data = await mkdtemp(join(dataFolder, 'node-session-'));
  await mkdir(join(data, 'data/User'), { recursive: true });
  await writeFile(join(data, 'data/User/settings.json'), JSON.stringify(settings));
  const own = [program, '--server-data-dir', data, ...quietly];
  const installed = await capture('node', [...own, '--install-extension', extension]);
  if (installed.code !== 0) throw new HouseError(`The package does not install:\n${installed.complaints}`);
  const port = await anyPort();
  const flags = ['--host', 'localhost', '--port', String(port), '--without-connection-token'];
  const child = spawn(process.execPath, [...own, ...flags], { cwd: folder });
  return serving(child, `http://localhost:${port}/?folder=${encodeURI(folder)}`, data);
}
