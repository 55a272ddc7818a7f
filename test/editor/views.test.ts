import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { root } from '../../scripts/shell.mjs';
import { secondTriesBeginAnew } from './secondTry.ts';
import { goToWords, openFile, openWorkbench, panelFrame, reloadWindow, type Workbench } from './workbench.ts';

const trial = `winding "Lock-gate winch, hand joined"

machine {
  slots 12
  poles 4
  phases 3
}

slot {
  width 9 mm
  depth 20 mm
}

bar {
  width 7 mm
  height 8 mm
}

connect {
  star
  path U 1 from U1 1a +3b +3a +3b to N
  path U 2 from U1 1b -3a -3b -3a to N
  repeat U as V shift 2
  repeat U as W shift 4
}
`;

const pictures = join(root, 'out/screenshots');

let bench: Workbench;
let page: Page;

beforeAll(async () => {
  mkdirSync(pictures, { recursive: true });
  bench = await openWorkbench({ 'trial.winding': trial });
  page = bench.page;
  await showTrial();
});

afterAll(() => bench?.close());

secondTriesBeginAnew(() => bench, showTrial);

const panel = () => panelFrame(page);
const tab = (name: string) => panel().getByRole('tab', { name, exact: true, includeHidden: true });
/** Also where the tab stands in the menu of those that find no room. */
const clickTab = (name: string) => tab(name).evaluate((element) => (element as HTMLElement).click());
const lit = () =>
  panel()
    .locator('#panel-drawing .lit')
    .evaluateAll((elements) => elements.map((element) => element.getAttribute('data-bar')));

async function showTrial(): Promise<void> {
  await openFile(page, 'trial.winding');
  await page.locator('.editor-actions a[aria-label*="Show Layout Panel"]').click();
  await clickTab('Layout');
  await panel().locator('[data-bar]').first().waitFor({ state: 'attached' });
}

/** Turns to a view and waits until its description says that it is drawn. */
async function turnTo(name: string, description: RegExp): Promise<void> {
  await clickTab(name);
  await panel().locator('#panel-description').filter({ hasText: description }).waitFor({ state: 'attached' });
}

const views: readonly (readonly [string, RegExp])[] = [
  ['Layout', /Developed layout/],
  ['Section', /[Ss]ection/],
  ['Phasors', /[Pp]hasor|[Ss]tar of slots/],
  ['Field', /MMF/],
  ['Copper', /Conductors of a winding/],
];

describe('the views in a real editor', () => {
  test('each tab shows its picture, and the keyboard turns the tabs', async () => {
    for (const [name, description] of views) await turnTo(name, description);
    await tab('Copper').press('Home');
    await panel().locator('#panel-tab-layout[aria-selected="true"]').waitFor();
    await tab('Layout').press('ArrowLeft');
    await panel().locator('#panel-tab-tables[aria-selected="true"]').waitFor();
    await panel().locator('#panel-table tbody tr').first().waitFor();
    await tab('Tables').press('ArrowRight');
    await panel().locator('#panel-tab-layout[aria-selected="true"]').waitFor();
    expect(bench.complaints.filter((text) => /Content Security Policy|Refused to/i.test(text))).toEqual([]);
  });

  test('one path, layer or side is shown while the rest steps back', async () => {
    await turnTo('Layout', /Developed layout/);
    await panel().locator('#panel-choices-open').click();
    const choose = (name: string, value: string) => panel().locator(`#panel-${name}`).selectOption(value);
    const faded = (bar: string) => panel().locator(`[data-bar="${bar}"].faded`);
    await choose('layer', 'b');
    await faded('1a').waitFor({ state: 'attached' });
    await expect.poll(() => faded('1b').count()).toBe(0);
    await choose('layer', '');
    await choose('path', '2');
    // Path U 1 runs 1a 4b 7a 10b, path U 2 1b 10a 7b 4a.
    await faded('4b').waitFor({ state: 'attached' });
    await expect.poll(() => faded('4a').count()).toBe(0);
    await page.screenshot({ path: join(pictures, 'one-path.png') });
    await choose('path', '');
    await faded('4b').waitFor({ state: 'detached' });
    await choose('side', 'far');
    await panel().locator('[data-terminal="U1"].faded').first().waitFor({ state: 'attached' });
    await choose('side', '');
    await panel().locator('[data-terminal="U1"].faded').first().waitFor({ state: 'detached' });
    await panel().locator('#panel-side').press('Escape');
    await panel().locator('#panel-choices').waitFor({ state: 'hidden' });
  });

  test('a position is searched, chosen, named, and its step is selected in the text', async () => {
    await turnTo('Layout', /Developed layout/);
    await panel().locator('#panel-area').press('Control+f');
    await panel().locator('#panel-search').fill('7a');
    await panel().locator('#panel-search').press('Enter');
    await panel()
      .locator('#panel-chosen')
      .filter({ hasText: /^7a: phase U, path 1, bar 3 of 4/ })
      .waitFor();
    await expect.poll(lit).toEqual(['7a']);
    await page.locator('.editor-instance .selected-text').first().waitFor({ state: 'attached' });
    await panel().locator('#panel-area').press('ArrowRight');
    await panel()
      .locator('#panel-chosen')
      .filter({ hasText: /^10b: .* bar 4 of 4/ })
      .waitFor();
    await page.screenshot({ path: join(pictures, 'chosen.png') });
    await panel().locator('#panel-area').press('Escape');
    await expect.poll(lit).toEqual([]);
    await panel().locator('#panel-search').fill('99z');
    await panel().locator('#panel-search').press('Enter');
    await panel().locator('#panel-search-result').filter({ hasText: 'no such place' }).waitFor();
    await panel().locator('#panel-search').press('Escape');
    await panel().locator('#panel-search').waitFor({ state: 'hidden' });
    await panel().locator('#panel-area').press('0');
  });

  test('a click on a bar chooses it, the pointer over it names it', async () => {
    await turnTo('Layout', /Developed layout/);
    const bar = panel().locator('[data-bar="4b"]');
    const box = (await bar.boundingBox())!;
    const at = { x: box.x + box.width / 2, y: box.y + 6 };
    await page.mouse.move(at.x, at.y);
    await panel()
      .locator('#panel-pointed')
      .filter({ hasText: /^4b: phase U/ })
      .waitFor();
    await page.mouse.down();
    await page.mouse.up();
    await panel().locator('[data-bar="4b"].lit.chosen').waitFor({ state: 'attached' });
  });

  test("the text's cursor lights the bar or the path it stands on", async () => {
    await turnTo('Layout', /Developed layout/);
    await goToWords(page, trial, 'path U 1');
    await panel().locator('[data-bar="10b"].lit').waitFor({ state: 'attached' });
    const litBars = async () => (await lit()).filter((name) => name !== null).sort();
    await expect.poll(litBars).toEqual(['10b', '1a', '4b', '7a']);
    await goToWords(page, trial, '+3b to N');
    await panel()
      .locator('#panel-chosen')
      .filter({ hasText: /^10b: / })
      .waitFor();
    await expect.poll(lit).toEqual(['10b']);
    await page.screenshot({ path: join(pictures, 'cursor.png') });
  });

  test('the field plays and stops, and its slider chooses an instant', async () => {
    await turnTo('Field', /MMF/);
    const instant = () => panel().locator('#panel-instant-value').textContent();
    const first = await instant();
    await panel().locator('#panel-play[aria-pressed="false"]').click();
    await expect.poll(instant).not.toBe(first);
    const later = await instant();
    await expect.poll(instant).not.toBe(later);
    await panel().locator('#panel-play[aria-pressed="true"]').click();
    await panel().locator('#panel-play[aria-pressed="false"]').waitFor();
    await panel().locator('#panel-instant').fill('90');
    await panel().locator('#panel-instant-value').filter({ hasText: '90°' }).waitFor();
  });

  test('notes are those of what is shown, not of the drawing before', async () => {
    const notes = panel().locator('#panel-notes li');
    const description = panel().locator('#panel-description');
    await turnTo('Phasors', /[Ss]tar/);
    await expect.poll(() => notes.count()).toBeGreaterThan(0);
    await clickTab('Tables');
    await expect.poll(() => notes.count()).toBe(0);
    expect(await description.textContent()).toBe(await panel().locator('#panel-table-title').textContent());
    await turnTo('Phasors', /[Ss]tar/);
    await expect.poll(() => notes.count()).toBeGreaterThan(0);
    await clickTab('Variants');
    await expect.poll(() => notes.count()).toBe(0);
    expect(await description.textContent()).toBe('Lock-gate winch, hand joined');
    await panel().getByRole('tab', { name: 'Notes' }).click();
    await panel().getByText('Notes stand beside drawings').waitFor();
    await panel().getByRole('tab', { name: 'Key figures' }).click();
  });

  test('a click on the head sorts a table, and the next one turns it round', async () => {
    await clickTab('Tables');
    await panel().locator('#panel-table-choice').selectOption('bars');
    const first = () => panel().locator('#panel-table tbody th').first();
    const head = panel().locator('#panel-table thead').getByRole('button', { name: 'position' });
    await head.click();
    await first().filter({ hasText: /^1a$/ }).waitFor();
    await head.click();
    await first().filter({ hasText: /^12b$/ }).waitFor();
    await panel().locator('#panel-copy').click();
    await panel().locator('#panel-done').filter({ hasText: 'Table copied.' }).waitFor();
  });

  test('view and zoom come back with a reloaded window', async () => {
    await turnTo('Section', /[Ss]ection/);
    const viewBox = () => panel().locator('#panel-drawing svg').first().getAttribute('viewBox');
    const whole = await viewBox();
    await panel().locator('#panel-zoom-in').click();
    await expect.poll(viewBox).not.toBe(whole);
    const chosen = await viewBox();
    await turnTo('Layout', /Developed layout/);
    await turnTo('Section', /[Ss]ection/);
    await expect.poll(viewBox).toBe(chosen);
    await reloadWindow(page);
    await panel().locator('#panel-tab-section[aria-selected="true"]').waitFor();
    await panel()
      .locator('#panel-description')
      .filter({ hasText: /[Ss]ection/ })
      .waitFor({ state: 'attached' });
    await expect.poll(viewBox).toBe(chosen);
  });
});
