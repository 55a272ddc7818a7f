import { join } from 'node:path';
import { expect } from 'vitest';
import { root } from '../../scripts/shell.mjs';
import { accessibilityProblems } from './accessibility.ts';
import { axeProblems } from './axe.ts';
import { panelFrame, pick, runCommand } from './workbench.ts';

/** Every kind of theme and its class on a page, the usual one last. */
const themes = [
  ['Dark Modern', 'vscode-dark'],
  ['Dark High Contrast', 'vscode-high-contrast'],
  ['Light High Contrast', 'vscode-high-contrast-light'],
  ['Light Modern', 'vscode-light'],
] as const;

/**
 * What the panel shows passes the rules for everyone in every kind of theme, and axe's; leaves a picture of each,
 * named by what is shown.
 */
export async function readsInEveryTheme(
  page: Parameters<typeof runCommand>[0],
  shown: string,
): Promise<void> {
  await page.setViewportSize({ width: 1280, height: 800 });
  for (const [theme, kind] of themes) {
    await runCommand(page, 'Preferences: Color Theme');
    // A list shows no more rows than fit the window: it is narrowed first.
    await page.locator('.quick-input-widget input.input').fill(theme);
    await pick(page, theme);
    await panelFrame(page).locator(`body.${kind}`).waitFor();
    await expect.poll(() => accessibilityProblems(panelFrame(page)), { message: theme }).toEqual([]);
    await page.screenshot({ path: join(root, `out/screenshots/${shown}-${kind}.png`) });
  }
  expect(await axeProblems(panelFrame(page))).toEqual([]);
}
