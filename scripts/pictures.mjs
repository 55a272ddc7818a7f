// Makes the pictures in README.md, all of one example: the editor at work, its bars in space, a sheet of the handover;
// and those of the walkthrough.
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium as browser } from 'playwright-core';
import { runStep as build } from './build.mjs';
import { chromium } from './chromium.mjs';
import { openEditorBrowser } from './editorBrowser.mjs';
import { startEditor } from './editorServer.mjs';
import { capture, HouseError, root } from './shell.mjs';
import { walkthroughPictures } from './walkthrough.mjs';

const example = 'harbor-ferry-pod-drive.winding';
/** The size of a sheet, mm. */
const sheet = { width: 420, height: 297 };

/** Draws a view of the example with the built command line; resolves to its SVG. */
async function drawn(folder, view) {
  const file = join(folder, `${view}.svg`);
  const { code, complaints } = await capture('node', [
    join(root, 'dist/cli/slotwright.js'),
    ...['draw', join(root, 'examples', example), '--view', view, '--output', file],
  ]);
  if (code !== 0) throw new HouseError(`The view ${view} could not be drawn:\n${complaints}`);
  return readFileSync(file, 'utf8').replace(/^<\?xml[^>]*>/, '');
}

/** Writes an SVG as a JPEG so wide, in pixels. */
async function paint(opened, svg, width, target) {
  const page = await opened.newPage({ viewport: { width, height: width } });
  await page.setContent(
    `<style>body{margin:0;background:#fff}svg{display:block;width:${width}px;height:auto}</style>${svg}`,
  );
  const place = page.locator('svg').first();
  await place.screenshot({ path: join(root, target), type: 'jpeg', quality: 60 });
  await page.close();
}

/** The sheet with the bars in space, out of the drawing of all, which stand one below another. */
function sheetWithSpace(svg) {
  const number = /id="part-(\d+)-space-heading"/.exec(svg)?.[1];
  if (number === undefined) throw new HouseError('No sheet shows the bars in space.');
  const top = (Number(number) - 1) * sheet.height;
  return svg.replace(
    /width="[^"]*" height="[^"]*" viewBox="[^"]*"/,
    `width="${sheet.width}mm" height="${sheet.height}mm" viewBox="0 ${top} ${sheet.width} ${sheet.height}"`,
  );
}

/** Opens the example in a real editor with the panel beside it, and takes a picture of the window. */
async function editorAtWork(folder, target) {
  const server = await startEditor({ folder: join(root, 'examples'), port: null });
  const context = await openEditorBrowser(join(folder, 'profile'), { width: 1280, height: 800 });
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    await page.goto(server.address);
    const row = page.locator('.explorer-folders-view .monaco-list-row', { hasText: example });
    await row.dblclick();
    await page.locator(`.monaco-editor[data-uri$="/${example}"] .view-line`).first().click();
    await page.keyboard.press('Control+K');
    await page.keyboard.press('v');
    const panel = page.frameLocator('iframe.webview.ready').frameLocator('#active-frame');
    await panel.locator('svg path').first().waitFor();
    await page.keyboard.press('Control+B');
    // The gestures of a reader are over: what is still moving comes to rest.
    await page.waitForTimeout(3000);
    await page.screenshot({ path: join(root, target), type: 'jpeg', quality: 60 });
  } finally {
    await context.close();
    await server.stop();
  }
}

/** Writes the pictures of the walkthrough. */
export function writeWalkthrough() {
  const folder = join(root, 'media/walkthrough');
  mkdirSync(folder, { recursive: true });
  for (const [name, svg] of Object.entries(walkthroughPictures())) writeFileSync(join(folder, name), svg);
}

/** Builds, draws, and writes the pictures: as JPEG, those of the walkthrough as SVG. */
export async function runStep() {
  writeWalkthrough();
  await build();
  const folder = mkdtempSync(join(tmpdir(), 'slotwright-pictures-'));
  const opened = await browser.launch({ executablePath: await chromium(), args: ['--no-sandbox'] });
  try {
    await paint(opened, await drawn(folder, 'space'), 420, 'media/bars-in-space.jpg');
    await paint(opened, sheetWithSpace(await drawn(folder, 'sheet')), 1000, 'media/sheet.jpg');
    await editorAtWork(folder, 'media/editor.jpg');
  } finally {
    await opened.close();
    rmSync(folder, { recursive: true });
  }
  console.log('Wrote media/bars-in-space.jpg, media/sheet.jpg and media/editor.jpg.');
}
