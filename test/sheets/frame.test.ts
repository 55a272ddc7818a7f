import { expect, test } from 'vitest';
import type { PathShape, Text } from '../../core/picture/picture.ts';
import { sheetFormat, sheetSizes } from '../../core/sheets/page/format.ts';
import { drawSheetFrame, zoneCount } from '../../core/sheets/page/frame.ts';
import { flat } from '../picture/checkPicture.ts';

/** ISO 5457:1999 (from memory): drawing spaces in millimeters, and fields along the long and the short side. */
const standard = {
  A0: { space: [1159, 821], fields: [24, 16] },
  A1: { space: [811, 574], fields: [16, 12] },
  A2: { space: [564, 400], fields: [12, 8] },
  A3: { space: [390, 277], fields: [8, 6] },
  A4: { space: [180, 277], fields: [4, 6] },
} as const;

test.each(sheetSizes)('%s has the drawing space and the fields of the standard', (size) => {
  const { frame, width, height } = sheetFormat(size);
  expect([frame.right - frame.left, frame.bottom - frame.top]).toEqual(standard[size].space);
  expect([zoneCount(width), zoneCount(height)]).toEqual(standard[size].fields);
  // Filing margin at the left, 10 mm elsewhere.
  expect([frame.left, frame.top, width - frame.right, height - frame.bottom]).toEqual([20, 10, 10, 10]);
});

test.each(sheetSizes)('%s: letters without I and O, numbers from the left, 3.5 mm high', (size) => {
  const format = sheetFormat(size);
  const items = flat([drawSheetFrame(format, { bottom: false })]);
  const names = (side: string) =>
    (items.filter(({ id }) => id.startsWith(`zone-${side}-`)) as Text[]).map(({ text }) => text);
  expect(names('top')).toEqual(
    Array.from({ length: standard[size].fields[0] }, (_, index) => String(index + 1)),
  );
  const letters = [...'ABCDEFGHJKLMNPQRSTUVWXYZ'].slice(0, standard[size].fields[1]);
  expect(names('right')).toEqual(letters);
  expect(names('left')).toEqual(size === 'A4' ? [] : letters);
  for (const item of items) if (item.kind === 'text') expect((item.size * 1493) / 2048).toBeCloseTo(3.5, 9);
});

test.each(sheetSizes)('%s: fields are 50 mm long from the centers, where the centring marks are', (size) => {
  const format = sheetFormat(size);
  const items = flat([drawSheetFrame(format, { bottom: false })]);
  const { parts } = items.find(({ id }) => id === 'sheet-zones') as PathShape;
  const center = format.width / 2;
  const ticks = parts.slice(1).filter((part) => part[0] === part[2] && part[3] === format.frame.top);
  for (const [x] of ticks) expect(Math.abs(x! - center) % 50).toBeCloseTo(0, 9);
  const marks = items.find(({ id }) => id === 'sheet-centring') as PathShape;
  expect(marks.parts).toHaveLength(4);
  expect(marks.parts.filter((part) => part[0] === center && part[2] === center)).toHaveLength(2);
});

test('an unknown size is a misuse', () => {
  expect(() => sheetFormat('A5' as 'A4')).toThrow(RangeError);
});
