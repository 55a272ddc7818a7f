import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { FrameLocator, Page } from 'playwright-core';

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** The part of axe that is used here. */
interface Axe {
  readonly run: (
    context: unknown,
    options: unknown,
  ) => Promise<{
    readonly violations: readonly {
      readonly id: string;
      readonly help: string;
      readonly nodes: readonly { readonly html: string }[];
    }[];
  }>;
}

/**
 * What axe finds wrong with the page in a panel, or a part of it by its selector, one sentence a violation: all rules of WCAG A and AA and axe's good
 * practices. The parts of a picture are left out; it is one image with a name and a description. `region` is for whole
 * pages, while this one is a part of the editor's; contrast, which takes axe longest, is measured in every theme by
 * `accessibilityProblems`.
 */
export async function axeProblems(panel: FrameLocator, part = 'html'): Promise<readonly string[]> {
  const body = await panel.locator('body').elementHandle();
  const frame = await body?.ownerFrame();
  if (!frame) throw new Error('The panel has no page');
  // As a script of the test's own: the page's policy lets none in by an element.
  if (!(await frame.evaluate(() => 'axe' in window))) await frame.evaluate(source);
  return frame.evaluate(async (include) => {
    const { axe } = window as unknown as { readonly axe: Axe };
    const found = await axe.run(
      { include, exclude: ['.drawing svg > *'] },
      {
        elementRef: false,
        preload: false,
        resultTypes: ['violations'],
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
        rules: { region: { enabled: false }, 'color-contrast': { enabled: false } },
      },
    );
    return found.violations.map(
      ({ id, help, nodes }) => `${id}: ${help}: ${nodes.map(({ html }) => html.slice(0, 160)).join(' ')}`,
    );
  }, part);
}

/** The rules of axe that the editor's own command palette breaks, and so every prompt may. */
const brokenByEditor: readonly string[] = [
  'aria-allowed-attr',
  'aria-progressbar-name',
  'aria-prohibited-attr',
  'label-content-name-mismatch',
];

/**
 * What is wrong with the open prompt that the editor's own command palette does not have too, one sentence each: the
 * rules of axe that it breaks, and choices whose words a screen reader would not say. The prompt stays open.
 */
export async function promptProblems(page: Page): Promise<readonly string[]> {
  const broken = (await brokenRules(page)).filter((rule) => !brokenByEditor.includes(rule));
  const unsaid = await page.locator('.quick-input-widget .monaco-list-row').evaluateAll((rows) =>
    rows.flatMap((row) => {
      const name = row.getAttribute('aria-label') ?? '';
      const told = row.querySelectorAll<HTMLElement>(
        '.label-name, .label-description, .quick-input-list-label-meta',
      );
      // Rows are used again, and keep the words of other lists out of sight.
      const seen = (element: Element) => {
        const { left, top, width, height } = element.getBoundingClientRect();
        const there = document.elementFromPoint(left + width / 2, top + height / 2);
        return width > 0 && height > 0 && element.contains(there);
      };
      return [...told].flatMap((element) =>
        element.textContent && seen(element) && !name.includes(element.textContent)
          ? [`"${element.textContent}" is not said`]
          : [],
      );
    }),
  );
  const titles = await page.locator('.quick-input-widget .quick-input-title').allTextContents();
  return [...broken, ...unsaid, ...(titles.some((title) => title !== '') ? [] : ['it has no title'])];
}

/** The rules that the open prompt of the editor breaks, by their names in axe. */
async function brokenRules(page: Page): Promise<readonly string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(source);
  return page.evaluate(async () => {
    const { axe } = window as unknown as { readonly axe: Axe };
    const found = await axe.run(
      { include: '.quick-input-widget' },
      {
        elementRef: false,
        preload: false,
        resultTypes: ['violations'],
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
        // How dim second lines are is the theme's.
        rules: { region: { enabled: false }, 'color-contrast': { enabled: false } },
      },
    );
    return found.violations.map(({ id }) => id);
  });
}
