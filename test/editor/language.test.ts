import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { root } from '../../scripts/shell.mjs';
import { focusText, openFile, openFixes, openWorkbench, runCommand, type Workbench } from './workbench.ts';

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
  });
  page = bench.page;
  await openFile(page, 'gate.winding');
});

afterAll(() => bench?.close());

const line = (words: string) =>
  page.locator('.editor-instance .view-line').filter({ hasText: words }).first();

/** Puts the cursor to where `text` stands in the gate. */
async function goTo(text: string): Promise<void> {
  const before = gate.slice(0, gate.indexOf(text)).split('\n');
  await focusText(page);
  await page.keyboard.press('Control+G');
  const box = page.locator('.quick-input-widget input.input');
  await box.fill(`:${before.length}:${before.at(-1)!.length + 1}`);
  await page.keyboard.press('Enter');
  await page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
  const at = `Ln ${before.length}, Col ${before.at(-1)!.length + 1}`;
  await page.locator('.statusbar-item', { hasText: at }).waitFor();
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
  await page.keyboard.press('F12');
  const row = gate.slice(0, gate.indexOf('+U')).split('\n').length;
  await page.locator('.statusbar-item', { hasText: `Ln ${row}, Col` }).waitFor();
});

test('the path at the cursor tells where it has come to', async () => {
  await goTo('U 1 from');
  await line('→ 10b').waitFor();
});

test('a number tells what one step of it would give', async () => {
  await goTo('4\n  phases');
  await page.keyboard.press('Control+K');
  await page.keyboard.press('Control+I');
  const hover = page.locator('.monaco-hover:visible').filter({ hasText: 'one step' });
  await hover.getByText('winding-factor').first().waitFor();
  await page.keyboard.press('Escape');
});

test('a missing block is added by its quick fix, with its values to be filled in', async () => {
  await openFile(page, 'head.winding');
  await focusText(page);
  await page.keyboard.press('Control+Home');
  await page.locator('.editor-instance .squiggly-error').first().waitFor();
  await page.keyboard.press('F8');
  await page.locator('.statusbar-item', { hasText: 'Ln 3, Col' }).waitFor();
  await page.keyboard.press('Escape');
  // The mouse is kept out while the list opens; its first entry has the focus.
  await openFixes(page, "Add 'layers 2', 'span 3'");
  await page.keyboard.press('Enter');
  await line('span 3').waitFor();
  await line('layers 2').waitFor();
});

test('the language reference opens formatted', async () => {
  await runCommand(page, 'Slotwright: Language Reference');
  await page.locator('.tab', { hasText: 'language.md' }).waitFor();
  expect(bench.complaints.filter((words) => /slotwright/i.test(words))).toEqual([]);
});
