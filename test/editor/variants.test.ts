import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { root } from '../../scripts/shell.mjs';
import { accessibilityProblems } from './accessibility.ts';
import { axeProblems } from './axe.ts';
import { secondTriesBeginAnew } from './secondTry.ts';
import { readsInEveryTheme } from './themes.ts';
import {
  askUntil,
  focusedText,
  focusText,
  goToWords,
  inText,
  openFile,
  openWorkbench,
  panelFrame,
  runCommand,
  takeFix,
  takeLens,
  undo,
  type Workbench,
} from './workbench.ts';

const asking = `winding "Capstan, trial"

machine { slots 12  poles 4  phases 3 }
layout { layers 2  span 3 }

vary {
  machine slots 12 24
  layout span nominal -1 to nominal
  rank least differential-leakage most winding-factor harmonic 1
}
`;

const winch = `winding "Winch, asked"

machine { slots 48  poles 8  phases 3 }
layout { layers 2  span 6 }
connect { star  route paths 2 }

require {
  winding-factor harmonic 5 <= 0.2
}
`;

let bench: Workbench;
let page: Page;

beforeAll(async () => {
  mkdirSync(join(root, 'out/screenshots'), { recursive: true });
  bench = await openWorkbench({ 'capstan.winding': asking, 'winch.winding': winch });
  page = bench.page;
});

afterAll(() => bench?.close());

secondTriesBeginAnew(() => bench);

const lines = (words: RegExp) => page.locator('.editor-instance .view-line').filter({ hasText: words });

/** Asks for variants of the winch in three answers, and runs them from the line above the question. */
async function askOfWinch(): Promise<void> {
  await openFile(page, 'winch.winding');
  await focusText(page);
  await runCommand(page, 'Slotwright: Vary This Winding...');
  const rows = page.locator('.quick-input-widget .monaco-list-row');
  for (const words of ['machine slots', 'layout span']) await rows.filter({ hasText: words }).first().click();
  await page.keyboard.press('Enter');
  await rows.filter({ hasText: 'most winding-factor harmonic 1' }).first().waitFor();
  // Without sizes nothing of copper can count.
  expect(await rows.filter({ hasText: 'copper' }).count()).toBe(0);
  await page.keyboard.press('Enter');
  const box = page.locator('.quick-input-widget');
  await box.filter({ hasText: 'What must be met' }).waitFor();
  await box.locator('input.input').fill('winding-facto >= 0.9');
  await box.getByText("'winding-facto' is not a word").waitFor();
  await box.locator('input.input').fill('winding-factor harmonic 1 >= 0.9');
  await box.filter({ hasText: 'What must be met' }).waitFor();
  await page.keyboard.press('Enter');
  const kept = panelFrame(page).locator('.variants-standing', { hasText: /^15 candidates: \d+ kept/ });
  await takeLens(page, '15 candidates: Run', panelFrame(page).locator('#panel-variants'));
  await kept.waitFor();
}

test('a question is asked in three answers, run from the line above it, and a failed limit tells what would meet it', async () => {
  await askOfWinch();
  const variants = panelFrame(page).locator('#panel-variants');
  // Both axes have numbers.
  await expect.poll(() => variants.locator('svg circle, svg path, svg rect').count()).toBeGreaterThan(3);
  await goToWords(page, winch, 'winding-factor harmonic 5');
  await takeFix(page, 'What would meet this?');
  const answers = page.locator('.quick-input-widget').filter({ hasText: 'What would meet' });
  await answers.locator('.monaco-list-row').first().waitFor();
  await page.screenshot({ path: join(root, 'out/screenshots/meet-limit.png') });
  await page.keyboard.press('Enter');
  await page.locator('.editor-instance .squiggly-error').waitFor({ state: 'detached' });
  await undo(page, page.locator('.editor-instance .squiggly-error'));
});

test('a candidate is opened as a winding of its own', async () => {
  const variants = panelFrame(page).locator('#panel-variants');
  if ((await page.locator('iframe.webview').count()) === 0) await askOfWinch();
  await variants.locator('.variants-list tbody tr').nth(1).getByRole('button').click();
  await variants.getByRole('button', { name: 'Open as New Winding' }).click();
  await page.locator('.tab.active[data-resource-name^="winch-candidate-"]').waitFor();
  await runCommand(page, 'View: Close Editor');
  await page.locator('.monaco-dialog-box').getByRole('button', { name: "Don't Save" }).click();
});

test('keys alone judge variants, sort and choose columns, set rows side by side, and take one over', async () => {
  await openFile(page, 'capstan.winding');
  await focusText(page);
  await runCommand(page, 'Explore Variants');
  const panel = panelFrame(page);
  const variants = panel.locator('#panel-variants');
  const standing = variants.locator('.variants-standing');
  await standing.filter({ hasText: /^4 candidates: 4 kept/ }).waitFor();
  // The palette that closes may hand the focus on once more, or back.
  const hasFocus = () => panel.locator('body').evaluate(() => document.hasFocus());
  const toPanel = async () => {
    // It is offered in the text; a panel that opens late may have taken the focus.
    await runCommand(page, 'Go to Layout Panel', () => focusText(page));
    return hasFocus();
  };
  await expect.poll(toPanel).toBe(true);
  const focused = panel.locator(':focus');
  const name = () =>
    focused.evaluate((element) => element.ariaLabel ?? element.textContent ?? element.tagName, undefined, {
      timeout: 5000,
    });
  /** Presses the Tab key until the focus is on what is called so. */
  const tabTo = async (words: RegExp) => {
    for (let step = 0; step < 60; step++) {
      if (words.test((await name().catch(() => '')) ?? '')) return;
      expect(await hasFocus()).toBe(true);
      await page.keyboard.press('Tab');
    }
    throw new Error(`The Tab key does not come to ${words}`);
  };
  // Run again; the focus is on a button before, meanwhile and after.
  await tabTo(/^Run again$/);
  await page.keyboard.press('Enter');
  await standing.filter({ hasText: /^4 candidates: 4 kept/ }).waitFor();
  await expect.poll(name).toBe('Run again');
  const heads = variants.locator('.variants-list thead th');
  const firstSlots = () =>
    variants.locator('.variants-list tbody tr').nth(1).locator('td').nth(1).textContent();
  // The chart: a slider whose value is a candidate in words.
  await tabTo(/points, differential-leakage/);
  await page.keyboard.press('Home');
  const chart = variants.locator('svg[role="slider"]');
  await expect
    .poll(() => chart.getAttribute('aria-valuetext'))
    .toMatch(/^Candidate \d: machine slots \d.*, winding-factor harmonic 1 = 0\.\d/);
  expect(await chart.getAttribute('aria-valuenow')).toBe('1');
  await page.keyboard.press('End');
  await expect.poll(() => chart.getAttribute('aria-valuenow')).toBe('4');
  // Columns are chosen, and sort.
  await tabTo(/^Columns$/);
  await page.keyboard.press('Enter');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Space');
  await expect.poll(() => heads.allTextContents()).not.toContain('layout span');
  await page.keyboard.press('Space');
  await page.keyboard.press('Escape');
  await expect.poll(name).toBe('Columns');
  await tabTo(/^machine slots$/);
  await page.keyboard.press('Enter');
  await expect.poll(firstSlots).toBe('12');
  await expect.poll(name).toBe('machine slots');
  await page.keyboard.press('Enter');
  await expect.poll(firstSlots).toBe('24');
  // And once more: the order of the question.
  await page.keyboard.press('Enter');
  await expect.poll(() => heads.nth(2).getAttribute('aria-sort')).toBe('none');
  await expect.poll(name).toBe('machine slots');
  // Rows are walked along and set side by side.
  await tabTo(/^Candidate \d$/);
  await page.keyboard.press('Home');
  await page.keyboard.press('Space');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Space');
  const compared = variants.locator('.variants-compared thead th');
  await expect.poll(() => compared.count()).toBe(3);
  await expect.poll(() => variants.getByText('being looked at').count()).toBe(0);
  expect(await accessibilityProblems(panel)).toEqual([]);
  expect(await axeProblems(panel, '#panel-variants')).toEqual([]);
  // Taken away one by one, the focus goes to the next, and then back to the table.
  await tabTo(/^Take Away: Candidate/);
  await page.keyboard.press('Enter');
  await expect.poll(() => compared.count()).toBe(2);
  await expect.poll(name).toMatch(/: Candidate \d$/);
  await tabTo(/^Take Away: Candidate/);
  await page.keyboard.press('Enter');
  await expect.poll(() => compared.count()).toBe(0);
  await expect.poll(name).toMatch(/^Candidate \d$/);
  // One is taken over; the text changes once more, and what is shown is stamped.
  await tabTo(/^Take Over into This File$/);
  await page.keyboard.press('Enter');
  await standing.filter({ hasText: /The text has the values of candidate/ }).waitFor();
  expect(await variants.locator('.variants-stale').isVisible()).toBe(false);
  const back = () => runCommand(page, 'Go Back to Winding Text');
  await askUntil(back, focusedText(page), 'The focus does not come back to the text.');
  await inText(
    page,
    async () => {
      await page.keyboard.press('Control+End');
      await page.keyboard.type('# later');
    },
    () =>
      lines(/#\slater/)
        .first()
        .isVisible(),
  );
  await variants.locator('.variants-stale').waitFor();
  // The stamp stays in sight beside the table.
  const seen = await variants.evaluate((area) => {
    area.scrollTop = area.scrollHeight;
    const stamp = area.querySelector('.variants-stale')!.getBoundingClientRect();
    const room = area.getBoundingClientRect();
    return [area.scrollTop > 0, Math.max(room.top - stamp.top, stamp.bottom - room.bottom) <= 1];
  });
  expect(seen).toEqual([true, true]);
  for (const heard of await variants.locator('[role="status"]').allTextContents())
    expect(heard).not.toMatch(/undefined|\{\d\}/);
  await expect
    .poll(() => variants.locator('.unseen[role="status"]').textContent())
    .toContain('Of the text before it changed');
  await runCommand(page, 'File: Revert File', () => focusText(page));
  await expect.poll(() => lines(/#\slater/).count()).toBe(0);
});

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
  await first.press('ArrowDown');
  const line = variants.locator('.variants-line');
  await expect.poll(() => line.textContent()).toMatch(/machine slots 24, layout span 6/);
  await expect.poll(() => variants.locator('.variants-current').count()).toBe(1);
  await page.keyboard.press('Space');
  await variants.locator('.variants-compared').getByText('Candidate 4', { exact: true }).waitFor();
  await readsInEveryTheme(page, 'variants');
  const machine = (slots: number) => lines(new RegExp(`machine\\s\\{\\sslots\\s${slots}\\s`));
  // Scrolled out of sight, what is taken over comes into it.
  const text = (await page.locator('.editor-instance .monaco-editor').first().boundingBox())!;
  await page.mouse.move(text.x + text.width / 2, text.y + text.height / 2);
  const scrolled = async () => {
    await page.mouse.wheel(0, 500);
    return machine(12).count();
  };
  await expect.poll(scrolled).toBe(0);
  await variants.locator('.variants-acts').getByRole('button', { name: 'Take Over into This File' }).click();
  await machine(24).waitFor();
  await variants
    .locator('.variants-standing', { hasText: /The text has the values of candidate 4/ })
    .waitFor();
  await undo(page, machine(12));
  expect(bench.complaints.filter((line) => /Content Security|variants/.test(line))).toEqual([]);
});
