// Finds a Chromium for the editor tests, or installs Debian's.
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { capture, HouseError, run } from './shell.mjs';

const names = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
  'microsoft-edge-stable',
];

const macPrograms = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
];

const windowsPrograms = [
  'Google\\Chrome\\Application\\chrome.exe',
  'Microsoft\\Edge\\Application\\msedge.exe',
];

/** Every place where this system may keep a Chromium, best first. */
export function candidates(platform, environment) {
  if (platform === 'darwin') return macPrograms;
  if (platform === 'win32') {
    const folders = ['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA'].map((name) => environment[name]);
    return folders.filter(Boolean).flatMap((folder) => windowsPrograms.map((path) => `${folder}\\${path}`));
  }
  const folders = (environment.PATH ?? '').split(delimiter).filter(Boolean);
  return names.flatMap((name) => folders.map((folder) => join(folder, name)));
}

function isProgram(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** Whether it starts at all: some systems install a script that only asks to install something else. */
async function starts(path) {
  if (process.platform === 'win32') return true;
  const { code } = await capture(path, ['--version']).catch(() => ({ code: 1 }));
  return code === 0;
}

/** The path of an installed Chromium, Chrome or Edge that starts; null where there is none. */
export async function findInstalled() {
  for (const path of candidates(process.platform, process.env))
    if (isProgram(path) && (await starts(path))) return path;
  return null;
}

async function installDebian() {
  console.log("No Chromium found; installing Debian's ...");
  const quiet = { DEBIAN_FRONTEND: 'noninteractive' };
  await run('apt-get', ['update', '-qq'], quiet);
  await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], quiet);
}

/** The path of a Chromium, Chrome or Edge; SLOTWRIGHT_CHROMIUM names one outright. */
export async function chromium() {
  const named = process.env.SLOTWRIGHT_CHROMIUM;
  if (named) {
    if (!isProgram(named)) throw new HouseError(`SLOTWRIGHT_CHROMIUM names no program: ${named}`);
    return named;
  }
  const found = await findInstalled();
  if (found !== null) return found;
  if (existsSync('/usr/bin/apt-get') && process.getuid?.() === 0) await installDebian();
  const installed = await findInstalled();
  if (installed !== null) return installed;
  throw new HouseError(
    'The editor tests need a Chromium, Chrome or Edge, and none was found. Install one ' +
      '(on Debian: apt-get install chromium) or set SLOTWRIGHT_CHROMIUM to the path of its program.',
  );
}
