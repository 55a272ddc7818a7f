// A browser window for the editor that editorServer.mjs serves, driven by a program.
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { chromium as browser } from 'playwright-core';
import { chromium } from './chromium.mjs';

/** The editor's webviews run in frames of other origins, which browsers else deny their storage. */
const preferences = { profile: { block_third_party_cookies: false, cookie_controls_mode: 0 } };

/** Opens it with a profile folder of its own and an area of so many pixels; resolves to Playwright's context. */
export async function openEditorBrowser(profile, viewport) {
  await mkdir(join(profile, 'Default'), { recursive: true });
  await writeFile(join(profile, 'Default', 'Preferences'), JSON.stringify(preferences));
  return browser.launchPersistentContext(profile, {
    executablePath: await chromium(),
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
    viewport,
  });
}
