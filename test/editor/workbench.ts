import { cp, mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
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
  for (const [name, text] of Object.entries(files)) {
    await mkdir(dirname(join(folder, name)), { recursive: true });
    await writeFile(join(folder, name), text);
  }
  prepare?.(folder);
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
  openPages.add(page);
  try {
    await page.goto(server.address);
    const rows = page.locator('.monaco-workbench .explorer-folders-view .monaco-list-row');
    // An empty folder has none, but says its name.
    await (bare ? page.locator('.explorer-folders-view') : rows.first()).waitFor({ state: 'attached' });
  } catch (problem) {
    await tellPages('opening the editor');
    await end();
    throw problem;
  }
  return { page, folder, complaints, close: end };
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

/** Opens the list of fixes at the cursor, asking again where the findings have just changed, until it has one of these words. */
export async function openFixes(page: Page, words: string): Promise<void> {
  const fix = page.locator('.action-widget').getByText(words).first();
  for (const begun = performance.now(); performance.now() - begun < patience; ) {
    await page.keyboard.press('Control+.');
    if (await comes(fix.waitFor({ timeout: 5000 }))) return;
    await page.keyboard.press('Escape');
  }
  throw new Error(`No fix says "${words}".`);
}

/**
 * Opens a file in a tab that stays, and waits until its text is shown; the list of files keeps the focus. Level 1
 * are the files of the folder itself, level 2 those of an opened folder in it.
 */
export async function openFile(page: Page, name: string, level = 1): Promise<void> {
  const row = page
    .locator(`.explorer-folders-view .monaco-list-row[aria-level="${level}"]`)
    .filter({ has: page.getByText(name, { exact: true }) });
  await row.dblclick();
  const group = page.locator('.editor-group-container.active');
  await group.locator(`.tab.active[data-resource-name="${name}"]`).waitFor();
  await group
    .locator(`.monaco-editor[data-uri$="/${encodeURIComponent(name)}"] .view-line`)
    .first()
    .waitFor();
}

/** Takes a fix at the cursor by keys: the list keeps the mouse out while it opens. */
export async function takeFix(page: Page, words: string): Promise<void> {
  await openFixes(page, words);
  const focused = page.locator('.action-widget .monaco-list-row.focused');
  for (let step = 0; step < 20 && !(await focused.textContent())?.includes(words); step++)
    await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
}

/** The text that keys go to, while one has the focus. */
export function focusedText(page: Page): Locator {
  return page.locator('.editor-instance .monaco-editor.focused');
}

/** Puts the cursor into the shown text, without changing it. */
export async function focusText(page: Page): Promise<void> {
  // A panel that has just been asked for something may take the focus back.
  for (const begun = performance.now(); performance.now() - begun < patience; ) {
    await page.locator('.editor-instance .view-lines').first().click();
    if (await comes(focusedText(page).waitFor({ timeout: 5000 }))) return;
  }
  throw new Error('The text does not take the focus.');
}

/** Presses what leads to a line of the text until the cursor is in it: a panel that was pressed may take the focus back. */
export async function leadToLine(page: Page, button: Locator, line: number): Promise<void> {
  const place = page.locator(`a[aria-label^="Ln ${line}, Col"]`);
  for (const begun = performance.now(); performance.now() - begun < patience; ) {
    await button.click();
    if (await comes(place.waitFor({ timeout: 5000 }))) return;
  }
  throw new Error(`The cursor does not come to line ${line}.`);
}

/** Loads the window anew, and waits until it works again. */
export async function reloadWindow(page: Page): Promise<void> {
  await page.evaluate(() => document.body.setAttribute('data-before-reload', ''));
  await runCommand(page, 'Developer: Reload Window');
  const files = page
    .locator('body:not([data-before-reload]) .explorer-folders-view .monaco-list-row')
    .first();
  // Seen once in some hundred reloads: the editor's host of extensions, which also reads the files, does not start.
  if (!(await comes(files.waitFor({ timeout: patience / 2 })))) await page.reload();
  await files.waitFor();
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
  for (const begun = performance.now(); performance.now() - begun < patience; ) {
    await runCommand(page, 'Notifications: Show Notifications');
    if (await comes(found.waitFor({ timeout: 5000 }))) return found;
  }
  throw new Error(`No notification says "${text}".`);
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
