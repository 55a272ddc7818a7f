import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { root } from '../../scripts/shell.mjs';
import { promptProblems } from './axe.ts';
import { secondTriesBeginAnew } from './secondTry.ts';
import {
  accept,
  answer,
  clearNotifications,
  comes,
  focusText,
  inText,
  notification,
  openWorkbench,
  panelFrame,
  pick,
  runCommand,
  type Workbench,
} from './workbench.ts';

// An hour of somebody who has never seen any of this: from an empty folder to what the shop gets.

const pictures = join(root, 'out/screenshots');
let bench: Workbench;
let page: Page;

beforeAll(async () => {
  mkdirSync(pictures, { recursive: true });
  bench = await openWorkbench({}, { bare: true });
  page = bench.page;
  await page.setViewportSize({ width: 1280, height: 800 });
});

afterAll(() => bench?.close());

secondTriesBeginAnew(() => bench);

const files = () => page.locator('.explorer-folders-view .monaco-list-row');
const file = (name: string) => files().filter({ has: page.getByText(name, { exact: true }) });
const line = (words: string) =>
  page.locator('.editor-instance .view-line').filter({ hasText: words }).first();

/** The prompt of this title passes the rules for everyone as far as its words go. */
async function asksWell(title: string): Promise<void> {
  await page.locator('.quick-input-title', { hasText: title }).waitFor();
  await expect.poll(() => promptProblems(page), { message: title }).toEqual([]);
}

test('the palette offers what works in an empty folder, and nothing else', async () => {
  const offered = page.locator('.quick-input-widget .monaco-list-row .label-name');
  // A window that has just been loaded may not listen yet, or not know its extensions; an open list is not made anew.
  const listed = async () => {
    await page.keyboard.press('Escape');
    await page.keyboard.press('F1');
    const box = page.locator('.quick-input-widget input.input');
    const asked = box.fill('>Slotwright: ', { timeout: 5000 });
    return comes(asked.then(() => offered.filter({ hasText: 'New Winding' }).waitFor({ timeout: 5000 })));
  };
  await expect.poll(listed).toBe(true);
  expect((await offered.allTextContents()).filter((label) => label.startsWith('Slotwright: '))).toEqual([
    'Slotwright: Import a Slot Table...',
    'Slotwright: Language Reference',
    'Slotwright: New Winding...',
    'Slotwright: Open Example...',
  ]);
  await page.keyboard.press('Escape');
});

test('the walkthrough has pictures of its steps', async () => {
  // The page of welcome that a new window opens takes the focus, and with it the list, when it comes late.
  const opened = async () => {
    await runCommand(page, 'Welcome: Open Walkthrough...');
    return comes(pick(page, 'First steps with a winding', 5000));
  };
  await expect.poll(opened).toBe(true);
  await page.locator('.getting-started-step.expanded, .getting-started-step').nth(5).waitFor();
  await page.screenshot({ path: join(pictures, 'walkthrough.png') });
  await runCommand(page, 'View: Close All Editors');
});

/** Seven answers make a winding, which is drawn, and saved without a question. */
async function makeWinding(): Promise<void> {
  await runCommand(page, 'Create: New File...');
  await pick(page, 'Winding');
  await asksWell('New winding: gap');
  await pick(page, 'Inside the stator');
  await asksWell('New winding: phases');
  await pick(page, '3');
  await asksWell('New winding: poles');
  await answer(page, 'Poles, or speed and frequency', '8');
  await asksWell('New winding: slots');
  await answer(page, 'Slots at hand', '48');
  await asksWell('New winding: layout');
  await pick(page, '48 slots, span 5');
  await asksWell('New winding: bars in a slot');
  await pick(page, '2 layers');
  await asksWell('New winding: bars');
  await pick(page, 'Hairpins');
  await page.locator('.tab[data-resource-name="new-winding.winding"]').waitFor();
  await panelFrame(page).locator('[data-bar="48b"]').waitFor({ state: 'attached' });
  await inText(
    page,
    () => page.keyboard.press('Control+s'),
    () => file('new-winding.winding').isVisible(),
  );
  await page.locator('.tab.dirty').waitFor({ state: 'detached' });
}

test('New File leads to a winding from seven answers, drawn, and saved without a question', async () => {
  await makeWinding();
  expect(await page.locator('.editor-instance .squiggly-error').count()).toBe(0);
});

test('found paths are written out, and what the shop needs is exported from the panel', async () => {
  if ((await file('new-winding.winding').count()) === 0) await makeWinding();
  await focusText(page);
  await runCommand(page, 'Slotwright: Write Out the Found Paths');
  await line('path U 1 from U1').waitFor();
  const unsaved = page.locator('.tab.dirty');
  await inText(
    page,
    () => page.keyboard.press('Control+s'),
    async () => (await unsaved.count()) === 0,
  );
  await panelFrame(page).locator('#panel-export').click();
  await asksWell('Export drawing');
  await pick(page, 'Handover sheets');
  await pick(page, 'PDF');
  await accept(page);
  await notification(page, 'Wrote new-winding-sheet.pdf.');
  await clearNotifications(page);
  await runCommand(page, 'Slotwright: Export Drawing...', () => focusText(page));
  await pick(page, 'Layout');
  await pick(page, 'DXF');
  await accept(page);
  await notification(page, 'Wrote new-winding-layout.dxf.');
  await clearNotifications(page);
  await runCommand(page, 'Slotwright: Export Schedules...', () => focusText(page));
  await accept(page);
  await notification(page, 'schedules.');
  await clearNotifications(page);
  await file('new-winding-bars.csv').waitFor();
  await page.screenshot({ path: join(pictures, 'first-handover.png') });
});

test('an example opens as a copy of its own name', async () => {
  await runCommand(page, 'Slotwright: Open Example...');
  await pick(page, 'Tidal pump, tooth coils');
  await page.locator('.tab[data-resource-name="tidal-pump.winding"]').waitFor();
  await panelFrame(page).locator('#panel-title:text-is("Tidal pump, tooth coils")').waitFor();
});
