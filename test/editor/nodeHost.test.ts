import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { root } from '../../scripts/shell.mjs';
import { secondTriesBeginAnew } from './secondTry.ts';
import {
  accept,
  clearNotifications,
  nodePackage,
  notification,
  openFile,
  openWorkbench,
  pick,
  runCommand,
  type Workbench,
} from './workbench.ts';

// What only an editor whose extensions run in Node has: git, and a disk. All other editor tests run there, too.

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

/** "Tidal pump", written from right to left. */
const fromTheRight = 'مضخة المد.winding';

const pictures = join(root, 'out/screenshots');

describe.skipIf(nodePackage === null)('where extensions run in Node (npm run node-host)', () => {
  let bench: Workbench;
  let page: Page;

  beforeAll(async () => {
    mkdirSync(pictures, { recursive: true });
    bench = await openWorkbench(
      { 'gate.winding': gate, [fromTheRight]: gate.replace('Lock gate winch', 'مضخة المد') },
      { prepare: commitAll },
    );
    page = bench.page;
  });

  afterAll(() => bench?.close());

  secondTriesBeginAnew(() => bench);

  /** The panel or comparison that is on the screen. */
  const panel = () => page.frameLocator('iframe.webview:visible').frameLocator('iframe#active-frame');
  const onDisk = (name: string) => join(bench.folder, name);

  test('a path drawn by hand is in the file once it is saved, and is told from the committed one', async () => {
    await openFile(page, 'gate.winding');
    await runCommand(page, 'Slotwright: Show Layout Panel');
    await panel().locator('[data-label="7a"]').first().click();
    await panel().locator('#panel-chosen').filter({ hasText: '7a: phase U, path 1' }).waitFor();
    await page.keyboard.press('d');
    const words = (some: string) => panel().locator('#panel-hand-words').filter({ hasText: some }).waitFor();
    await words('Bar 7, layer a, start of path U 1; 1 of 4.');
    for (let step = 0; step < 3; step++) await page.keyboard.press('ArrowRight');
    await words('All bars of U are used');
    await page.keyboard.press('Enter');
    await page.locator('.editor-instance .view-lines').filter({ hasText: 'from U1 7a' }).first().waitFor();
    await runCommand(page, 'File: Save All Files');
    await expect.poll(() => readFileSync(onDisk('gate.winding'), 'utf8')).toMatch(/path U 1 from U1 7a /);
    await page.locator('.tab.dirty').waitFor({ state: 'detached' });
    await runCommand(page, 'View: Close All Editors');
    await openFile(page, 'gate.winding');
    await runCommand(page, 'Slotwright: Compare with Committed Version...');
    await pick(page, 'HEAD');
    await panel()
      .locator('#panel-headline')
      .filter({ hasText: 'The same layout, connected otherwise.' })
      .waitFor();
    await panel().locator('#panel-drawing-overlay .added-line').first().waitFor({ state: 'attached' });
    await page.screenshot({ path: join(pictures, 'node-committed.png') });
  });

  test('what is typed is told against the committed text', async () => {
    await runCommand(page, 'View: Close All Editors');
    const text = readFileSync(onDisk('gate.winding'), 'utf8');
    if (text === gate)
      writeFileSync(onDisk('gate.winding'), gate.replace('U1 1a +3b +3a +3b', 'U1 7a +3b +3a +3b'));
    await openFile(page, 'gate.winding');
    await runCommand(page, 'Slotwright: Show Layout Panel');
    await runCommand(page, 'Slotwright: Show Changes While Typing...');
    await pick(page, 'The last commit');
    await panel().locator('#panel-changes-words').filter({ hasText: 'Changed against' }).waitFor();
    expect(await panel().locator('.change').count()).toBeGreaterThan(0);
  });

  test('a file whose name is written from right to left is drawn, and its exports bear its name', async () => {
    await openFile(page, fromTheRight);
    await runCommand(page, 'Slotwright: Show Layout Panel');
    await panel().locator('#panel-title').filter({ hasText: 'مضخة المد, by hand' }).waitFor();
    await page.screenshot({ path: join(pictures, 'node-from-the-right.png') });
    await runCommand(page, 'Slotwright: Export Drawing...');
    await pick(page, 'Layout');
    await pick(page, 'DXF');
    await accept(page);
    const name = fromTheRight.replace('.winding', '-layout.dxf');
    await notification(page, `Wrote`);
    await clearNotifications(page);
    await expect.poll(() => existsSync(onDisk(name))).toBe(true);
    expect(readFileSync(onDisk(name), 'utf8')).toContain('AC1021');
  });
});

/** Makes the folder a repository whose only commit holds all of its files. */
function commitAll(folder: string): void {
  const git = (...args: string[]) =>
    execFileSync('git', ['-c', 'user.name=Yard', '-c', 'user.email=yard@example.org', ...args], {
      cwd: folder,
    });
  git('init', '-q', '-b', 'main');
  git('add', '.');
  git('commit', '-q', '-m', 'All windings of the yard');
}
