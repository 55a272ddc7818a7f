import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { root } from '../../scripts/shell.mjs';

/** The windows of the editor that are open: what a failed test leaves to look at. */
export const openPages = new Set<Page>();

const pictures = join(root, 'out/screenshots');

/** Pictures of the open windows, and in words what stands on them. Never fails, and never takes long. */
export async function tellPages(when: string): Promise<void> {
  mkdirSync(pictures, { recursive: true });
  const name = when.replace(/\W+/g, '-').slice(0, 60);
  for (const [number, page] of [...openPages].flatMap((page) => page.context().pages()).entries()) {
    const path = join(pictures, `failed-${name}-${number + 1}.png`);
    const picture = page.screenshot({ path, timeout: 10_000 }).then(
      () => path,
      () => 'no picture could be taken',
    );
    const words = Promise.all(page.frames().map((frame) => frame.evaluate(onPage).catch(() => '')));
    const late = new Promise<string[]>((resolve) =>
      setTimeout(() => resolve(['the page does not answer']), 10_000).unref(),
    );
    const told = (await Promise.race([words, late])).filter((each) => each !== '');
    console.error(`${when}: ${await picture}\n${told.join('\n')}`);
  }
}

/** Runs in a page or a frame of it: what is open, where the focus is, and what it asks or says. */
function onPage(): string {
  const shown = (selector: string) =>
    [...document.querySelectorAll<HTMLElement>(selector)]
      .filter((element) => element.getClientRects().length > 0)
      .map((element) => (element.textContent ?? '').replace(/\s+/g, ' ').trim().slice(0, 300));
  const parts: Readonly<Record<string, string>> = {
    tabs: '.tab',
    'the active tab': '.editor-group-container.active .tab.active',
    'asked for': '.quick-input-title, .quick-input-message, .quick-input-list .monaco-list-row',
    dialog: '.monaco-dialog-box',
    notifications: '.notification-list-item',
    status: '.statusbar-item.right',
    'the panel': 'body:has(#panel-title) header, #panel-head, #panel-notice, #panel-tabs',
  };
  const lines = Object.entries(parts).flatMap(([name, selector]) => {
    const found = shown(selector);
    return found.length > 0 ? [`  ${name}: ${found.join(' | ')}`] : [];
  });
  const focus = document.activeElement;
  if (lines.length > 0 && focus !== null)
    lines.push(`  the focus: ${focus.tagName.toLowerCase()} ${focus.id} ${focus.className}`);
  return lines.join('\n');
}
