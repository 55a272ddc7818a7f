import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { root } from '../../scripts/shell.mjs';
import { secondTriesBeginAnew } from './secondTry.ts';
import {
  askUntil,
  comes,
  focusText,
  goToPlace,
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

const gate = `winding "Lock gate"

machine {
  slots  12
  poles  4
  phases 3
}

layout {
  layers 2
  layer a  +U -W +V -U +W -V  repeat 2
  layer b = layer a
}

connect {
  star
  path U 1 from U1 1a (+3b +3a)*1 +3b to N
  path U 2 from U1 1b -3a -3b -3a to N
  repeat U as V shift 2
  repeat U as W shift 4
}

require {
  winding-factor harmonic 1 >= 0.9
}
`;

const pictures = join(root, 'out/screenshots');
let bench: Workbench;
let page: Page;

beforeAll(async () => {
  mkdirSync(pictures, { recursive: true });
  bench = await openWorkbench({
    'gate.winding': gate,
    'head.winding': 'winding "Head"\n\nmachine { slots 12  poles 4  phases 3 }\n',
    'notes.md': 'machine of the yard\n\n```winding\nmachine { slots 12 }\n```\n',
  });
  page = bench.page;
  await openFile(page, 'gate.winding');
});

afterAll(() => bench?.close());

secondTriesBeginAnew(
  () => bench,
  () => openFile(page, 'gate.winding'),
);

const line = (words: string) =>
  page.locator('.editor-instance .view-line').filter({ hasText: words }).first();

/** Puts the cursor to where `text` stands in the gate. */
const goTo = (text: string) => goToWords(page, gate, text);

/** Has the hover at the cursor shown, asking again where it was closed at once, and waits until it says so. */
async function hoverWith(words: string): Promise<Locator> {
  const hover = page.locator('.monaco-hover:visible').filter({ hasText: words }).first();
  const ask = async () => {
    await focusText(page);
    await page.keyboard.press('Control+K');
    await page.keyboard.press('Control+I');
  };
  await askUntil(ask, hover, `No hover says "${words}".`);
  return hover;
}

test('key figures, hints and the verdict stand beside the text', async () => {
  await page.locator('.codelens-decoration', { hasText: '12 slots, 4 poles' }).waitFor();
  await page.locator('.codelens-decoration', { hasText: 'Show on the Drawing' }).first().waitFor();
  await line('1 a pole and phase').waitFor();
  await page.locator('.statusbar-item', { hasText: /^\S* ?Winding: / }).waitFor();
  await page.screenshot({ path: join(pictures, 'language.png') });
});

test('a step leads to its place in the row', async () => {
  await goTo('-3a -3b -3a to N');
  const row = gate.slice(0, gate.indexOf('+U')).split('\n').length;
  const there = page.locator('.statusbar-item', { hasText: `Ln ${row}, Col` });
  await inText(
    page,
    () => page.keyboard.press('F12'),
    () => there.isVisible(),
  );
});

test('the path at the cursor tells where it has come to', async () => {
  await goTo('U 1 from');
  await line('→ 10b').waitFor();
});

test('a number tells what one step of it would give', async () => {
  await goTo('4\n  phases');
  const hover = await hoverWith('one step');
  await hover.getByText('winding-factor').first().waitFor();
  await page.keyboard.press('Escape');
});

test('places of a phase are listed and lit; it is renamed in all of them, and back in one step', async () => {
  await goTo('U 1 from');
  await page
    .locator('.editor-instance .cdr.wordHighlight, .editor-instance .cdr.wordHighlightText')
    .nth(2)
    .waitFor();
  await page.keyboard.press('Shift+F12');
  const peek = page.locator('.peekview-widget');
  await peek.getByText('References', { exact: false }).first().waitFor();
  await page.keyboard.press('Escape');
  await peek.waitFor({ state: 'detached' });
  await goTo('U 1 from');
  const box = page.locator('.rename-box input.rename-input, .rename-box input').first();
  // Asked while colors and findings are still being made the editor may close it again.
  const renamed = async () => {
    await focusText(page);
    await page.keyboard.press('F2');
    if (!(await comes(box.fill('W', { timeout: 5000 })))) return false;
    await page.keyboard.press('Enter');
    return comes(line('path W 1 from W1').waitFor({ timeout: 10_000 }));
  };
  await expect.poll(renamed).toBe(true);
  await line('repeat W as U').waitFor();
  await undo(page, line('path U 1 from U1'));
});

test('a path says at each step what stands there; a bar and a word tell what they are', async () => {
  await goTo(' +3b to N');
  await page.keyboard.press('Control+Shift+Space');
  await page.locator('.parameter-hints-widget.visible').getByText('the next joint lies').waitFor();
  await page.keyboard.press('Escape');
  await goTo('1a (+3b');
  await hoverWith('EMF');
  await page.keyboard.press('Escape');
  await goTo('layers 2');
  const hover = await hoverWith('Language reference');
  await hover.getByRole('link', { name: 'Language reference' }).waitFor();
  await page.keyboard.press('Escape');
});

test('phases are told apart by color, and a winding in Markdown is colored as one', async () => {
  const colorOf = (words: string) =>
    page
      .locator('.editor-instance .view-line span')
      .filter({ hasText: new RegExp(`^${words}$`) })
      .first()
      .evaluate((element) => getComputedStyle(element).color);
  await expect.poll(async () => (await colorOf('\\+U')) !== (await colorOf('\\+V'))).toBe(true);
  await openFile(page, 'notes.md');
  await expect
    .poll(() =>
      page.locator('.editor-instance .view-line').evaluateAll((lines) => {
        const [plain, fenced] = lines
          .filter((each) => each.textContent?.startsWith('machine'))
          .map((each) => getComputedStyle(each.querySelector('span span')!).color);
        return plain !== undefined && fenced !== undefined && plain !== fenced;
      }),
    )
    .toBe(true);
  await openFile(page, 'gate.winding');
});

test('blocks fold, a selection grows to its statement, and a finished line falls into place', async () => {
  await goTo('slots  12');
  await expect.poll(() => line('slots 12').count()).toBe(1);
  await runCommand(page, 'Fold');
  await expect.poll(() => line('slots 12').count()).toBe(0);
  await runCommand(page, 'Unfold All');
  await line('slots').waitFor();
  await goTo('12\n  poles');
  await runCommand(page, 'Expand Selection');
  await runCommand(page, 'Expand Selection');
  await page.locator('.statusbar-item', { hasText: /\(\d+ selected\)/ }).waitFor();
  await goTo('\n  phases');
  await page.keyboard.press('Enter');
  await page.keyboard.type('bore      60 mm', { delay: 5 });
  await page.keyboard.press('Escape');
  await page.keyboard.press('Enter');
  await line('bore   60 mm').waitFor();
  for (let step = 0; step < 20 && (await line('bore').count()) > 0; step++)
    await page.keyboard.press('Control+z');
  await expect.poll(() => line('bore').count()).toBe(0);
});

test('paths are written out by name, and found anew', async () => {
  await goTo('U as V');
  await takeFix(page, 'Write out the copied paths of phase V');
  await line('path V 1 from V1').waitFor();
  await undo(page, line('repeat U as V'));
  await takeFix(page, 'Let the paths be found anew: route paths 2');
  await line('route paths 2').waitFor();
  await undo(page, line('repeat U as V'));
});

test('a line above a path shows it on the drawing', async () => {
  await takeLens(page, 'Show on the Drawing', panelFrame(page).locator('#panel-title'));
  for (const bar of ['1a', '4b', '7a', '10b'])
    await panelFrame(page).locator(`.lit[data-bar="${bar}"]`).first().waitFor({ state: 'attached' });
  await runCommand(page, 'View: Close Editors in Other Groups', () => focusText(page));
});

test('the code of a finding leads to its explanation', async () => {
  await runCommand(page, 'Problems: Focus on Problems View');
  await page.locator('.markers-panel a.monaco-link', { hasText: 'phase-unknown' }).first().click();
  await page.locator('.tab', { hasText: 'phase-unknown.md' }).waitFor();
  await runCommand(page, 'View: Hide Panel');
  await runCommand(page, 'View: Close Editor');
});

test('a missing block is added by its quick fix, with its values to be filled in', async () => {
  await openFile(page, 'head.winding');
  await goToPlace(page, 1, 1);
  await page.locator('.editor-instance .squiggly-error').first().waitFor();
  const there = page.locator('.statusbar-item', { hasText: 'Ln 3, Col' });
  await inText(
    page,
    () => page.keyboard.press('F8'),
    () => there.isVisible(),
  );
  await page.keyboard.press('Escape');
  await takeFix(page, "Add 'layers 2', 'span 3'");
  await line('span 3').waitFor();
  await line('layers 2').waitFor();
});

test.each([
  ['vary', 'rank'],
  ['duty', 'point'],
])('the snippet %s writes a block with its values to be filled in', async (word, written) => {
  await openFile(page, 'head.winding');
  // The word of the block alone is offered, too.
  const offered = page
    .locator('.suggest-widget .monaco-list-row:has(.codicon-symbol-snippet)')
    .filter({ hasText: word })
    .first();
  await inText(
    page,
    async () => {
      await page.keyboard.press('Control+End');
      await page.keyboard.type(word);
    },
    () => offered.isVisible(),
  );
  await offered.click();
  await line(written).waitFor();
  for (let undone = 0; (await line(word).count()) > 0 && undone < 30; undone++) {
    await focusText(page);
    await page.keyboard.press('Control+z');
  }
  await expect.poll(() => line(word).count()).toBe(0);
});

test('the language reference opens formatted', async () => {
  await runCommand(page, 'Slotwright: Language Reference');
  await page.locator('.tab', { hasText: 'language.md' }).waitFor();
  expect(bench.complaints.filter((words) => /slotwright/i.test(words))).toEqual([]);
});
