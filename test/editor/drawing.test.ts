import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { root } from '../../scripts/shell.mjs';
import { secondTriesBeginAnew } from './secondTry.ts';
import { readsInEveryTheme } from './themes.ts';
import {
  goToWords,
  inText,
  openFile,
  openWorkbench,
  panelFrame,
  runCommand,
  undo,
  type Workbench,
} from './workbench.ts';

const gate = `winding "Lock gate winch, by hand"
machine { slots 12  poles 4  phases 3 }
layout { layers 2  span 3 }
connect {
  star
  path U 1 from U1 1a +3b +3a +3b to N
  path U 2 from U1 7b -3a -3b -3a to N # by hand
  repeat U as V shift 2
  repeat U as W shift 4
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
/** Pixels from the lower edge of an element to that of the pane it stands in. */
const roomBelow = async (...elements: readonly [Locator, Locator]) => {
  const [element, pane] = await Promise.all(elements.map((each) => each.boundingBox()));
  return pane!.y + pane!.height - (element!.y + element!.height);
};
const text = () => page.locator('.editor-instance .monaco-editor[data-uri$="/gate.winding"] .view-lines');
const words = (some: string) => part('hand-words').filter({ hasText: some }).waitFor();

test('a path is drawn by keys alone, written as one edit, and one undo takes it back', async () => {
  await openFile(page, 'gate.winding');
  await runCommand(page, 'Slotwright: Draw a Path by Hand');
  await words('Start of path U 1: Bar 1, layer a; 1 of 4.');
  await page.keyboard.press('Escape');
  await part('chosen').filter({ hasText: 'Nothing was written.' }).waitFor();
  await panelFrame(page).locator('[data-label="7a"]').first().click();
  await part('chosen').filter({ hasText: '7a: phase U, path 1' }).waitFor();
  await page.keyboard.press('d');
  await words('Bar 7, layer a, start of path U 1; 1 of 4.');
  expect(await panelFrame(page).locator('.offer-regular.marked').count()).toBe(1);
  expect(await panelFrame(page).locator('.offer-piece').count()).toBeGreaterThan(0);
  await page.keyboard.press('ArrowRight');
  await words('Bar 10, layer b, regular; 2 of 4.');
  // The joint that was just made is drawn, and stands out.
  await panelFrame(page).locator('[data-joint].lit.phase-0').first().waitFor({ state: 'attached' });
  // What is said of the path is in sight.
  await expect.poll(() => roomBelow(part('hand-lines'), part('hand'))).toBeGreaterThanOrEqual(0);
  await readsInEveryTheme(page, 'draw-path');
  await panelFrame(page).locator('#panel-area').focus();
  await panelFrame(page).locator('[data-label="1a"]').first().click();
  await words('Bar 1, layer a, regular; 3 of 4.');
  await page.keyboard.press('Backspace');
  await words('A step back.');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await words('All bars of U are used');
  await page.keyboard.press('Enter');
  await text().filter({ hasText: 'from U1 7a' }).waitFor();
  await undo(page, text().filter({ hasText: 'from U1 1a' }));
});

test('what is typed is shown against a state that was kept', async () => {
  await part('pane-tab-changes').click();
  await part('keep').click();
  await part('changes-words').filter({ hasText: 'Nothing in bars, joints and key figures' }).waitFor();
  const changed = part('changes-words').filter({ hasText: 'Changed against the state that was kept' });
  await goToWords(page, gate, '7b -3a -3b -3a to N # by hand');
  await inText(
    page,
    async () => {
      await page.keyboard.press('Shift+ArrowRight');
      await page.keyboard.type('1');
    },
    () => changed.isVisible(),
  );
  expect(await panelFrame(page).locator('.change').count()).toBeGreaterThan(0);
  expect(await roomBelow(part('changes-words'), part('pane-changes'))).toBeGreaterThanOrEqual(0);
  // All columns are in sight in a panel of half a window.
  const wider = part('pane-changes').evaluate(({ scrollWidth, clientWidth }) => scrollWidth - clientWidth);
  expect(await wider).toBeLessThanOrEqual(1);
  await readsInEveryTheme(page, 'changes-while-typing');
  await undo(page, text().filter({ hasText: 'from U1 7b' }));
});
