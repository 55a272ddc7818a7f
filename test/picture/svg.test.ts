import { expect, test } from 'vitest';
import { filledShape, text } from '../../core/picture/make.ts';
import type { Picture, Primitive } from '../../core/picture/picture.ts';
import { pictureToSvg } from '../../core/picture/svg.ts';
import { layoutPicture } from '../../core/views/layout/layout.ts';
import { generated, layoutInput } from '../views/windings.ts';
import { descendants, readXml, valuesOf } from './checkPicture.ts';

function pictureOf(items: readonly Primitive[], title = 'A picture'): Picture {
  return { width: 40, height: 30, title, description: 'Something drawn', items };
}

test('a picture becomes a self-contained document in millimeters with title and description', () => {
  const root = readXml(pictureToSvg(pictureOf([])));
  expect(root.name).toBe('svg');
  expect(root.attributes).toMatchObject({
    xmlns: 'http://www.w3.org/2000/svg',
    width: '40mm',
    height: '30mm',
    viewBox: '0 0 40 30',
  });
  expect(root.children.map(({ name, text: words }) => [name, words])).toEqual([
    ['title', 'A picture'],
    ['desc', 'Something drawn'],
    ['rect', ''],
  ]);
});

test('hostile words are escaped, control characters replaced', () => {
  const hostile = '<script>"&\u0000\u001b]]>\ud800';
  const items = [text('note"1<', 'note', 1, 5, hostile)];
  const svg = pictureToSvg(pictureOf(items, hostile));
  const root = readXml(svg);
  const shown = '<script>"&\ufffd\ufffd]]>\ufffd';
  expect(root.children[0]!.text).toBe(shown);
  expect(root.children.at(-1)).toMatchObject({ name: 'text', text: shown, attributes: { id: 'note"1<' } });
  expect(descendants(root).map(({ name }) => name)).not.toContain('script');
});

test('every kind of primitive is written', () => {
  const common = { role: 'frame' as const };
  const svg = pictureToSvg(
    pictureOf([
      { ...common, kind: 'line', id: 'l', x1: 1, y1: 2, x2: 3, y2: -0 },
      { ...common, kind: 'polyline', id: 'pl', points: [0, 0, 1, 1, 2, 0] },
      { ...common, kind: 'polygon', id: 'pg', points: [0, 0, 1, 1, 2, 0] },
      { ...common, kind: 'arc', id: 'c', x: 5, y: 5, radius: 2, from: 0, to: 360 },
      { ...common, kind: 'arc', id: 'a', x: 5, y: 5, radius: 2, from: 0, to: 270 },
      filledShape('p', 'bar-arrow', [[0, 0, 1, 1, 2, 0]], { phase: 1, emphasis: 'faded' }),
      { ...common, kind: 'group', id: 'g', items: [text('t', 'note', 1, 1, 'words', { anchor: 'end' })] },
    ]),
  );
  const elements = new Map(descendants(readXml(svg)).map((element) => [element.attributes.id, element]));
  expect(elements.get('l')).toMatchObject({ name: 'line', attributes: { x1: '1', y2: '0' } });
  expect(elements.get('pl')).toMatchObject({
    name: 'polyline',
    attributes: { points: '0,0 1,1 2,0', fill: 'none' },
  });
  expect(elements.get('pg')!.attributes.fill).not.toBe('none');
  expect(elements.get('c')).toMatchObject({ name: 'circle', attributes: { cx: '5', cy: '5', r: '2' } });
  // Three quarters round from the right, downwards first, to the top.
  expect(elements.get('a')!.attributes.d).toBe('M7 5A2 2 0 1 1 5 3');
  expect(elements.get('p')!.attributes).toMatchObject({
    d: 'M0 0L1 1L2 0Z',
    class: 'bar-arrow phase-1 faded',
    opacity: '0.3',
  });
  expect(elements.get('g')!.children[0]).toMatchObject({ name: 'text', text: 'words' });
});

test('no style attributes, no scripts, no references to elsewhere', () => {
  const svg = pictureToSvg(
    layoutPicture(layoutInput(generated({ slots: 12, poles: 10, layers: 2, span: 1 }))),
  );
  const root = readXml(svg);
  expect(valuesOf(root, 'style')).toEqual([]);
  const names = new Set(descendants(root).map(({ name }) => name));
  expect([...names].sort()).toEqual(['desc', 'g', 'path', 'rect', 'svg', 'text', 'title']);
  expect(svg.replace('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:|url\(|href/);
});

test('numbers that are not finite are refused', () => {
  const line = { kind: 'line', id: 'l', role: 'frame', x1: Number.NaN, y1: 2, x2: 3, y2: 4 } as const;
  expect(() => pictureToSvg(pictureOf([line]))).toThrow(RangeError);
});

test('the same picture gives the same bytes', () => {
  const input = () => layoutInput(generated({ slots: 48, poles: 8, layers: 4, span: 6 }));
  expect(pictureToSvg(layoutPicture(input()))).toBe(pictureToSvg(layoutPicture(input())));
});
