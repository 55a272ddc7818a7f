import { readFileSync } from 'node:fs';
import { chromium } from 'playwright-core';
import type { Picture } from '../../core/picture/picture.ts';
import { study } from '../../core/study.ts';
import type { RedrawTime } from './panelPage.ts';

/** Two pictures to draw by turns, in a browser. */
export interface Redraw {
  readonly what: string;
  readonly pictures: readonly [Picture, Picture];
}

function layout(slots: number, poles: number, title = 'Bench'): Picture {
  const text = `winding "${title}"\nmachine { slots ${slots} poles ${poles} phases 3 }\nlayout { layers 4 span ${slots / poles} }\nconnect { star }\n`;
  return study(text).layoutPicture()!;
}

/** A keystroke in the title, and one that gives every bar another phase, place or path. */
export function redraws(slots: number): readonly Redraw[] {
  const poles = slots / 6;
  return [
    { what: 'a letter of the title', pictures: [layout(slots, poles), layout(slots, poles, 'Bench!')] },
    { what: 'every bar', pictures: [layout(slots, poles), layout(slots, poles / 2)] },
  ];
}

/** The area of a large panel, in pixels. */
const area = { width: 1500, height: 900 };

/**
 * Medians of each redraw on the panel's page, in the browser at `executable`, as the panel opens a layout or with all of
 * it in view.
 */
export async function redrawTimes(
  executable: string,
  list: readonly Redraw[],
  times: number,
  opening: 'height' | 'whole',
): Promise<readonly RedrawTime[]> {
  const browser = await chromium.launch({
    executablePath: executable,
    args: ['--no-sandbox', '--disable-gpu'],
  });
  try {
    const page = await browser.newPage({ viewport: area });
    await page.addStyleTag({ content: readFileSync('extension/webview/styles/picture.css', 'utf8') });
    await page.addScriptTag({ content: readFileSync('out/benchPage.js', 'utf8') });
    const medians: RedrawTime[] = [];
    for (const { pictures } of list) {
      const spent = await page.evaluate(([both, count, size, how]) => window.redraw(both, count, size, how), [
        pictures,
        times,
        area,
        opening,
      ] as const);
      const steady = spent.slice(Math.ceil(times / 3));
      medians.push({
        inView: median(steady.map(({ inView }) => inView)),
        all: median(steady.map(({ all }) => all)),
      });
    }
    return medians;
  } finally {
    await browser.close();
  }
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1]!;
}
