// Makes the picture in README.md: the bars in space of the winding that is printed there.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium as browser } from 'playwright-core';
import { runStep as build } from './build.mjs';
import { chromium } from './chromium.mjs';
import { capture, HouseError, root } from './shell.mjs';

const source = 'examples/harbor-ferry-pod-drive.winding';
const target = 'media/bars-in-space.jpg';
const width = 600;

/** Draws the view with the built command line; resolves to its SVG. */
async function drawn(folder) {
  const file = join(folder, 'space.svg');
  const { code, complaints } = await capture('node', [
    join(root, 'dist/cli/slotwright.js'),
    ...['draw', join(root, source), '--view', 'space', '--output', file],
  ]);
  if (code !== 0) throw new HouseError(`The picture could not be drawn:\n${complaints}`);
  return readFileSync(file, 'utf8').replace(/^<\?xml[^>]*>/, '');
}

/** Builds the command line, draws, and writes the picture as JPEG. */
export async function runStep() {
  await build(['cli', 'fileFormats']);
  const folder = mkdtempSync(join(tmpdir(), 'slotwright-picture-'));
  const opened = await browser.launch({ executablePath: await chromium(), args: ['--no-sandbox'] });
  try {
    const page = await opened.newPage({ viewport: { width, height: width } });
    await page.setContent(
      `<style>body{margin:0;background:#fff}svg{display:block;width:${width}px;height:auto}</style>${await drawn(folder)}`,
    );
    await page
      .locator('svg')
      .first()
      .screenshot({ path: join(root, target), type: 'jpeg', quality: 75 });
  } finally {
    await opened.close();
    rmSync(folder, { recursive: true });
  }
  console.log(`Wrote ${target}.`);
}
