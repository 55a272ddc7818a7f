import { cp, mkdir, mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { BrowserContext, FrameLocator, Locator, Page } from 'playwright-core';
import { openEditorBrowser } from '../../scripts/editorBrowser.mjs';
import { dataFolder, startEditor } from '../../scripts/editorServer.mjs';
import { startNodeEditor } from '../../scripts/nodeEditorServer.mjs';
import { root } from '../../scripts/shell.mjs';
import { openPages, tellPages } from './failure.ts';

/** How long anything is waited for, ms: far longer than a busy machine takes, and short enough to be told of. */
export const patience = 90_000;

/** The package whose extension host is Node's, where `npm run node-host` asks for that; null for the one in the browser. */
export const nodePackage = process.env.SLOTWRIGHT_NODE_HOST ?? null;

/** A real VS Code in a browser, with the built extension and a folder of winding files open. */
export interface Workbench {
  readonly page: Page;
  /** The folder on the disk. In the browser's host it is only read: what is saved stays in the page. */
  readonly folder: string;
  /** Begins anew, whatever was done: folder and window are as they were at first. */
  readonly afresh: () => Promise<void>;
  /** What the browser's console complained about, the panel's page included. */
  readonly complaints: readonly string[];
  readonly close: () => Promise<void>;
}

interface Opening {
  /** Nothing but the given files: no examples. */
  readonly bare?: boolean;
  /** What is done with the folder before it is opened. */
  readonly prepare?: (folder: string) => void;
}

/** Starts server and browser with a copy of the examples plus the given files. */
export async function openWorkbench(
  files: Readonly<Record<string, string>> = {},
  { bare = false, prepare }: Opening = {},
): Promise<Workbench> {
  await mkdir(dataFolder, { recursive: true });
  const place = await mkdtemp(join(dataFolder, 'session-'));
  const folder = join(place, 'windings');
  if (bare) await mkdir(folder);
  else await cp(join(root, 'examples'), folder, { recursive: true });
  for (const [name, text] of Object.entries(bare ? files : { ...files, [settingsFile]: settings(files) })) {
    await mkdir(dirname(join(folder, name)), { recursive: true });
    await writeFile(join(folder, name), text);
  }
  prepare?.(folder);
  const pristine = join(place, 'pristine');
  await cp(folder, pristine, { recursive: true });
  const server =
    nodePackage === null
      ? await startEditor({ folder, port: null })
      : await startNodeEditor({ folder, extension: nodePackage });
  const context = await openBrowser(join(place, 'profile'));
  const page = context.pages()[0] ?? (await context.newPage());
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  const end = async () => {
    openPages.delete(page);
    await context.close();
    await server.stop();
    await rm(place, { recursive: true, force: true });
  };
  const load = async () => {
    await page.goto(server.address);
    const rows = page.locator('.monaco-workbench .explorer-folders-view .monaco-list-row');
    // An empty folder has none, but says its name.
    await loaded(page, bare ? page.locator('.explorer-folders-view') : rows.first());
  };
  const afresh = async () => {
    for (const other of context.pages()) if (other !== page) await other.close();
    // Where the server keeps unsaved texts they would come back; a window that does not answer is left as it is.
    if (nodePackage !== null) await comes(revertAll(page));
    await page.goto('about:blank');
    const session = await context.newCDPSession(page);
    const { origin } = new URL(server.address);
    await session.send('Storage.clearDataForOrigin', { origin, storageTypes: 'all' });
    await session.detach();
    for (const name of await readdir(folder)) await rm(join(folder, name), { recursive: true, force: true });
    await cp(pristine, folder, { recursive: true });
    complaints.length = 0;
    await load();
  };
  openPages.add(page);
  try {
    await load();
  } catch (problem) {
    await tellPages('opening the editor');
    await end();
    throw problem;
  }
  return { page, folder, complaints, afresh, close: end };
}

/**
 * Waits for what a loaded window shows. Seen once in some hundred loads: the editor's host of extensions, which also
 * reads the files, does not start; then it is loaded once more, and told of.
 */
async function loaded(page: Page, sign: Locator): Promise<void> {
  if (await comes(sign.waitFor({ state: 'attached', timeout: patience / 2 }))) return;
  console.error('The window does not show its files, and is loaded once more.');
  await page.reload();
  await sign.waitFor({ state: 'attached' });
}

/** Closes all editors, and leaves what was changed in them. */
async function revertAll(page: Page): Promise<void> {
  const tabs = page.locator('.editor-group-container .tab');
  for (let step = 0; step < 20 && (await tabs.count()) > 0; step++)
    await runCommand(page, 'View: Revert and Close Editor');
}

const settingsFile = '.vscode/settings.json';

/** As in the editor whose extensions run in Node: what is typed can be reverted, and no page comes late and takes the focus. */
const quiet = { 'files.autoSave': 'off', 'workbench.startupEditor': 'none' };

/** The settings of the folder: the given ones, too. */
function settings(files: Readonly<Record<string, string>>): string {
  return JSON.stringify({ ...quiet, ...JSON.parse(files[settingsFile] ?? '{}') });
}

async function openBrowser(profile: string): Promise<BrowserContext> {
  const context = await openEditorBrowser(profile, { width: 1500, height: 900 });
  context.setDefaultTimeout(patience);
  return context;
}

/** Whether what is waited for comes, or not within its time. */
export function comes(what: Promise<unknown>): Promise<boolean> {
  return what.then(
    () => true,
    () => false,
  );
}

/**
 * Runs a command by its full name from the command palette, exactly once. A window that has just been loaded
 * may not listen yet, or close the palette again: it is asked again until the command was taken. `focus` puts the
 * focus where the command is offered, before each asking.
 */
export async function runCommand(page: Page, name: string, focus?: () => Promise<void>): Promise<void> {
  const palette = page.locator('.quick-input-widget');
  for (const begun = performance.now(); performance.now() - begun < patience; ) {
    await focus?.();
    await page.keyboard.press('F1');
    const asked = await comes(palette.locator('input.input').fill(`>${name}`, { timeout: 5000 }));
    if (asked && (await takeCommand(page, name))) return;
    await page.keyboard.press('Escape');
  }
  const offered = await palette.locator('.monaco-list-row').allTextContents();
  throw new Error(`The palette does not offer "${name}", but: ${offered.join(', ') || 'nothing'}.`);
}

/** Whether the open palette offered the command, which it then took; false where it has closed by itself. */
async function takeCommand(page: Page, name: string): Promise<boolean> {
  for (let look = 0; look < 100; look++) {
    const seen = await page.evaluate(clickCommand, name).catch((error: Error) => {
      // A command that loads the window anew takes the answer with it.
      if (/context was destroyed|navigation/i.test(error.message)) return 'taken';
      throw error;
    });
    if (seen !== 'waiting') return seen === 'taken';
    await page.waitForTimeout(100);
  }
  return false;
}

/** Runs in the page: finds and clicks the command's row at one stroke, so that nothing can come between. */
function clickCommand(name: string): 'taken' | 'closed' | 'waiting' {
  const palette = document.querySelector<HTMLElement>('.quick-input-widget');
  if (palette === null || palette.getClientRects().length === 0) return 'closed';
  for (const row of palette.querySelectorAll<HTMLElement>('.monaco-list-row')) {
    const label = row.querySelector('.label-name')?.textContent ?? '';
    if (label !== name && !label.endsWith(`: ${name}`)) continue;
    row.click();
    return 'taken';
  }
  return 'waiting';
}

/** Takes the entry of a quick pick whose label this is, which comes within some milliseconds. */
export async function pick(page: Page, label: string, within = patience): Promise<void> {
  // What the pointer rests on is told in a box that would lie over the entries.
  await page.mouse.move(0, 0);
  await page
    .locator('.quick-input-widget .monaco-list-row')
    .filter({ has: page.getByText(label, { exact: true }) })
    .first()
    .click({ timeout: within });
}

/** Answers a question that is asked with these words. */
export async function answer(page: Page, prompt: string, text: string): Promise<void> {
  const question = page.locator('.quick-input-widget').filter({ hasText: prompt });
  await question.waitFor();
  await question.locator('input.input').fill(text);
  await page.keyboard.press('Enter');
}

/** The button of a dialog for files or folders; newer editors show the extension's own words for it. */
export function acceptButton(page: Page): Locator {
  return page.locator('.quick-input-widget .quick-input-action [role="button"]').first();
}

/** Accepts what a dialog for files or folders proposes. It does not hear a button while it reads a folder. */
export async function accept(page: Page): Promise<void> {
  await acceptButton(page).waitFor();
  for (
    const begun = performance.now();
    await acceptButton(page).isVisible();
    await page.waitForTimeout(200)
  ) {
    if (performance.now() - begun > patience) throw new Error('The dialog does not take its own proposal.');
    // It may have closed meanwhile.
    await acceptButton(page)
      .click({ timeout: 2000 })
      .catch(() => undefined);
  }
}

/**
 * Does what the workbench may not hear yet, or take back at once, until this comes of it: only for what asks or shows
 * something and may be done twice.
 */
export async function askUntil(act: () => Promise<unknown>, sign: Locator, words: string): Promise<void> {
  for (const begun = performance.now(); performance.now() - begun < patience; ) {
    if ((await comes(act())) && (await comes(sign.first().waitFor({ timeout: 5000 })))) return;
    await sign.page().waitForTimeout(100);
  }
  throw new Error(words);
}

/** Opens the list of fixes at the cursor, asking again where the findings have just changed, until it has one of these words. */
export async function openFixes(page: Page, words: string): Promise<void> {
  const fix = page.locator('.action-widget').getByText(words).first();
  const ask = async () => {
    await page.keyboard.press('Escape');
    await focusText(page);
    await page.keyboard.press('Control+.');
  };
  await askUntil(ask, fix, `No fix says "${words}".`);
}

/**
 * Opens a file in a tab that stays, and waits until its text is shown; the list of files keeps the focus. Level 1
 * are the files of the folder itself, level 2 those of an opened folder in it.
 */
export async function openFile(page: Page, name: string, level = 1): Promise<void> {
  const row = page
    .locator(`.explorer-folders-view .monaco-list-row[aria-level="${level}"]`)
    .filter({ has: page.getByText(name, { exact: true }) });
  const group = page.locator('.editor-group-container.active');
  const tab = group.locator(`.tab.active[data-resource-name="${name}"]`);
  // A row may move under the pointer while files come and go.
  await askUntil(() => row.dblclick(), tab, `The list of files does not open ${name}.`);
  await group
    .locator(`.monaco-editor[data-uri$="/${encodeURIComponent(name)}"] .view-line`)
    .first()
    .waitFor();
}

/** Takes a fix at the cursor by keys: the list keeps the mouse out while it opens. */
export async function takeFix(page: Page, words: string): Promise<void> {
  const focused = page.locator('.action-widget .monaco-list-row.focused');
  const isThere = async () => {
    const text = await focused.textContent({ timeout: 2000 }).catch(() => null);
    return text?.includes(words) ?? false;
  };
  for (const begun = performance.now(); performance.now() - begun < patience; ) {
    await openFixes(page, words);
    for (let step = 0; step < 20; step++) {
      if (await isThere()) return page.keyboard.press('Enter');
      // Without a list the key would move the cursor.
      if ((await focused.count()) === 0) break;
      await page.keyboard.press('ArrowDown');
    }
  }
  throw new Error(`The keys do not come to the fix "${words}".`);
}

/** The text that keys go to, while one has the focus. */
export function focusedText(page: Page): Locator {
  return page.locator('.editor-instance .monaco-editor.focused');
}

/**
 * Gives the shown text the focus; the cursor stays where it is. A click would scroll the text where something lies over
 * it for a moment: Playwright then tries again with the element's end, middle and beginning brought into sight.
 */
export async function focusText(page: Page): Promise<void> {
  // A panel that has just been asked for something may take the focus back.
  const input = page.locator('.editor-instance .monaco-editor:visible').first().locator(textInput).first();
  await askUntil(() => input.focus(), focusedText(page), 'The text does not take the focus.');
}

/** What hears the keys in a text; newer editors have another one. */
const textInput = 'textarea.inputarea, .native-edit-context';

/** Puts the cursor to a line and column of the shown text, both from 1, which brings them into sight. */
export async function goToPlace(page: Page, line: number, column: number): Promise<void> {
  const place = page.locator('.statusbar-item', { hasText: new RegExp(`Ln ${line}, Col ${column}(?!\\d)`) });
  const box = page.locator('.quick-input-widget');
  for (const begun = performance.now(); performance.now() - begun < patience; ) {
    await focusText(page);
    await page.keyboard.press('Control+G');
    const asked = await comes(box.locator('input.input').fill(`:${line}:${column}`, { timeout: 5000 }));
    if (asked) await page.keyboard.press('Enter');
    const taken = asked && (await comes(box.waitFor({ state: 'hidden', timeout: 5000 })));
    if (taken && (await comes(place.waitFor({ timeout: 5000 })))) return focusText(page);
    await page.keyboard.press('Escape');
  }
  throw new Error(`The cursor does not come to line ${line}, column ${column}.`);
}

/** Puts the cursor before some words of the shown text, which reads so; `end` puts it to the end of their line. */
export async function goToWords(page: Page, text: string, words: string, end = false): Promise<void> {
  const at = text.indexOf(words);
  if (at < 0) throw new Error(`The text has no "${words}".`);
  const before = text.slice(0, at).split('\n');
  const column = end ? text.split('\n')[before.length - 1]!.length : before.at(-1)!.length;
  await goToPlace(page, before.length, column + 1);
}

/**
 * Does something with keys in the shown text until what it leads to has come: once, and again only where the focus has
 * left the text meanwhile, because a panel that has just been asked for something may take it back, and the keys with it.
 */
export async function inText(
  page: Page,
  keys: () => Promise<void>,
  hasCome: () => Promise<boolean>,
): Promise<void> {
  const begun = performance.now();
  while (performance.now() - begun < patience) {
    await focusText(page);
    await keys();
    do {
      for (let look = 0; look < 50; look++) {
        // A panel whose frame is being replaced cannot be asked.
        if (await hasCome().catch(() => false)) return;
        await page.waitForTimeout(100);
      }
    } while ((await focusedText(page).count()) > 0 && performance.now() - begun < patience);
  }
  throw new Error('What is done in the text leads to nothing.');
}

/** Takes what a line above a statement offers: one that is just being drawn anew does not hear the mouse. */
export function takeLens(page: Page, words: string, sign: Locator): Promise<void> {
  const lens = page.locator('.codelens-decoration a', { hasText: words }).first();
  return askUntil(() => lens.click(), sign, `Nothing comes of "${words}".`);
}

/** Undoes one step in the shown text, which brings `shown` back. */
export function undo(page: Page, shown: Locator): Promise<void> {
  return inText(
    page,
    () => page.keyboard.press('Control+z'),
    () => shown.first().isVisible(),
  );
}

/** Presses what leads to a line of the text until the cursor is in it: a panel that was pressed may take the focus back. */
export async function leadToLine(page: Page, button: Locator, line: number): Promise<void> {
  const place = page.locator(`a[aria-label^="Ln ${line}, Col"]`);
  await askUntil(() => button.click(), place, `The cursor does not come to line ${line}.`);
}

/** Loads the window anew, and waits until it works again. */
export async function reloadWindow(page: Page): Promise<void> {
  await page.evaluate(() => document.body.setAttribute('data-before-reload', ''));
  await runCommand(page, 'Developer: Reload Window');
  await loaded(
    page,
    page.locator('body:not([data-before-reload]) .explorer-folders-view .monaco-list-row').first(),
  );
}

/**
 * Waits for a notification and returns it. It is looked for in the list of all notifications, because one by itself
 * goes away after some seconds; the list is opened again where it closed because it had become empty.
 * `clearNotifications` closes it.
 */
export async function notification(page: Page, text: string): Promise<Locator> {
  const found = page
    .locator('.notifications-center .notification-list-item')
    .filter({ hasText: text })
    .first();
  const show = () => runCommand(page, 'Notifications: Show Notifications');
  await askUntil(show, found, `No notification says "${text}".`);
  return found;
}

/** Takes all notifications away, and their list too. */
export async function clearNotifications(page: Page): Promise<void> {
  await runCommand(page, 'Notifications: Clear All Notifications');
  await page.locator('.notifications-center.visible').waitFor({ state: 'detached' });
}

/** The inside of the layout panel. */
export function panelFrame(page: Page): FrameLocator {
  return page.frameLocator('iframe.webview').frameLocator('iframe#active-frame');
}
