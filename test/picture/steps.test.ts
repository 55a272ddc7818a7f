import { expect, test } from 'vitest';
import { dxfSteps, pictureToDxf, pictureToPdf } from '../../core/picture/fileFormats.ts';
import { group, pathShape } from '../../core/picture/make.ts';
import type { Picture } from '../../core/picture/picture.ts';
import type { Steps } from '../../core/picture/steps.ts';
import { pictureToSvg, svgSteps } from '../../core/picture/svg.ts';
import { sheetPlan, sheets } from '../../core/sheets/sheets.ts';
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
  const cancelled = pictureToPdf([picture], {
    ...options,
    pause: () => (--pauses > 8 ? Promise.resolve() : Promise.reject(new Error('cancelled'))),
  });
  await expect(cancelled).rejects.toThrow('cancelled');
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
