import { cp, mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { type BrowserContext, chromium, type FrameLocator, type Page } from 'playwright-core';
import { chromium as chromiumPath } from '../../scripts/chromium.mjs';
import { dataFolder, startEditor } from '../../scripts/editorServer.mjs';
import { root } from '../../scripts/shell.mjs';

/** A real VS Code in a browser, with the built extension and a folder of winding files open. */
export interface Workbench {
  readonly page: Page;
  /** What the browser's console complained about, the panel's page included. */
  readonly complaints: readonly string[];
  /** Writes settings into the folder and loads the window anew. */
  readonly reopenWith: (settings: Readonly<Record<string, unknown>>) => Promise<void>;
  readonly close: () => Promise<void>;
}

/** The editor's webviews run in frames of other origins, which browsers else deny their storage. */
const preferences = { profile: { block_third_party_cookies: false, cookie_controls_mode: 0 } };

/** Starts server and browser with a copy of the examples plus the given files. */
export async function openWorkbench(files: Readonly<Record<string, string>> = {}): Promise<Workbench> {
  await mkdir(dataFolder, { recursive: true });
  const place = await mkdtemp(join(dataFolder, 'session-'));
  const folder = join(place, 'windings');
  await cp(join(root, 'examples'), folder, { recursive: true });
  for (const [name, text] of Object.entries(files)) await writeFile(join(folder, name), text);
  const server = await startEditor({ folder, port: 4100 });
  const context = await openBrowser(join(place, 'profile'));
  const page = context.pages()[0] ?? (await context.newPage());
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  const load = async () => {
    await page.goto(server.address);
    await page.locator('.monaco-workbench .explorer-folders-view .monaco-list-row').first().waitFor();
  };
  await load();
  return {
    page,
    complaints,
    reopenWith: async (settings) => {
      await mkdir(join(folder, '.vscode'), { recursive: true });
      await writeFile(join(folder, '.vscode', 'settings.json'), JSON.stringify(settings));
      await load();
    },
    close: async () => {
      await context.close();
      await server.stop();
      await rm(place, { recursive: true, force: true });
    },
  };
}

async function openBrowser(profile: string): Promise<BrowserContext> {
  await mkdir(join(profile, 'Default'), { recursive: true });
  await writeFile(join(profile, 'Default', 'Preferences'), JSON.stringify(preferences));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: await chromiumPath(),
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
    viewport: { width: 1500, height: 900 },
  });
  context.setDefaultTimeout(120_000);
  return context;
}

/**
 * Runs a command by its full name from the command palette. A window that has just been loaded may not
 * listen yet, or close the palette again: it is asked until the command was taken.
 */
export async function runCommand(page: Page, name: string): Promise<void> {
  const input = page.locator('.quick-input-widget input.input');
  const row = page.locator('.quick-input-widget .monaco-list-row').filter({ hasText: name }).first();
  const patience = { timeout: 3000 };
  for (let taken = false; !taken; ) {
    await page.keyboard.press('F1');
    taken = await input
      .fill(`>${name}`, patience)
      .then(() => row.click(patience))
      .then(
        () => true,
        () => false,
      );
  }
}

/** Opens a file of the folder, and waits until its text is shown. */
export async function openFile(page: Page, name: string): Promise<void> {
  const rows = page.locator('.explorer-folders-view .monaco-list-row');
  await rows.filter({ has: page.getByText(name, { exact: true }) }).dblclick();
  await page.locator(`.tab[data-resource-name="${name}"]`).waitFor();
  await page.locator('.monaco-editor .view-lines .view-line').first().waitFor();
}

/** The inside of the layout panel. */
export function panelFrame(page: Page): FrameLocator {
  return page.frameLocator('iframe.webview').frameLocator('iframe#active-frame');
}
