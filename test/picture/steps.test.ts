// Takes its time: draws many sheets.

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { connectNow } from '../../core/facts/connection.ts';
import type { Steps } from '../../core/figures/steps.ts';
import { checkText } from '../../core/findings/checkedText.ts';
import { dxfSteps, pictureToDxf, pictureToPdf } from '../../core/picture/fileFormats.ts';
import { leaves } from '../../core/picture/leaves.ts';
import { group, pathShape } from '../../core/picture/make.ts';
import type { Picture } from '../../core/picture/picture.ts';
import { pictureToSvg, svgSteps } from '../../core/picture/svg.ts';
import { sheetPlan, sheets } from '../../core/sheets/sheets.ts';
import { outlineSteps } from '../../core/views/space/visible.ts';
import { drawView, viewSteps } from '../../core/views/views.ts';
import { study } from '../support/study.ts';
import { fontBytes } from './fileFormats.ts';

/** 3000 lines, all of them in one group, as the bars of a large layout are. */
const lines = Array.from({ length: 3000 }, (_, index) =>
  pathShape(`line-${index}`, 'grid', [[0, 0, index, 9]]),
);
const picture: Picture = {
  width: 3000,
  height: 10,
  title: 'Many lines',
  description: 'Many lines',
  items: [group('all', 'frame', lines)],
};

/** What comes of it, and in how many steps. */
function walked<Result>(steps: Steps<Result>): { readonly result: Result; readonly count: number } {
  for (let count = 1; ; count++) {
    const step = steps.next();
    if (step.done) return { result: step.value, count };
  }
}

test('SVG and DXF are written in steps, to the same text as at once', () => {
  const [svg, dxf] = [walked(svgSteps(picture)), walked(dxfSteps(picture))];
  expect(svg.result).toBe(pictureToSvg(picture));
  expect(dxf.result).toBe(pictureToDxf(picture));
  expect(Math.min(svg.count, dxf.count)).toBeGreaterThanOrEqual(4);
});

test('PDF pauses within a page, to the same bytes, and ends where a pause throws', async () => {
  const options = { fontBytes: await fontBytes(), metadata: { title: 'Many lines' } };
  let pauses = 0;
  const pause = async () => {
    pauses++;
  };
  const paused = await pictureToPdf([picture], { ...options, pause });
  expect(pauses).toBeGreaterThanOrEqual(16);
  expect(Buffer.from(paused).equals(Buffer.from(await pictureToPdf([picture], options)))).toBe(true);
  const canceled = pictureToPdf([picture], {
    ...options,
    pause: () => (--pauses > 8 ? Promise.resolve() : Promise.reject(new Error('canceled'))),
  });
  await expect(canceled).rejects.toThrow('canceled');
});

test('a sheet set is laid out and drawn in steps, at least one a sheet, and says its number of sheets before', () => {
  const { facts, specification, title, findings, limits } = study(
    'winding "Sluice"\nmachine { slots 12 poles 2 phases 3 }\nlayout { layers 2 span 5 }\n',
  );
  const input = { facts: facts!, specification, title, findings, limits, fileHash: '0' };
  const plan = walked(sheetPlan(input));
  expect(plan.count).toBeGreaterThan(10);
  const drawn = walked(plan.result.draw());
  expect(drawn.count).toBeGreaterThan(plan.result.count);
  expect(drawn.result).toHaveLength(plan.result.count);
  expect(drawn.result).toEqual(sheets(input));
});

describe('between two steps', () => {
  const text = readFileSync('test/bench/stator.winding', 'utf8').replace('layers 4', 'layers 2');
  const { facts, specification, title, findings, limits } = checkText(text, connectNow, () => null);
  const subject = { facts: facts!, specification, title };
  const bars = 96;

  test('no more than a hundred bars in space are drawn, and the outlines of some rows of pixels', () => {
    const options = { coarse: true };
    const { result, count } = walked(viewSteps(subject, 'space', options));
    expect(result).toEqual(drawView(subject, 'space', options));
    const rows = 5 * Math.min(result.height, 150);
    // Bars made roughly and exactly, measured and put on the raster; rows of its pixels gone through.
    expect(count).toBeGreaterThanOrEqual(4 * Math.ceil(bars / 100) + Math.floor(rows / 50));
  });

  test('outlines of so many corners are traced at most', () => {
    // Stripes that stand apart: two numbers for every edge of a pixel along them.
    const [width, height] = [400, 500];
    const faces = new Int32Array(width * height).map((_, at) => ((at % width) % 5 < 3 ? 1 : 0));
    const steps = outlineSteps({ width, height, faces }, 0.5, 1);
    const { result, count } = walked(steps);
    expect(result.get(1)).toHaveLength(width / 5);
    const corners = (width / 5) * 2 * (2 * height + 6);
    expect(count).toBeGreaterThan(corners / 22_500);
  });

  test('no more of the sheets is made than a part of one, which has a thousand primitives at most', () => {
    const input = { ...subject, findings, limits, fileHash: '0' };
    const steps = walked(sheetPlan(input)).result.draw();
    const drawn = walked(steps);
    const parts = drawn.result.flatMap(({ items }) =>
      items.flatMap((item) => (item.kind === 'group' && /^part-/.test(item.id) ? [item.items] : [])),
    );
    expect(drawn.count).toBeGreaterThan(parts.length);
    const largest = Math.max(...parts.map((items) => [...leaves(items)].length));
    expect(largest).toBeGreaterThan(100);
    expect(largest).toBeLessThan(1000);
  });
});
