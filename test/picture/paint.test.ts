import * as fc from 'fast-check';
// @ts-expect-error svgdom brings no types
import { createSVGWindow } from 'svgdom';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { type Box, primitiveBox } from '../../core/picture/bounds.ts';
import { toElement } from '../../core/picture/element.ts';
import { leaves } from '../../core/picture/leaves.ts';
import type { Picture, Primitive } from '../../core/picture/picture.ts';
import { pictureToSvg } from '../../core/picture/svg.ts';
import type { Standout } from '../../core/views/layout/input.ts';
import { layoutPicture } from '../../core/views/layout/layout.ts';
import { lookAt, paint, paintRest, primitiveOf } from '../../extension/webview/paint.ts';
import { tries } from '../support/tries.ts';
import { connectedWave, generated, layoutInput } from '../views/windings.ts';
import { descendants, type ReadElement, readXml } from './checkPicture.ts';

let container: HTMLElement;

beforeEach(() => {
  newDocument();
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

function newDocument(): void {
  const { document } = createSVGWindow();
  vi.stubGlobal('document', document);
  container = document.documentElement;
}

/** A message that arrives at once, in place of one that arrives when a frame is done. */
class AtOnceChannel {
  readonly port1 = { onmessage: () => {}, close: () => {} };
  readonly port2 = { postMessage: () => this.port1.onmessage() };
}

/** Elements and all within them. */
function flat(nodes: readonly unknown[]): readonly ReadNode[] {
  return (nodes as readonly ReadNode[]).flatMap((node) => [node, ...flat(node.children)]);
}

interface ReadNode {
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly ReadNode[];
}

/** More than any picture. */
const all: Box = { left: -1e4, top: -1e4, right: 1e4, bottom: 1e4 };

const standingOut = (emphasis: Standout) => layoutPicture({ ...connectedWave(), emphasis });
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
  const showAt = (scale: number) => lookAt(container, all, scale);
  paint(container, tooth());
  expect(hidden()).toEqual([]);
  // 3 pixels a millimeter: the title, 4.4 mm high, has 13 pixels, the letters of the bars, 2.5 mm, have 7.5.
  showAt(3);
  expect(hidden()).toContain('label-1a');
  expect(hidden()).toContain('slot-1');
  expect(hidden()).not.toContain('title');
  expect(hidden()).not.toContain('bar-1a');
  expect(hidden()).not.toContain('arrows-U');
  showAt(1);
  expect(hidden()).toContain('arrows-U');
  expect(hidden()).toContain('title');
  paint(container, wave());
  expect(hidden()).toContain('label-1a');
  showAt(3.6);
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

test('pan and zoom survive repaints, and nodes know their primitives', () => {
  paint(container, tooth());
  const root = container.firstChild as SVGElement;
  expect(root.getAttribute('viewBox')).toMatch(/^0 0 /);
  lookAt(container, { left: 1, top: 2, right: 4, bottom: 6 }, 4);
  for (const picture of [tooth(), wave()]) {
    paint(container, picture);
    expect(container.childNodes).toHaveLength(1);
    expect(root.getAttribute('viewBox')).toBe('1.0000 2.0000 3.0000 4.0000');
  }
  const bar = elementsById().get('bar-7b')!;
  expect(primitiveOf(bar)).toMatchObject({ role: 'bar', subject: { bar: '7b' } });
  expect(primitiveOf(root)).toBeNull();
});

describe('with a part of the picture in sight', () => {
  /** Pauses that are waited for. */
  let pauses: ((pause: { didTimeout: boolean; timeRemaining: () => number }) => void)[];
  let followed: number;

  beforeEach(() => {
    pauses = [];
    followed = 0;
    vi.stubGlobal('requestAnimationFrame', (frame: () => void) => frame());
    vi.stubGlobal('MessageChannel', AtOnceChannel);
    vi.stubGlobal('requestIdleCallback', (work: (typeof pauses)[number]) => pauses.push(work));
  });

  const paintSeen = (picture: Picture) => paint(container, picture, () => followed++);
  const slot = (picture: Picture, name: string, scale = 4) => {
    const bar = [...leaves(picture.items)].find(({ id }) => id === `bar-${name}`)!;
    lookAt(container, primitiveBox(bar)!, scale);
  };
  /** The elements that look as the picture has them, by their ids. */
  const asIn = (picture: Picture): ReadonlySet<string> => {
    const wanted = new Map(flat(written(picture)).map((node) => [node.attributes.id, JSON.stringify(node)]));
    const same = flat(painted()).filter((node) => JSON.stringify(node) === wanted.get(node.attributes.id));
    return new Set(same.map(({ attributes }) => attributes.id!));
  };

  test('that is painted at once, the rest in pauses after the frame, all of it in order', () => {
    const picture = wave();
    slot(picture, '7b');
    paintSeen(picture);
    expect(asIn(picture)).toContain('bar-7b');
    expect(asIn(picture)).not.toContain('bar-30a');
    expect(followed).toBe(0);
    while (pauses.length > 0) {
      expect(pauses).toHaveLength(1);
      expect(followed).toBe(0);
      pauses.pop()!({ didTimeout: false, timeRemaining: () => 0 });
    }
    expect(followed).toBe(1);
    expect(painted()).toEqual(written(picture));
  });

  test('what comes into sight before its turn is painted then, and whoever marks things hears of it', () => {
    const picture = wave();
    slot(picture, '7b');
    paintSeen(picture);
    slot(picture, '30a');
    expect(asIn(picture)).toContain('bar-30a');
    expect(followed).toBe(1);
    expect(pauses).toHaveLength(1);
    paintRest(container);
    expect(painted()).toEqual(written(picture));
    expect(followed).toBe(2);
  });

  test('at every moment all in sight is of one picture, whatever came before', () => {
    const pictures = [tooth(), wave(), standingOut({ phase: 1 }), standingOut({ layer: 0 })];
    const step = fc.oneof(
      fc.record({ show: fc.nat(pictures.length - 1) }),
      fc.record({ left: fc.double({ min: -0.2, max: 1, noNaN: true }), scale: fc.constantFrom(0.5, 2, 5) }),
      fc.record({ pauses: fc.integer({ min: 1, max: 6 }) }),
    );
    fc.assert(
      fc.property(fc.array(step, { minLength: 2, maxLength: 8 }), (steps) => {
        newDocument();
        let shown = pictures[0]!;
        let sight = all;
        let scale = 5;
        lookAt(container, sight, scale);
        paintSeen(shown);
        for (const one of steps) {
          if ('show' in one) {
            shown = pictures[one.show]!;
            paintSeen(shown);
          } else if ('left' in one) {
            const left = one.left * shown.width;
            sight = { left, top: 20, right: left + 90, bottom: 120 };
            scale = one.scale;
            lookAt(container, sight, scale);
          } else
            for (let count = 0; count < one.pauses; count++)
              pauses.shift()?.({ didTimeout: false, timeRemaining: () => 0 });
          expect(troubles(shown, sight, scale)).toEqual([]);
        }
        lookAt(container, sight, 5);
        paintRest(container);
        expect(painted()).toEqual(written(shown));
      }),
      { seed: 11, numRuns: tries(8) },
    );
  });

  /** What is in sight and not as the picture has it: its ids. */
  function troubles(picture: Picture, { left, top, right, bottom }: Box, scale: number): readonly string[] {
    const wanted = new Map([...leaves(picture.items)].map((leaf) => [leaf.id, leaf]));
    const isIn = (primitive: Primitive) => {
      const box = primitiveBox(primitive)!;
      return box.left <= right && box.right >= left && box.top <= bottom && box.bottom >= top;
    };
    const trouble: string[] = [];
    for (const [id, node] of elementsById()) {
      const leaf = wanted.get(id);
      // What has no looks yet is not seen.
      const visible = node.hasAttribute('class') && node.getAttribute('display') !== 'none';
      if (leaf === undefined) {
        if (node.tagName !== 'g' && node.tagName !== 'svg' && id !== '') trouble.push(`${id} is left over`);
        continue;
      }
      const shows = scale >= (leaf.shownFrom ?? (leaf.kind === 'text' ? 9 / leaf.size : 0)) - 1e-6;
      const meant = shows && isIn(leaf);
      const seen = visible && isIn(primitiveOf(node)!);
      if (seen !== meant) trouble.push(`${id} is ${seen ? '' : 'not '}seen`);
      const { attributes } = toElement(leaf);
      if (meant && Object.entries(attributes).some(([name, value]) => node.getAttribute(name) !== value))
        trouble.push(`${id} looks otherwise`);
    }
    return trouble;
  }
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
