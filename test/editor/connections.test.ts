import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { root } from '../../scripts/shell.mjs';
import { secondTriesBeginAnew } from './secondTry.ts';
import { readsInEveryTheme } from './themes.ts';
import {
  openFile,
  openWorkbench,
  panelFrame,
  runCommand,
  takeLens,
  undo,
  type Workbench,
} from './workbench.ts';

const gate = `winding "Lock gate winch, trial"

machine {
  slots  12
  poles  2
  phases 3
}

layout {
  layers 2
  span   6
}

connect {
  star
  route paths 2
}
`;

const pictures = join(root, 'out/screenshots');

let bench: Workbench;
let page: Page;

beforeAll(async () => {
  mkdirSync(pictures, { recursive: true });
  bench = await openWorkbench({ 'gate.winding': gate });
  page = bench.page;
  await page.setViewportSize({ width: 1280, height: 800 });
});

afterAll(() => bench?.close());

secondTriesBeginAnew(
  () => bench,
  async () => {
    await openFile(page, 'gate.winding');
    await runCommand(page, 'Show Layout Panel');
  },
);

const part = (name: string) => panelFrame(page).locator(`#panel-${name}`);
const text = () => page.locator('.editor-instance .monaco-editor[data-uri$="/gate.winding"] .view-lines');

test('a connection is seen before it is chosen, chosen with its figures, and taken back', async () => {
  await openFile(page, 'gate.winding');
  const rows = page.locator('.quick-input-widget .monaco-list-row');
  await takeLens(page, 'Found: ', rows.filter({ hasText: 'joint shape' }));
  await rows.filter({ hasText: 'joint shape' }).nth(1).waitFor();
  await page.keyboard.press('ArrowDown');
  await part('stamp').filter({ hasText: 'On trial' }).waitFor();
  await page.screenshot({ path: join(pictures, 'choose-connection.png') });
  await page.keyboard.press('Enter');
  await text().filter({ hasText: 'path' }).waitFor();
  await part('stamp').filter({ hasNotText: 'On trial' }).waitFor({ state: 'attached' });
  await undo(page, text().filter({ hasText: 'route' }));
  await expect.poll(() => text().filter({ hasText: 'path' }).filter({ hasText: 'from' }).count()).toBe(0);
});

test('the panel lists them, draws what the arrow keys come to, and passes the rules for everyone', async () => {
  await part('pane-tab-connections').click();
  const row = (number: number) =>
    part('connections')
      .locator('tbody tr')
      .nth(number - 1);
  await row(2).waitFor();
  await row(1).locator('button').press('ArrowDown');
  await part('stamp').filter({ hasText: 'On trial' }).waitFor();
  expect(await row(2).locator('button').getAttribute('aria-pressed')).toBe('true');
  expect(await part('write').textContent()).toBe('Write out connection 2');
  await readsInEveryTheme(page, 'connections');
  await part('pane-tab-figures').click();
  await part('stamp')
    .filter({ hasText: 'On trial' })
    .waitFor({ state: 'detached' })
    .catch(() => undefined);
  await expect.poll(() => part('stamp').textContent()).not.toContain('On trial');
});
