import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { root } from '../../scripts/shell.mjs';
import { secondTriesBeginAnew } from './secondTry.ts';
import { openFile, openWorkbench, panelFrame, pick, runCommand, type Workbench } from './workbench.ts';

const pictures = join(root, 'out/screenshots');

const asking = `winding "Capstan, asked"

machine {
  slots 12  poles 4  phases 3
  bore 90 mm  stack 60 mm  flux 3 mWb
}
layout { layers 2  span 3 }

vary {
  machine slots 12 to 24 by 3
  layout layers 2 3
  layout span nominal -3 to nominal
  rank least differential-leakage
}
`;

let bench: Workbench;
let page: Page;

beforeAll(async () => {
  mkdirSync(pictures, { recursive: true });
  bench = await openWorkbench({
    'capstan.winding': asking,
    '.vscode/settings.json': JSON.stringify({
      'slotwright.language': 'de',
      'slotwright.lenses': ['figures'],
      'slotwright.hints': [],
      'slotwright.severity': { 'voltage-in-slot-high': 'off' },
    }),
  });
  page = bench.page;
});

afterAll(() => bench?.close());

secondTriesBeginAnew(() => bench);

test('files that are not open have their findings among the problems, in the language of the settings', async () => {
  await openFile(page, 'harbor-ferry-pod-drive.winding');
  await runCommand(page, 'Problems: Focus on Problems View');
  const problems = page.locator('.markers-panel');
  await problems.getByText('broken-ballast-pump.winding').first().waitFor();
  await problems.getByText("'stakc' ist kein Wort von machine; ist ‚stack‘ gemeint?").waitFor();
  await page.screenshot({ path: join(pictures, 'german-problems.png') });
  await runCommand(page, 'View: Hide Panel');
});

test('lines, hints and severities are those of the settings', async () => {
  await openFile(page, 'harbor-ferry-pod-drive.winding');
  await page.locator('.codelens-decoration', { hasText: '48 Nuten' }).waitFor();
  expect(await page.locator('.codelens-decoration', { hasText: 'Gefunden' }).count()).toBe(0);
  expect(await page.locator('.editor-instance .view-line', { hasText: '✓' }).count()).toBe(0);
  await runCommand(page, 'Problems: Focus on Problems View');
  await page.locator('.markers-panel .monaco-list-row').first().waitFor();
  expect(await page.locator('.markers-panel', { hasText: 'voltage-in-slot-high' }).count()).toBe(0);
  await runCommand(page, 'View: Hide Panel');
});

test('the panel speaks it too', async () => {
  await openFile(page, 'harbor-ferry-pod-drive.winding');
  await runCommand(page, 'Show Layout Panel');
  const frame = panelFrame(page);
  await frame.getByRole('tab', { name: 'Anordnung' }).waitFor();
  await frame.locator('#panel-drawing svg').first().waitFor();
  await page.screenshot({ path: join(pictures, 'german-panel.png') });
  expect(bench.complaints.filter((words) => /slotwright/i.test(words))).toEqual([]);
});

test('so does the comparison of two windings', async () => {
  await runCommand(page, 'View: Close All Editors');
  await runCommand(page, 'Slotwright: Compare Two Windings');
  await pick(page, 'dredge-pump.winding');
  await pick(page, 'tidal-pump.winding');
  await panelFrame(page)
    .locator('#panel-headline')
    .filter({ hasText: 'Die Wicklung ist eine andere.' })
    .waitFor();
  await page.screenshot({ path: join(pictures, 'german-comparison.png') });
});

test('what is asked of variants, and why some make no winding, is said in it', async () => {
  await runCommand(page, 'View: Close All Editors');
  await openFile(page, 'capstan.winding');
  await runCommand(page, 'Slotwright: Explore Variants');
  const variants = panelFrame(page).locator('#panel-variants');
  await variants.locator('.variants-standing', { hasText: /^40 Kandidaten: \d+ behalten/ }).waitFor();
  await variants.locator('summary', { hasText: 'Was gefragt ist' }).click();
  await variants
    .getByText('es lässt sich keine Anordnung erzeugen: die Zahl der Schichten ist ungerade')
    .waitFor();
  await variants.getByText('Flussdichte im Luftspalt (der Fluss eines Pols folgt); Strom;').waitFor();
  await page.screenshot({ path: join(pictures, 'german-variants.png') });
});
