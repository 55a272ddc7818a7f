// @ts-expect-error svgdom brings no types
import { createSVGWindow } from 'svgdom';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Picture } from '../../core/picture/picture.ts';
import { pictureToSvg } from '../../core/picture/svg.ts';
import { layoutPicture } from '../../core/views/layout/layout.ts';
import { paint, primitiveOf, showAt } from '../../extension/webview/paint.ts';
import { connectedWave, generated, layoutInput } from '../views/windings.ts';
import { descendants, type ReadElement, readXml } from './checkPicture.ts';

let container: HTMLElement;

beforeEach(() => {
  const { document } = createSVGWindow();
  vi.stubGlobal('document', document);
  container = document.documentElement;
});

afterEach(() => vi.unstubAllGlobals());

/** The picture's items as the page holds them, and as the text writer writes them. */
function painted(): readonly unknown[] {
  return Array.from(container.firstChild!.childNodes).map((node) => readNode(node as SVGElement));
}

function written(picture: Picture): readonly unknown[] {
  const simple = ({ name, attributes, children, text }: ReadElement): unknown => ({
    name,
    attributes: { ...attributes },
    text: children.length > 0 ? '' : text,
    children: children.map(simple),
  });
  const root = readXml(pictureToSvg(picture));
  return root.children.filter(({ name }) => !['title', 'desc', 'rect'].includes(name)).map(simple);
}

function readNode(node: SVGElement): unknown {
  const children = Array.from(node.childNodes).filter(({ nodeType }) => nodeType === 1);
  return {
    name: node.tagName,
    attributes: Object.fromEntries(Array.from(node.attributes, ({ name, value }) => [name, value])),
    text: children.length > 0 ? '' : (node.textContent ?? ''),
    children: children.map((child) => readNode(child as SVGElement)),
  };
}

const tooth = () => layoutPicture(layoutInput(generated({ slots: 12, poles: 10, layers: 2, span: 1 })));
const wave = () => layoutPicture(connectedWave());

test('the page holds the same elements as the text writer writes', () => {
  for (const picture of [tooth(), wave()]) {
    paint(container, picture);
    expect(painted()).toEqual(written(picture));
  }
  paint(container, tooth());
  expect(painted()).toEqual(written(tooth()));
});

test('a repaint touches only what has changed', () => {
  paint(container, tooth());
  const before = elementsById();
  const input = layoutInput(generated({ slots: 12, poles: 10, layers: 2, span: 1 }));
  const cells = Int8Array.from(input.winding.table.cells);
  cells[0] = -cells[0]!;
  const changed = { ...input, winding: { ...input.winding, table: { ...input.winding.table, cells } } };
  const words = new Map([...before].map(([id, node]) => [id, node.textContent]));
  const touched: string[] = [];
  for (const [id, node] of before) {
    const set = node.setAttribute.bind(node);
    node.setAttribute = (name: string, value: string) => {
      touched.push(id);
      set(name, value);
    };
  }
  const picture = layoutPicture(changed);
  paint(container, picture);
  // + and − are equally wide, so of the label only the words change.
  expect(touched).toEqual(['arrows-U']);
  const rewritten = [...before].filter(([id, node]) => words.get(id) !== node.textContent);
  expect(rewritten.filter(([, { tagName }]) => tagName === 'text').map(([id]) => id)).toEqual(['label-1a']);
  expect(painted()).toEqual(written(picture));
  const after = elementsById();
  for (const [id, node] of before) expect(after.get(id) === node).toBe(true);
});

test('what is too small is hidden, and comes back with the scale; a repaint follows the scale', () => {
  const hidden = () =>
    [...elementsById()].filter(([, node]) => node.getAttribute('display') === 'none').map(([id]) => id);
  paint(container, tooth());
  expect(hidden()).toEqual([]);
  // 3 pixels a millimeter: the title, 4.4 mm high, has 13 pixels, the letters of the bars, 2.5 mm, have 7.5.
  showAt(container, 3);
  expect(hidden()).toContain('label-1a');
  expect(hidden()).toContain('slot-1');
  expect(hidden()).not.toContain('title');
  expect(hidden()).not.toContain('bar-1a');
  expect(hidden()).not.toContain('arrows-U');
  showAt(container, 1);
  expect(hidden()).toContain('arrows-U');
  expect(hidden()).toContain('title');
  paint(container, wave());
  expect(hidden()).toContain('label-1a');
  showAt(container, 3.6);
  expect(hidden()).toEqual([]);
  paint(container, tooth());
  expect(hidden()).toEqual([]);
});

test('insertions, removals and moves give the order of the picture', () => {
  const picture = tooth();
  const turned = (items: Picture['items']): Picture['items'] =>
    [...items]
      .reverse()
      .map((item) => (item.kind === 'group' ? { ...item, items: turned(item.items) } : item));
  const thinned = (items: Picture['items']): Picture['items'] =>
    items
      .filter((_, index) => index % 3 !== 1)
      .map((item) => (item.kind === 'group' ? { ...item, items: thinned(item.items) } : item));
  for (const items of [picture.items, turned(picture.items), thinned(picture.items), picture.items]) {
    paint(container, { ...picture, items });
    expect(painted()).toEqual(written({ ...picture, items }));
  }
});

test('a primitive that needs another element is replaced in its place', () => {
  const picture = tooth();
  const arc = { kind: 'arc', id: 'x', role: 'frame', x: 1, y: 1, radius: 1, from: 0, to: 360 } as const;
  const half = { ...arc, to: 180 };
  for (const item of [arc, half, arc]) {
    const items = [...picture.items.slice(0, 2), item, ...picture.items.slice(2)];
    paint(container, { ...picture, items });
    expect(painted()).toEqual(written({ ...picture, items }));
  }
});

test('zoom survives a repaint of the same size, and nodes know their primitives', () => {
  paint(container, tooth());
  const root = container.firstChild as SVGElement;
  root.setAttribute('viewBox', '1 2 3 4');
  paint(container, tooth());
  expect(container.childNodes).toHaveLength(1);
  expect(root.getAttribute('viewBox')).toBe('1 2 3 4');
  paint(container, wave());
  expect(root.getAttribute('viewBox')).toMatch(/^0 0 /);
  const bar = elementsById().get('bar-7b')!;
  expect(primitiveOf(bar)).toMatchObject({ role: 'bar', subject: { bar: '7b' } });
  expect(primitiveOf(root)).toBeNull();
});

test('a picture holds only what can be sent to a page', () => {
  const picture = wave();
  expect(structuredClone(picture)).toEqual(picture);
  expect(descendants(readXml(pictureToSvg(structuredClone(picture)))).length).toBeGreaterThan(300);
});

function elementsById(): Map<string, SVGElement> {
  const found = new Map<string, SVGElement>();
  const visit = (node: Node): void => {
    for (const child of Array.from(node.childNodes)) {
      if (child.nodeType !== 1) continue;
      found.set((child as SVGElement).getAttribute('id') ?? '', child as SVGElement);
      visit(child);
    }
  };
  visit(container);
  return found;
}
