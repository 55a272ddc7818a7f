// Takes its time: reads back what was written.

import { beforeAll, describe, expect, test } from 'vitest';
import { toElement } from '../../core/picture/element.ts';
import type * as fileFormats from '../../core/picture/fileFormats.ts';
import { printable, textWidth } from '../../core/picture/fontMetrics.ts';
import { filledShape, pathShape, text } from '../../core/picture/make.ts';
import { phaseStyle } from '../../core/picture/phaseStyle.ts';
import type { Picture, Primitive, Text } from '../../core/picture/picture.ts';
import { flat } from './checkPicture.ts';
import { example, fontBytes, hostileWords, shippedFileFormats } from './fileFormats.ts';
import { type ReadPage, readPdf } from './readPdf.ts';

let shipped: typeof fileFormats;
let font: Uint8Array;

beforeAll(async () => {
  [shipped, font] = await Promise.all([shippedFileFormats(), fontBytes()]);
});

function write(pages: readonly Picture[], more: Partial<Parameters<typeof shipped.pictureToPdf>[1]> = {}) {
  return shipped.pictureToPdf(pages, { fontBytes: font, metadata: { title: 'A drawing' }, ...more });
}

test('what reads a file leaves the functions of the language as they are', async () => {
  await readPdf(await write([pictureOf([])]));
  const used = [Array.prototype.push, JSON.parse, JSON.stringify, Function.prototype.toString];
  expect(used.map((each) => `${each}`).filter((code) => !code.includes('[native code]'))).toEqual([]);
});

function pictureOf(items: readonly Primitive[], size: Partial<Picture> = {}): Picture {
  return { width: 40, height: 30, title: 'A picture', description: 'Something drawn', items, ...size };
}

const textsOf = (picture: Picture) =>
  flat(picture.items).filter((item): item is Text => item.kind === 'text' && item.text !== '');

/** Texts of the picture that no text of the page matches in words, place and width. */
function missingTexts(picture: Picture, page: ReadPage): readonly string[] {
  const shares = { start: 0, middle: 0.5, end: 1 };
  return textsOf(picture)
    .filter(
      ({ text: words, x, y, width, anchor, size }) =>
        !page.texts.some(
          (read) =>
            read.words === words &&
            Math.abs(read.x - (x - shares[anchor] * width)) < 0.002 &&
            Math.abs(read.y - y) < 0.002 &&
            Math.abs(read.width - width) < 0.002 &&
            Math.abs(read.size - size) < 0.001,
        ),
    )
    .map(({ id, text: words }) => `${id}: ${words}`);
}

describe.each(['harbor-ferry-pod-drive', 'tidal-pump', 'lock-gate-winch', 'bow-thruster'])('%s', (name) => {
  const { picture, winding } = example(name);
  let page: ReadPage;
  beforeAll(async () => {
    page = (await readPdf(await write([picture]))).pages[0]!;
  });

  test('the page is exactly as large as the picture', () => {
    expect(Math.abs(page.width - picture.width)).toBeLessThan(0.001);
    expect(Math.abs(page.height - picture.height)).toBeLessThan(0.001);
  });

  test('every text can be selected where the picture has it, as wide as the font table says', () => {
    expect(missingTexts(picture, page)).toEqual([]);
    const words = new Set(page.selectable.split(/\s+/));
    for (let slot = 1; slot <= winding!.slots; slot++) expect(words).toContain(String(slot));
    expect(page.selectable).toContain(picture.title.replace(': developed layout', ''));
  });

  test('every line and area is painted in its order with the pen that the SVG has', () => {
    const shapes = flat(picture.items).filter(({ kind }) => kind !== 'text');
    expect(page.paths.length).toBe(shapes.length);
    const [read, wanted]: [unknown[], unknown[]] = [[], []];
    for (const [index, shape] of shapes.entries()) {
      const { attributes } = toElement(shape);
      const path = page.paths[index]!;
      const filled = attributes.fill !== 'none';
      const paint = filled ? (attributes.stroke ? 'both' : 'fill') : 'stroke';
      read.push([path.paint, filled && path.fill]);
      wanted.push([paint, filled && attributes.fill]);
      if (attributes.stroke === undefined) continue;
      read.push([path.stroke, path.dashes.join(' ')]);
      wanted.push([attributes.stroke, attributes['stroke-dasharray'] ?? '']);
      // Written to a thousandth.
      const apart = Math.abs(path.width - Number(attributes['stroke-width']));
      read.push([shape.id, apart < 5e-4]);
      wanted.push([shape.id, true]);
    }
    expect(read).toEqual(wanted);
  });

  test('bars lie where the picture has them', () => {
    const shapes = flat(picture.items).filter(({ kind }) => kind !== 'text');
    const bars = shapes.flatMap((shape, index) => (shape.role === 'bar' ? [[shape, index] as const] : []));
    expect(bars.length).toBe(winding!.table.cells.filter((cell) => cell !== 0).length);
    for (const [bar, index] of bars) {
      if (bar.kind !== 'path') throw new Error(`${bar.id} is no path`);
      const expected = bar.parts.flat();
      const read = page.paths[index]!.points;
      expect(read.length).toBe(expected.length);
      const apart = expected.map((value, at) => Math.abs(read[at]! - value));
      expect(apart.filter((each) => !(each < 0.001))).toEqual([]);
    }
  });
});

test('several pages with bookmarks and metadata', async () => {
  const pages = [example('tidal-pump').picture, pictureOf([]), pictureOf([], { width: 841, height: 594 })];
  const metadata = { title: 'Slip “A” <&>', author: 'The shop', subject: 'Stator', keywords: 'U, V' };
  const read = await readPdf(await write(pages, { metadata, bookmarks: ['Layout', 'Empty', 'A1'] }));
  expect(read.pages.map(({ width, height }) => [width.toFixed(2), height.toFixed(2)])).toEqual(
    pages.map(({ width, height }) => [width.toFixed(2), height.toFixed(2)]),
  );
  expect(read.bookmarks).toEqual([
    ['Layout', 1],
    ['Empty', 2],
    ['A1', 3],
  ]);
  expect(read.info).toMatchObject({
    Title: 'Slip “A” <&>',
    Author: 'The shop',
    Subject: 'Stator',
    Keywords: 'U, V',
    Producer: 'Slotwright',
    CreationDate: 'D:20000101000000Z',
    Language: 'en',
  });
  expect(read.xmpTitle).toBe('Slip “A” <&>');
});

test('by default a bookmark is its picture’s title', async () => {
  const read = await readPdf(await write([pictureOf([], { title: 'Layout\u0007' }), pictureOf([])]));
  expect(read.bookmarks).toEqual([
    ['Layout\ufffd', 1],
    ['A picture', 2],
  ]);
});

test('the same pictures give the same bytes, other pictures others', async () => {
  const bytes = await write([example('tidal-pump').picture]);
  expect(Buffer.from(await write([example('tidal-pump').picture])).equals(Buffer.from(bytes))).toBe(true);
  expect(Buffer.from(await write([example('bow-thruster').picture])).equals(Buffer.from(bytes))).toBe(false);
});

test('the font is embedded, as a subset', async () => {
  const bytes = Buffer.from(await write([pictureOf([text('t', 'note', 1, 5, 'few letters')])]));
  expect(bytes.toString('latin1')).toMatch(/\/FontFile2 \d+ 0 R/);
  expect(bytes.toString('latin1')).toMatch(/\/BaseFont \/[A-Z]{6}\+DejaVuSansCondensed/);
  expect(bytes.length).toBeLessThan(12_000);
});

test('the cut font has every character of the width table, with its width', async () => {
  const samples = [
    'ÄÖÜ ßæøåŁš',
    'ΑΒΓ Ωμπωθ',
    'Паром ъыь',
    '→←↑ ≤≥≠ ⊙⊗⌀ −×·',
    '₁₂₃ ²³ ‰ … “”',
    'fi ffl AV To',
  ];
  const items = samples.map((words, index) => text(`t${index}`, 'note', 1, 4 + 3 * index, words));
  const [page] = (await readPdf(await write([pictureOf(items)]))).pages;
  expect(missingTexts(pictureOf(items), page!)).toEqual([]);
});

test('turned texts start at their place', async () => {
  const turned: Text = { ...text('t', 'note', 20, 10, 'turned', { anchor: 'middle' }), angle: 90 };
  const [page] = (await readPdf(await write([pictureOf([turned])]))).pages;
  const [read] = page!.texts;
  expect(read!.words).toBe('turned');
  // Clockwise by a quarter: the line runs downwards through its middle.
  expect(read!.x).toBeCloseTo(20, 2);
  expect(read!.y).toBeCloseTo(10 - turned.width / 2, 2);
});

test('characters that the font lacks keep the text’s width', async () => {
  const words = '漢字 שלום \u{1f6a2} U';
  const item = text('t', 'note', 2, 10, words);
  const [page] = (await readPdf(await write([pictureOf([item], { width: 80 })]))).pages;
  expect(page!.texts.map((read) => read.words).join('')).toBe(
    '\ufffd\ufffd \ufffd\ufffd\ufffd\ufffd \ufffd U',
  );
  const right = Math.max(...page!.texts.map(({ x, width }) => x + width));
  expect(right - page!.texts[0]!.x).toBeCloseTo(textWidth(words, 2.5), 1);
});

test('arcs, circles, polygons, faded and strong shapes', async () => {
  const common = { role: 'frame' as const };
  const items: Primitive[] = [
    { ...common, kind: 'arc', id: 'c', x: 5, y: 5, radius: 2, from: 0, to: 360 },
    { ...common, kind: 'arc', id: 'a', x: 5, y: 5, radius: 2, from: 0, to: 270 },
    { ...common, kind: 'arc', id: 'b', x: 5, y: 5, radius: 2, from: 0, to: -90 },
    { ...common, kind: 'polygon', id: 'p', points: [0, 0, 1, 1, 2, 0] },
    pathShape('s', 'bar', [[0, 0, 1, 1]], { phase: 1, emphasis: 'strong' }),
    pathShape('f', 'bar', [[0, 0, 1, 1]], { phase: 1, emphasis: 'faded' }),
  ];
  const bytes = await write([pictureOf(items)]);
  const { paths } = (await readPdf(bytes)).pages[0]!;
  expect(paths.map(({ paint }) => paint)).toEqual(['stroke', 'stroke', 'stroke', 'both', 'stroke', 'stroke']);
  const end = (points: readonly number[]) => points.slice(-2).map((value) => Math.round(value * 1000) / 1000);
  // Clockwise on paper from the right: three quarters end at the top, as does a quarter backward.
  expect(end(paths[1]!.points)).toEqual([5, 3]);
  expect(paths[1]!.points.length).toBe(8);
  expect(end(paths[2]!.points)).toEqual([5, 3]);
  expect(paths[2]!.points.length).toBe(4);
  expect(paths[4]!.width).toBeCloseTo(0.9, 6);
  expect(paths[5]!.stroke).toBe(phaseStyle(1).color);
  expect(Buffer.from(bytes).toString('latin1')).toMatch(/\/CA 0\.3/);
  expect(paths.map(({ fillOpacity }) => fillOpacity)).toEqual([1, 1, 1, 1, 1, 0.3]);
});

test('tints hide as much of the ground as in the SVG', async () => {
  const part = [0, 0, 5, 0, 5, 5];
  const items = [
    filledShape('t', 'bar-section', [part], { phase: 1 }),
    filledShape('f', 'bar-section', [part], { phase: 1, emphasis: 'faded' }),
    filledShape('after', 'bar-arrow', [part], { phase: 1 }),
  ];
  const tint = Number(toElement(items[0]!).attributes['fill-opacity']);
  expect(tint).toBeLessThan(1);
  const { paths } = (await readPdf(await write([pictureOf(items)]))).pages[0]!;
  expect(paths.map(({ paint }) => paint)).toEqual(['both', 'both', 'fill']);
  const opacities = [tint, 0.3 * tint, 1];
  for (const [index, { fillOpacity }] of paths.entries())
    expect(fillOpacity).toBeCloseTo(opacities[index]!, 6);
});

test('a drawing longer than 5 m gets larger units', async () => {
  const picture = pictureOf([text('t', 'note', 11_900, 10, 'far right')], { width: 12_000, height: 200 });
  const [page] = (await readPdf(await write([picture]))).pages;
  expect(page!.width).toBeCloseTo(12_000, 2);
  expect(page!.texts[0]!.x).toBeCloseTo(11_900, 1);
});

test('hostile words change nothing but themselves', async () => {
  const items = [text('t', 'title', 1, 5, hostileWords), text('after', 'note', 1, 20, 'after')];
  const metadata = {
    title: hostileWords,
    author: hostileWords,
    subject: hostileWords,
    keywords: hostileWords,
  };
  const bytes = await write([pictureOf(items, { title: hostileWords })], { metadata });
  const read = await readPdf(bytes);
  expect(read.pages.length).toBe(1);
  expect(read.info.Title).toBe(printable(hostileWords));
  expect(read.info.Keywords).toBe(printable(hostileWords));
  expect(read.xmpTitle).toBe(printable(hostileWords));
  expect(read.bookmarks.map(([title]) => title)).toEqual([printable(hostileWords)]);
  expect(read.pages[0]!.texts.map(({ words }) => words)).toContain('after');
  expect(Buffer.from(bytes).toString('latin1')).not.toMatch(/\/JavaScript|\/OpenAction|\/Launch/);
});

test('misuse is refused', async () => {
  await expect(write([])).rejects.toThrow(RangeError);
  await expect(write([pictureOf([])], { bookmarks: [] })).rejects.toThrow(
    '1 pages need as many bookmarks, not 0',
  );
  const line = { kind: 'line', id: 'l', role: 'frame', x1: Number.NaN, y1: 2, x2: 3, y2: 4 } as const;
  await expect(write([pictureOf([line])])).rejects.toThrow(RangeError);
  await expect(write([pictureOf([], { width: Infinity })])).rejects.toThrow(RangeError);
});
