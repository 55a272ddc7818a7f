import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { root } from '../../scripts/shell.mjs';
import { secondTriesBeginAnew } from './secondTry.ts';
import {
  focusText,
  goToPlace,
  goToWords,
  inText,
  leadToLine,
  openFile,
  openWorkbench,
  panelFrame,
  reloadWindow,
  runCommand,
  undo,
  type Workbench,
} from './workbench.ts';

const winch = `winding "Lock-gate winch, trial"   # kept by the formatter

machine {
  slots 48
  poles 8
  phases 3
}

layout {
      layers   2
  span 5
}

connect {
  star
}
`;

/** Slots times layers of the text above. */
const winchBars = 96;

/** 12 slots times 2 layers, as examples/tidal-pump.winding says. */
const tidalPumpBars = 24;

const pictures = join(root, 'out/screenshots');

let bench: Workbench;
let page: Page;

beforeAll(async () => {
  mkdirSync(pictures, { recursive: true });
  bench = await openWorkbench({
    'winch.winding': winch,
    // Its problems are those of the one text.
    '.vscode/settings.json': JSON.stringify({ 'slotwright.workspaceFindings': false }),
  });
  page = bench.page;
});

afterAll(() => bench?.close());

secondTriesBeginAnew(
  () => bench,
  () => showLayout('winch.winding'),
);

const bars = () => panelFrame(page).locator('[data-bar]');
const notice = () => panelFrame(page).locator('#panel-notice');
const squiggles = () => page.locator('.monaco-editor .squiggly-error');
const layoutTab = () => page.locator('.tab').filter({ hasText: 'Layout of winch.winding' });
const layoutButton = () => page.locator('.editor-actions a[aria-label*="Show Layout Panel"]');

/** Waits until a line on the screen reads as the pattern says. */
async function lineReading(pattern: RegExp): Promise<void> {
  await page.waitForFunction((source) => {
    const lines = [...document.querySelectorAll('.editor-instance .view-line')];
    return lines.some((line) => new RegExp(source).test((line.textContent ?? '').replaceAll('\u00a0', ' ')));
  }, pattern.source);
}

/** Where the large parts of the panel's page stand, and what of the drawing is seen. */
function places(): Promise<readonly string[]> {
  return panelFrame(page)
    .locator('body')
    .evaluate((body) => [
      ...['panel-tabs', 'panel-tools', 'panel-area', 'panel-lower'].map((id) => {
        const { x, y, width, height } = document.getElementById(id)!.getBoundingClientRect();
        return `${id} ${x} ${y} ${width} ${height}`;
      }),
      body.querySelector('#panel-drawing svg')?.getAttribute('viewBox') ?? '',
    ]);
}

async function showLayout(name: string): Promise<void> {
  await openFile(page, name);
  await layoutButton().click();
  await bars().first().waitFor({ state: 'attached' });
}

describe('the main job in a real editor', () => {
  test('the button above a winding text shows its drawing beside it', async () => {
    await showLayout('winch.winding');
    // What is in sight comes first, the rest in pauses behind it.
    await expect.poll(() => bars().count()).toBe(winchBars);
    const names = await bars().evaluateAll((elements) =>
      elements.map((element) => element.getAttribute('data-bar')),
    );
    expect(new Set(names).size).toBe(winchBars);
    await expectText('title', 'Lock-gate winch, trial');
    expect(await panelFrame(page).locator('#panel-factors tbody tr').count()).toBeGreaterThan(0);
    expect(await squiggles().count()).toBe(0);
  });

  test('an example opened beside it turns the panel to that example, and back', async () => {
    await openFile(page, 'tidal-pump.winding');
    await expectText('title', 'Tidal pump, tooth coils');
    await expect.poll(() => bars().count()).toBe(tidalPumpBars);
    await page.screenshot({ path: join(pictures, 'example.png') });
    await openFile(page, 'winch.winding');
    await expectText('title', 'Lock-gate winch, trial');
  });

  test('a file opened while the panel has the focus joins the texts, and the panel stays in sight', async () => {
    const panelGroup = page.locator('.editor-group-container').filter({ has: layoutTab() });
    await panelFrame(page).locator('#panel-area').click();
    await page.locator('.editor-group-container.active').filter({ has: layoutTab() }).waitFor();
    await openFile(page, 'tidal-pump.winding');
    await page.locator('.tab').filter({ hasText: 'Layout of tidal-pump.winding' }).waitFor();
    expect(await page.locator('.tab[data-resource-name="tidal-pump.winding"]').count()).toBe(1);
    expect(await page.locator('.editor-group-container').count()).toBe(2);
    expect(await panelFrame(page).locator('#panel-area').isVisible()).toBe(true);
    await openFile(page, 'winch.winding');
    await layoutTab().waitFor();
    expect(await panelGroup.locator('.tab').count()).toBe(1);
  });

  test('every keystroke reaches the drawing', async () => {
    await typedInTitle();
    await undoneTo('Lock-gate winch, trial');
  });

  test('an error shows a squiggle, a problem and an out-of-date drawing; undo takes all three away', async () => {
    await expect.poll(() => bars().count()).toBe(winchBars);
    const before = await places();
    await brokenAtEnd();
    await squiggles().first().waitFor();
    await expectText('stamp', 'Out of date');
    // The notice and its stamp lie over the page: nothing moves for them.
    expect(await places()).toEqual(before);
    expect(await bars().count()).toBe(winchBars);
    await runCommand(page, 'Focus on Problems View');
    const problem = page
      .locator('.markers-panel .monaco-list-row[aria-label^="Error"]')
      .filter({ hasText: 'slotwright' });
    await problem.first().waitFor();
    await page.screenshot({ path: join(pictures, 'broken.png') });

    await mended();
    await squiggles().first().waitFor({ state: 'detached' });
    await problem.first().waitFor({ state: 'detached' });
    await runCommand(page, 'View: Hide Panel');
  });

  test('the place named in the notice is one click away', async () => {
    await brokenAtEnd();
    await goToPlace(page, 1, 1);
    await leadToLine(page, notice().locator('button').first(), winch.split('\n').length);
    await mended();
  });

  test('zoom and pan survive an edit', async () => {
    const viewBox = () => panelFrame(page).locator('#panel-drawing svg').first().getAttribute('viewBox');
    const whole = await viewBox();
    await panelFrame(page).locator('#panel-zoom-in').click();
    await expect.poll(viewBox).not.toBe(whole);
    const zoomed = await viewBox();
    await panelFrame(page).locator('#panel-area').press('ArrowRight');
    await expect.poll(viewBox).not.toBe(zoomed);
    const chosen = await viewBox();
    await typedInTitle();
    expect(await viewBox()).toBe(chosen);
    await panelFrame(page).locator('#panel-area').press('0');
    await expect.poll(viewBox).toBe(whole);
    await undoneTo('Lock-gate winch, trial');
  });

  test('the wheel zooms, with Ctrl never more than without', async () => {
    const area = panelFrame(page).locator('#panel-area');
    const width = async () => {
      const box = await panelFrame(page).locator('#panel-drawing svg').first().getAttribute('viewBox');
      return Number(box!.split(' ')[2]);
    };
    const fitted = await width();
    const turned = async (by: number) => {
      await page.mouse.wheel(0, by);
      await expect.poll(width).not.toBe(fitted);
      const factor = fitted / (await width());
      await area.press('0');
      await expect.poll(width).toBe(fitted);
      return factor;
    };
    await area.hover();
    const plain = await turned(-100);
    expect(plain).toBeGreaterThan(1.1);
    await page.keyboard.down('Control');
    await page.mouse.wheel(0, -100);
    await page.keyboard.up('Control');
    await expect.poll(width).not.toBe(fitted);
    expect(fitted / (await width())).toBeLessThanOrEqual(plain * 1.001);
    await area.press('0');
    await expect.poll(width).toBe(fitted);
  });

  test('the editor formats the document', async () => {
    await goToPlace(page, 1, 1);
    await lineReading(/^ {6}layers {3}2$/);
    await runCommand(page, 'Format Document', () => focusText(page));
    await lineReading(/^ {2}layers +2$/);
    await lineReading(/# kept by the formatter$/);
  });

  test('a reloaded window brings the panel back', async () => {
    await runCommand(page, 'File: Save');
    await page.locator('.tab.dirty').first().waitFor({ state: 'detached' });
    await reloadWindow(page);
    await layoutTab().waitFor();
    await bars().first().waitFor({ state: 'attached' });
    await expect.poll(() => bars().count()).toBe(winchBars);
    await panelFrame(page).locator('#panel-waiting').waitFor({ state: 'hidden' });
    expect(bench.complaints.filter((text) => /Content Security Policy|Refused to/i.test(text))).toEqual([]);
  });
});

const reading = (name: string, text: string) =>
  panelFrame(page).locator(`#panel-${name}:text-is(${JSON.stringify(text)})`);

/** Waits until a part of the panel has exactly this text. */
async function expectText(name: string, text: string): Promise<void> {
  await reading(name, text).waitFor();
}

/** Types a word into the title, and waits until the panel has it. */
async function typedInTitle(): Promise<void> {
  await goToWords(page, winch, 'Lock-gate');
  await inText(
    page,
    () => page.keyboard.type('Old'),
    () => reading('title', 'OldLock-gate winch, trial').isVisible(),
  );
}

/** Undoes one step, after which the panel has this title. */
function undoneTo(title: string): Promise<void> {
  return undo(page, reading('title', title));
}

/** Types what is no word behind the text, and waits until the panel says so. */
function brokenAtEnd(): Promise<void> {
  return inText(
    page,
    async () => {
      await page.keyboard.press('Control+End');
      await page.keyboard.type('@');
    },
    () => notice().isVisible(),
  );
}

/** Takes that back by one undo, and waits until the panel says nothing of it. */
function mended(): Promise<void> {
  return inText(
    page,
    () => page.keyboard.press('Control+z'),
    () => notice().isHidden(),
  );
}
