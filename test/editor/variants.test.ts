import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { root } from '../../scripts/shell.mjs';
import { accessibilityProblems } from './accessibility.ts';
import { focusText, openFile, openWorkbench, panelFrame, runCommand, type Workbench } from './workbench.ts';

const asking = `winding "Capstan, trial"

machine { slots 12  poles 4  phases 3 }
layout { layers 2  span 3 }

vary {
  machine slots 12 24
  layout span nominal -1 to nominal
  rank least differential-leakage most winding-factor harmonic 1
}
`;

let bench: Workbench;
let page: Page;

beforeAll(async () => {
  mkdirSync(join(root, 'out/screenshots'), { recursive: true });
  bench = await openWorkbench({ 'capstan.winding': asking });
  page = bench.page;
});

afterAll(() => bench?.close());

test('variants are judged, looked at by keys, and one is taken over and back', async () => {
  await openFile(page, 'capstan.winding');
  await focusText(page);
  await runCommand(page, 'Explore Variants');
  const panel = panelFrame(page);
  const variants = panel.locator('#panel-variants');
  await variants.locator('.variants-standing', { hasText: /^4 candidates: 4 kept/ }).waitFor();
  const rows = variants.locator('.variants-list tbody tr');
  // The winding of the text, and the candidates, the best first.
  await expect.poll(() => rows.count()).toBe(5);
  const first = rows.nth(1).getByRole('button');
  await first.click();
  await page.keyboard.press('ArrowDown');
  const line = variants.locator('.variants-line');
  await expect.poll(() => line.textContent()).toMatch(/machine slots 24, layout span 6/);
  await expect.poll(() => variants.locator('.variants-current').count()).toBe(1);
  await page.keyboard.press('Space');
  await variants.locator('.variants-compared').getByText('Candidate 4', { exact: true }).waitFor();
  expect(await accessibilityProblems(panel)).toEqual([]);
  await page.screenshot({ path: join(root, 'out/screenshots/variants.png') });
  await variants.locator('.variants-acts').getByRole('button', { name: 'Take Over into This File' }).click();
  const text = page.locator('.editor-instance .view-lines').first();
  await expect.poll(() => text.textContent()).toMatch(/slots\s24\s/);
  await variants
    .locator('.variants-standing', { hasText: /The text has the values of candidate 4/ })
    .waitFor();
  await focusText(page);
  await page.keyboard.press('Control+z');
  await expect.poll(() => text.textContent()).toMatch(/slots\s12\s/);
  expect(bench.complaints.filter((line) => /Content Security|variants/.test(line))).toEqual([]);
});
