import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { chromium as chromiumPath } from '../../scripts/chromium.mjs';
import { makeDemo } from '../../scripts/demo.mjs';
import { root } from '../../scripts/shell.mjs';
import { accessibilityProblems } from './accessibility.ts';
import { nodePackage, patience } from './workbench.ts';

// What `npm run demo` leaves to look at, in a browser without a network.

const pictures = join(root, 'out/screenshots');

let folder: string;
let browser: Browser;

beforeAll(async () => {
  mkdirSync(pictures, { recursive: true });
  folder = mkdtempSync(join(tmpdir(), 'slotwright-demo-'));
  await makeDemo(folder);
  browser = await chromium.launch({
    executablePath: await chromiumPath(),
    args: ['--no-sandbox', '--disable-gpu'],
  });
  // The demo studies every example: minutes on a busy machine.
}, 1_200_000);

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Opens a page from the disk and hands it over with all that went wrong on it. */
async function opened(
  name: string,
  width: number,
  colorScheme: 'light' | 'dark',
  look: (page: Page, troubles: readonly string[]) => Promise<void>,
): Promise<void> {
  const context = await browser.newContext({ viewport: { width, height: 800 }, colorScheme, offline: true });
  context.setDefaultTimeout(patience);
  const page = await context.newPage();
  const troubles: string[] = [];
  page.on('console', (message) => troubles.push(`console: ${message.text()}`));
  page.on('requestfailed', (request) => troubles.push(`failed: ${request.url()}`));
  page.on('request', (request) => {
    if (!/^(file|data):/.test(request.url())) troubles.push(`outside: ${request.url()}`);
  });
  await page.goto(pathToFileURL(join(folder, name)).href);
  await look(page, troubles);
  await context.close();
}

test('the handover sheets, the comparison, and pages for each example and the lists are there', () => {
  const files = readdirSync(folder);
  for (const name of ['index.html', 'comparison.html', 'comparison.md', 'comparison.json', 'comparison.svg'])
    expect(files).toContain(name);
  expect(files.filter((name) => name.endsWith('-handover.pdf'))).toHaveLength(1);
  const examples = readdirSync(join(root, 'examples'))
    .filter((name) => name.endsWith('.winding'))
    .map((name) => name.replace('.winding', ''));
  expect(examples.length).toBeGreaterThan(5);
  for (const name of examples)
    for (const ending of ['md', 'json', 'html']) expect(files).toContain(`${name}.${ending}`);
});

describe.skipIf(nodePackage !== null)('the overview, from the disk and offline', () => {
  for (const width of [1280, 400])
    for (const scheme of ['light', 'dark'] as const)
      test(`${width} pixels wide, ${scheme}`, () =>
        opened('index.html', width, scheme, async (page, troubles) => {
          await page.screenshot({ path: join(pictures, `demo-${width}-${scheme}.png`) });
          const images = page.locator('img');
          await images.evaluateAll((all) =>
            Promise.all(
              (all as HTMLImageElement[]).map((image) => {
                image.loading = 'eager';
                return image.decode();
              }),
            ),
          );
          expect(await images.count()).toBeGreaterThan(10);
          expect(await accessibilityProblems(page)).toEqual([]);
          expect(await sideways(page)).toBe(0);
          expect(troubles).toEqual([]);
        }));
});

test('every page stays within a narrow window, reads in the dark, and leads back', async () => {
  const names = readdirSync(folder).filter((name) => name.endsWith('.html') && name !== 'index.html');
  expect(names.length).toBeGreaterThan(5);
  await opened(names[0]!, 400, 'dark', async (page, troubles) => {
    for (const name of names) {
      await page.goto(pathToFileURL(join(folder, name)).href);
      expect(await accessibilityProblems(page), name).toEqual([]);
      expect(await sideways(page), name).toBe(0);
      const back = page.getByRole('link', { name: 'Back to the overview' });
      expect(await back.getAttribute('href'), name).toBe('index.html');
      expect(troubles, name).toEqual([]);
    }
    await page.getByRole('link', { name: 'Back to the overview' }).click();
    await page.waitForURL(/index\.html$/);
  });
});

/** By how many pixels the page is wider than its window. */
function sideways(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
}
