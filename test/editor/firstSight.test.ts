import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type PanelView, panelViews } from '../../extension/protocol/wish.ts';
import { root } from '../../scripts/shell.mjs';
import { accessibilityProblems } from './accessibility.ts';
import { axeProblems } from './axe.ts';
import { secondTriesBeginAnew } from './secondTry.ts';
import {
  leadToLine,
  openFile,
  openWorkbench,
  panelFrame,
  pick,
  runCommand,
  type Workbench,
} from './workbench.ts';

// What a reader sees before anything is done: at 1280 x 800 with the text beside the panel and the files at the left.

const pictures = join(root, 'out/screenshots/first-sight');
/** The views of every winding: variants are those of a text that asks for them. */
const views = panelViews.filter((view) => view !== 'variants');

/** A winding that fails one of its limits. */
const failing = `winding "Sluice winch, trial"

machine {
  slots  12
  poles  2
  phases 3
}

layout {
  layers 2
  span   5
}

require {
  winding-factor       >= 0.99
  differential-leakage <= 90 %
}
`;

/** A small winding that every view has something to show of. */
const whole = `winding "Dredge winch, trial"

machine {
  slots 12
  poles 2
  phases 3
  bore 60 mm
  stack 50 mm
  air-gap 0.8 mm
  speed 1500 rpm
  flux 2 mWb
  current 60 A
  winding-temperature 100 degC
  end-temperature 80 degC
}

slot {
  width 6 mm
  depth 9 mm
  opening 1.5 mm
  opening-height 0.8 mm
  liner 0.25 mm
  side-conductance 40 W/(m K)
}

bar {
  width 4 mm
  height 3 mm
  coating 0.1 mm
  metal copper
  end-straight 6 mm
  end-clearance 0.6 mm
  joint-straight 8 mm
}

layout {
  layers 2
  span 5
}

connect {
  star
}

require {
  winding-factor >= 0.9
}
`;

let bench: Workbench;
let page: Page;

beforeAll(async () => {
  mkdirSync(pictures, { recursive: true });
  bench = await openWorkbench({ 'failing.winding': failing, 'whole.winding': whole });
  page = bench.page;
  await begin();
});

afterAll(() => bench?.close());

secondTriesBeginAnew(() => bench, begin);

const panel = () => panelFrame(page);
const part = (name: string) => panel().locator(`#panel-${name}`);

async function begin(): Promise<void> {
  await page.setViewportSize({ width: 1280, height: 800 });
  await show('harbor-ferry-pod-drive.winding');
}

async function show(file: string): Promise<void> {
  await openFile(page, file);
  await page.locator('.editor-actions a[aria-label*="Show Layout Panel"]').click();
  await page
    .locator('.tab')
    .filter({ hasText: `Layout of ${file}` })
    .waitFor();
  await part('tabs').waitFor();
  await turnTo('layout');
  await panel().locator('#panel-area:not(.blank) [data-bar]').first().waitFor({ state: 'attached' });
  await page.mouse.move(200, 700);
}

/** The line of the example on which a word first stands, from 1. */
function lineOf(word: string): number {
  const text = readFileSync(join(root, 'examples/harbor-ferry-pod-drive.winding'), 'utf8');
  return text.slice(0, text.indexOf(word)).split('\n').length;
}

/** Turns to a view, whether its tab stands in the row or in the menu, and waits until it is drawn for its room. */
async function turnTo(view: PanelView): Promise<void> {
  const tab = part(`tab-${view}`);
  if (await tab.isVisible()) await tab.click();
  else {
    await part('more-open').click();
    const name = await tab.textContent();
    await part('more-list')
      .getByRole('menuitem', { name: name ?? '', exact: true })
      .click();
  }
  await panel().locator(`#panel-tab-${view}[aria-selected="true"]`).waitFor();
  await panel().locator(`main[data-view="${view}"]`).waitFor();
  if (view === 'tables') await part('table').locator('tbody tr').first().waitFor();
  else if (view === 'space') await resting();
  else await settled();
}

interface Seen {
  /** Smallest text that is shown, in pixels, and how many texts there are. */
  readonly smallest: number;
  readonly texts: number;
  /** The drawing within its area: shares of the area's width and height. */
  readonly wide: number;
  readonly high: number;
  /** Parts of the page that are cut: their ids. */
  readonly cut: readonly string[];
}

/** What is seen of the page, in its own measures. */
function seen(): Promise<Seen> {
  return panel()
    .locator('body')
    .evaluate((body) => {
      const shown = (element: Element) => element.getClientRects().length > 0;
      const sizes: number[] = [];
      for (const text of body.querySelectorAll<SVGTextElement>('#panel-drawing text')) {
        if (!shown(text)) continue;
        const matrix = text.getScreenCTM()!;
        sizes.push(Number.parseFloat(getComputedStyle(text).fontSize) * Math.hypot(matrix.a, matrix.b));
      }
      const words = [...body.querySelectorAll<HTMLElement>('*')].filter(
        (element) =>
          !(element instanceof SVGElement) &&
          !element.closest('.unseen') &&
          shown(element) &&
          [...element.childNodes].some((node) => node.nodeType === 3 && node.nodeValue?.trim()),
      );
      for (const element of words) sizes.push(Number.parseFloat(getComputedStyle(element).fontSize));
      const area = document.getElementById('panel-area')!.getBoundingClientRect();
      const box = document.querySelector<SVGSVGElement>('#panel-drawing svg')?.getBBox();
      const scale = document.querySelector<SVGSVGElement>('#panel-drawing svg')?.getScreenCTM()?.a ?? 0;
      // Whatever is neither made to scroll nor wrapped, and holds more than it shows.
      const cut = words
        .filter((element) => element.scrollWidth > element.clientWidth + 1 && element.clientWidth > 0)
        .filter((element) => getComputedStyle(element).overflowX !== 'visible')
        .map((element) => element.id || element.outerHTML.slice(0, 80));
      // Everything that can be pressed lies within the page, but for what scrolls.
      for (const button of body.querySelectorAll<HTMLElement>(
        'header button, #panel-head button, #panel-tools *',
      )) {
        const { left, right, width, height } = button.getBoundingClientRect();
        if (width > 1 && (left < 0 || right > window.innerWidth)) cut.push(button.id);
        // Words that have no room stand one letter above another.
        if (button.matches('button') && height > 70)
          cut.push(`${button.id}, ${Math.round(height)} pixels high,`);
      }
      const wider = document.documentElement.scrollWidth > window.innerWidth ? ['the page'] : [];
      return {
        smallest: Math.min(...sizes),
        texts: sizes.length,
        wide: Math.min(1, ((box?.width ?? 0) * scale) / area.width),
        high: Math.min(1, ((box?.height ?? 0) * scale) / area.height),
        cut: [...cut, ...wider],
      };
    });
}

/** Waits until the bars in space are drawn, and stay as they are for many frames: they are drawn on demand. */
async function resting(): Promise<void> {
  await panel().locator('#panel-live[data-frames]:not([hidden])').waitFor();
  const still = await part('live').evaluate(async ({ dataset }) => {
    let [before, same] = ['', 0];
    for (let look = 0; look < 600 && same < 30; look++) {
      await new Promise(requestAnimationFrame);
      same = dataset.frames === before ? same + 1 : 0;
      before = dataset.frames ?? '';
    }
    return same;
  });
  expect(still).toBe(30);
}

/** Waits until the drawing has the room that its area has: two looks, a moment apart, see the same. */
async function settled(): Promise<void> {
  let before = '';
  for (;;) {
    const present = await part('drawing').evaluate(
      (drawing) =>
        `${document.querySelector('main')?.dataset.view} ${drawing.querySelector('svg')?.getAttribute('viewBox')} ${drawing.querySelectorAll('text').length} ${drawing.querySelector('svg')?.getAttribute('width')}`,
    );
    if (present === before) return;
    before = present;
    await page.waitForTimeout(120);
  }
}

/** What is wrong with a view at first sight: its smallest text, what is cut. */
async function troubles(): Promise<readonly string[]> {
  const { smallest, cut } = await seen();
  return [...(smallest >= 9 ? [] : [`text of ${smallest} pixels`]), ...cut.map((id) => `${id} is cut`)];
}

/** Makes the panel so many pixels wide, by the border between the two groups. */
async function widen(width: number): Promise<void> {
  const box = (await page.locator('.editor-group-container').nth(1).boundingBox())!;
  await page.mouse.move(box.x, 400);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width - width, 400, { steps: 4 });
  await page.mouse.up();
  await page.mouse.move(200, 700);
  await expect
    .poll(() =>
      panel()
        .locator('body')
        .evaluate(() => innerWidth),
    )
    .toBe(width);
}

describe('at first sight', () => {
  for (const view of views)
    test(`${view}: no text is below 9 pixels, nothing is cut, the place is used`, async () => {
      await turnTo(view);
      await expect.poll(troubles).toEqual([]);
      await expect.poll(() => seen().then(({ texts }) => texts)).toBeGreaterThan(40);
      // Where the bars in space are live, they have all of their area.
      if (view === 'tables' || view === 'space') return;
      const used = async () => {
        const { wide, high } = await seen();
        return wide > 0.9 && high > 0.85;
      };
      await expect.poll(used).toBe(true);
    });

  test('the bars in space are turned by keys, lit, found and taken apart', async () => {
    await turnTo('space');
    const live = part('live');
    const frames = () => live.evaluate(({ dataset }) => Number(dataset.frames));
    const triangles = () => live.evaluate(({ dataset }) => Number(dataset.triangles));
    const [first, whole] = [await frames(), await triangles()];
    await live.press('ArrowLeft');
    await expect.poll(frames).toBeGreaterThan(first);
    await resting();
    await live.press('Control+f');
    await part('search').fill('7b');
    await part('search').press('Enter');
    await part('chosen').filter({ hasText: '7b' }).waitFor();
    await part('search-close').click();
    await resting();
    const opened = part('opened');
    await opened.fill('3');
    await part('opened-value').filter({ hasText: 'Layers a to a' }).waitFor();
    await expect.poll(triangles).toBeLessThan(whole / 2);
    await opened.fill('0');
    await live.press('Escape');
    await live.press('Escape');
    await live.press('0');
    await resting();
  });

  test('tabs that find room are all in the row, and there is no menu then', async () => {
    await page.setViewportSize({ width: 1920, height: 1080 });
    await part('more-open').waitFor({ state: 'hidden' });
    for (const view of views) expect(await part(`tab-${view}`).isVisible()).toBe(true);
    await page.setViewportSize({ width: 1280, height: 800 });
    await part('more-open').waitFor();
    await settled();
  });

  test('the top names winding, findings and limits; each leads to its line', async () => {
    await turnTo('layout');
    await part('title').filter({ hasText: 'Harbor ferry pod drive, stator B' }).waitFor();
    expect(await part('errors').textContent()).toBe('0 errors');
    expect(await part('warnings').textContent()).toBe('1 warning');
    expect(await part('standing').textContent()).toMatch(
      /^12 of 12 limits hold; nearest: \S.*, \+[\d.]+\s%$/,
    );
    await part('standing').locator('button').click();
    await part('limits').locator('tbody tr').first().waitFor();
    const row = part('limits').locator('tbody tr').filter({ hasText: 'slot-fill' });
    await leadToLine(page, row.locator('button'), lineOf('slot-fill'));
    await part('warnings').click();
    await part('findings').locator('li.warning').first().waitFor();
    await page.locator(`a[aria-label^="Ln ${lineOf('slot-fill')}, Col"]`).waitFor({ state: 'detached' });
  });

  test('a word does not stand close behind the number of the column before it', async () => {
    await turnTo('tables');
    await part('table-choice').selectOption('joints');
    const gaps = () =>
      part('table').evaluate((table) =>
        [...table.querySelectorAll<HTMLElement>('.number + :not(.number)')].map(
          (cell) =>
            Number.parseFloat(getComputedStyle(cell).paddingLeft) +
            Number.parseFloat(getComputedStyle(cell.previousElementSibling!).paddingRight),
        ),
      );
    await expect.poll(() => gaps().then(({ length }) => length)).toBeGreaterThan(10);
    expect(Math.min(...(await gaps()))).toBeGreaterThanOrEqual(20);
    await part('table-choice').selectOption('slots');
    const sense = part('table').getByRole('img', { name: 'back to the connection side' });
    await expect.poll(() => sense.first().textContent()).toBe('\u2212');
  });

  test('the overview strip moves the drawing, by pointer and by key', async () => {
    await turnTo('layout');
    const left = () => part('area').evaluate((area) => area.scrollLeft);
    expect(await left()).toBe(0);
    const strip = (await part('overview').boundingBox())!;
    await page.mouse.click(strip.x + strip.width / 2, strip.y + strip.height / 2);
    await expect.poll(left).toBeGreaterThan(300);
    const middle = await left();
    await part('overview').press('ArrowRight');
    await expect.poll(left).toBeGreaterThan(middle);
    await part('overview').press('Home');
    await expect.poll(left).toBe(0);
    const mark = (await part('overview-part').boundingBox())!;
    await page.mouse.move(mark.x + mark.width / 2, mark.y + 10);
    await page.mouse.down();
    await page.mouse.move(strip.x + strip.width - 4, mark.y + 10, { steps: 4 });
    await page.mouse.up();
    await expect.poll(() => part('overview').getAttribute('aria-valuenow')).toBe('100');
    await part('area').press('0');
    await expect.poll(left).toBe(0);
  });

  test('a bar chosen in a table is brought into sight in the drawing', async () => {
    await turnTo('tables');
    await part('table-choice').selectOption('bars');
    await part('table').locator('tbody tr').filter({ hasText: /^40b/ }).locator('button').click();
    await part('chosen')
      .filter({ hasText: /^40b: / })
      .waitFor();
    await turnTo('layout');
    await panel().locator('[data-bar="40b"].lit.chosen').waitFor({ state: 'attached' });
    const inSight = () =>
      panel()
        .locator('[data-bar="40b"]')
        .evaluate((bar) => {
          const [box, area] = [bar, document.getElementById('panel-area')!].map((each) =>
            each.getBoundingClientRect(),
          ) as [DOMRect, DOMRect];
          return box.left >= area.left && box.right <= area.right;
        });
    await expect.poll(inSight).toBe(true);
    await part('area').press('Control+f');
    await part('search').fill('2a');
    await part('search').press('Enter');
    await part('chosen').filter({ hasText: /^2a: / }).waitFor();
    await part('search').press('Escape');
    await part('area').press('0');
  });

  test('the divider is moved by key, and its place comes back with the window', async () => {
    const height = () => part('lower').evaluate((lower) => lower.clientHeight);
    const before = await height();
    await part('divider').press('ArrowUp');
    await part('divider').press('ArrowUp');
    await expect.poll(height).toBeGreaterThan(before + 20);
    const moved = await height();
    await part('divider').dblclick();
    await expect.poll(height).toBe(before);
    await part('divider').press('ArrowUp');
    await part('divider').press('ArrowUp');
    await expect.poll(height).toBe(moved);
    await part('divider').dblclick();
  });

  test('400 pixels wide, every view is reached, legible and uncut', async () => {
    await widen(400);
    for (const view of views) {
      await turnTo(view);
      await expect.poll(troubles, { message: view }).toEqual([]);
      await page.screenshot({ path: join(pictures, `narrow-${view}.png`) });
    }
  });

  test('400 pixels wide, no list and no table of figures is wider than its place', async () => {
    await widen(400);
    for (const pane of ['figures', 'waves', 'limits', 'findings', 'changes', 'notes']) {
      await part(`pane-tab-${pane}`).click();
      const wider = () =>
        part(`pane-${pane}`).evaluate(({ scrollWidth, clientWidth }) => scrollWidth - clientWidth);
      await expect.poll(wider, { message: pane }).toBeLessThanOrEqual(1);
    }
    await part('pane-tab-figures').click();
  });

  test('in a panel of half a window and of 400 pixels the waves of a skewed winding fit, too', async () => {
    await show('cable-ferry-drum.winding');
    await part('pane-tab-waves').click();
    await panel().locator('#panel-factors:not(.unskewed)').waitFor();
    const wider = () => part('pane-waves').evaluate((pane) => pane.scrollWidth - pane.clientWidth);
    for (const width of [465, 400]) {
      await widen(width);
      await expect.poll(wider, { message: String(width) }).toBeLessThanOrEqual(1);
    }
    await part('pane-tab-figures').click();
  });

  test('400 pixels wide, the menu of views lies over an open search', async () => {
    await widen(400);
    await turnTo('layout');
    await part('search-open').click();
    await part('search').fill('99z');
    await part('search').press('Enter');
    await part('search-result').filter({ hasText: /\S/ }).waitFor();
    await part('more-open').click();
    const covered = await part('more-list').evaluate((menu) =>
      [...menu.children]
        .filter((item) => {
          const { left, top, width, height } = item.getBoundingClientRect();
          return document.elementFromPoint(left + width / 2, top + height / 2) !== item;
        })
        .map(({ textContent }) => textContent),
    );
    expect(covered).toEqual([]);
    await page.keyboard.press('Escape');
    await part('search-close').click();
  });

  test('the bars in space of the next text are turned by keys, too', async () => {
    await turnTo('space');
    await show('whole.winding');
    await turnTo('space');
    const frames = () => part('live').evaluate(({ dataset }) => Number(dataset.frames));
    const before = await frames();
    await part('live').press('ArrowLeft');
    await expect.poll(frames).toBeGreaterThan(before);
  });

  test('every view and every pane of figures passes the rules of axe', async () => {
    await show('whole.winding');
    for (const view of views) {
      await turnTo(view);
      // From its beginning: a row that is half under the head of its table is no target too small.
      await panel()
        .locator('body')
        .evaluate((body) => {
          for (const part of body.querySelectorAll('*')) part.scrollTop = 0;
        });
      expect(await axeProblems(panel()), view).toEqual([]);
    }
    const panes = part('lower-tabs').getByRole('tab');
    for (const pane of await panes.all()) {
      await pane.click();
      expect(await axeProblems(panel(), '#panel-lower'), (await pane.textContent()) ?? '').toEqual([]);
    }
    await panes.first().click();
  });

  test('a copied picture is the whole drawing, on white, in its colors', async () => {
    await show('whole.winding');
    await turnTo('layout');
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    const size = await part('drawing')
      .locator('svg')
      .evaluate((svg) => ['width', 'height'].map((name) => Number.parseFloat(svg.getAttribute(name) ?? '')));
    await part('copy-picture').click();
    await part('done').filter({ hasText: /\S/ }).waitFor();
    const copied = await page.evaluate(async () => {
      const [item] = await navigator.clipboard.read();
      const picture = await createImageBitmap(await item!.getType('image/png'));
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [picture.width, picture.height];
      const context = canvas.getContext('2d')!;
      context.drawImage(picture, 0, 0);
      const { data } = context.getImageData(0, 0, picture.width, picture.height);
      // Where there is ink, in shares of the picture, and how much of it has the colors of the first two phases.
      const ink = { left: 1, right: 0, top: 1, bottom: 0, share: 0, blue: 0, vermilion: 0 };
      const pixels = picture.width * picture.height;
      for (let pixel = 0; pixel < pixels; pixel++) {
        const [red, green, blue, alpha] = data.subarray(4 * pixel, 4 * pixel + 4) as unknown as Quad;
        if (alpha !== 255) throw new Error('The picture is not on white');
        if (red + green + blue > 700) continue;
        const [x, y] = [
          (pixel % picture.width) / picture.width,
          Math.floor(pixel / picture.width) / picture.height,
        ];
        ink.left = Math.min(ink.left, x);
        ink.right = Math.max(ink.right, x);
        ink.top = Math.min(ink.top, y);
        ink.bottom = Math.max(ink.bottom, y);
        ink.share += 1 / pixels;
        if (red < 40 && blue > 140) ink.blue++;
        if (red > 180 && blue < 40) ink.vermilion++;
      }
      return { width: picture.width, height: picture.height, ink };
      type Quad = readonly [number, number, number, number];
    });
    const [width, height] = size as [number, number];
    expect(copied.width / copied.height).toBeCloseTo(width / height, 2);
    expect(copied.width).toBeGreaterThan(1000);
    const { ink } = copied;
    expect(ink.left).toBeLessThan(0.1);
    expect(ink.right).toBeGreaterThan(0.9);
    expect(ink.top).toBeLessThan(0.15);
    expect(ink.bottom).toBeGreaterThan(0.85);
    expect(ink.share).toBeGreaterThan(0.01);
    expect(ink.share).toBeLessThan(0.3);
    expect(Math.min(ink.blue, ink.vermilion)).toBeGreaterThan(1000);
  });

  test('a drawing with errors says so in words', async () => {
    await show('broken-unequal-paths.winding');
    await part('errors')
      .filter({ hasText: /^[1-9]\d* errors?$/ })
      .waitFor();
    await part('stamp')
      .filter({ hasText: /^Not released: [1-9]\d* errors?$/ })
      .waitFor();
  });

  test('a failed limit stands at the top by name, and leads to its line', async () => {
    await show('failing.winding');
    await part('standing')
      .filter({ hasText: /^1 of 2 limits fails: winding-factor = 0\.\d+, \u2212[\d.]+\s%$/ })
      .waitFor();
    const line = failing.slice(0, failing.indexOf('winding-factor')).split('\n').length;
    await leadToLine(page, part('standing').getByRole('button', { name: /^winding-factor/ }), line);
    await part('stamp').filter({ hasText: 'Not released: 1 error' }).waitFor();
  });
});

describe('every view in every kind of theme, in a usual and in a large window', () => {
  const themes = {
    light: ['Light Modern', 'vscode-light'],
    dark: ['Dark Modern', 'vscode-dark'],
    'high-contrast-dark': ['Dark High Contrast', 'vscode-high-contrast'],
    'high-contrast-light': ['Light High Contrast', 'vscode-high-contrast-light'],
  } as const;
  for (const [name, [theme, kind]] of Object.entries(themes))
    test(name, async () => {
      await runCommand(page, 'Preferences: Color Theme');
      // A list shows no more rows than fit the window: it is narrowed first.
      await page.locator('.quick-input-widget input.input').fill(theme);
      await pick(page, theme);
      await panel().locator(`body.${kind}`).waitFor();
      await show('harbor-ferry-pod-drive.winding');
      // Sizes and places are alike in every theme; the large window is tried in one.
      const sizes =
        name === 'light'
          ? ([
              [1280, 800],
              [1920, 1080],
            ] as const)
          : ([[1280, 800]] as const);
      for (const [width, height] of sizes) {
        await page.setViewportSize({ width, height });
        for (const view of views) {
          await turnTo(view);
          const message = `${name} ${width} ${view}`;
          await expect.poll(troubles, { message }).toEqual([]);
          await expect.poll(() => accessibilityProblems(panel()), { message }).toEqual([]);
          await page.screenshot({ path: join(pictures, `${name}-${width}-${view}.png`) });
        }
      }
    });
});
