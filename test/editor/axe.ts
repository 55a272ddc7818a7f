import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { FrameLocator } from 'playwright-core';

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
