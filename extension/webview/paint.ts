import { rootAttributes, type SvgElement, toElement } from '../../core/picture/element.ts';
import { numberText } from '../../core/picture/numberText.ts';
import type { Picture, Primitive } from '../../core/picture/picture.ts';
import { samePrimitive } from '../../core/picture/samePrimitive.ts';
import { svgElement } from './svgElement.ts';

/** Text shows from the scale on at which it is this many pixels high. */
const legible = 9;

/** A primitive on the page. */
interface Painted {
  readonly node: SVGElement;
  /** Of a group. */
  readonly children: Map<string, Painted> | null;
  primitive: Primitive;
  attributes: Readonly<Record<string, string>>;
}

/** A container's picture. */
interface Canvas {
  readonly root: SVGElement;
  readonly children: Map<string, Painted>;
  /** What the root was last written from. */
  title: string;
  size: string;
  /** Pixels per millimeter at which it is seen, and the scales at which something begins to show. */
  scale: number;
  readonly levels: Set<number>;
}

const canvases = new WeakMap<Node, Canvas>();
const paintedNodes = new WeakMap<Node, Painted>();

/**
 * Shows the picture in the container, as one svg element. What is there already is patched: primitives
 * are known by their id, and one that has not changed is not touched. The root's viewBox is written
 * only when the picture's size changes, so that pan and zoom survive.
 */
export function paint(container: HTMLElement, picture: Picture): void {
  const canvas = canvases.get(container) ?? newCanvas(container);
  if (canvas.title !== picture.title) {
    canvas.title = picture.title;
    canvas.root.setAttribute('aria-label', picture.title);
  }
  const [width, height] = [numberText(picture.width), numberText(picture.height)];
  if (canvas.size !== `${width} ${height}`) {
    canvas.size = `${width} ${height}`;
    canvas.root.setAttribute('width', `${width}mm`);
    canvas.root.setAttribute('height', `${height}mm`);
    canvas.root.setAttribute('viewBox', `0 0 ${width} ${height}`);
  }
  patchChildren(canvas, canvas.root, canvas.children, picture.items);
}

/** Hides what is too small at this scale, in pixels per millimeter, and shows what is not. */
export function showAt(container: HTMLElement, scale: number): void {
  const canvas = canvases.get(container);
  if (canvas === undefined) return;
  const crossed = [...canvas.levels].some((level) => isShown(level, scale) !== isShown(level, canvas.scale));
  canvas.scale = scale;
  if (crossed) showAll(canvas.children, scale);
}

function showAll(children: ReadonlyMap<string, Painted>, scale: number): void {
  for (const painted of children.values()) {
    show(painted, scale);
    if (painted.children !== null) showAll(painted.children, scale);
  }
}

/** The attribute is the page's own: no primitive has it. */
function show({ node, primitive }: Painted, scale: number): void {
  if (isShown(shownFrom(primitive), scale)) node.removeAttribute('display');
  else node.setAttribute('display', 'none');
}

function isShown(level: number, scale: number): boolean {
  return scale >= level - 1e-6;
}

/** The smallest scale at which a primitive shows. For text its size says so, which need not be sent. */
function shownFrom(primitive: Primitive): number {
  return primitive.shownFrom ?? (primitive.kind === 'text' ? legible / primitive.size : 0);
}

/** The innermost primitive that is drawn by this node or by one round it. */
export function primitiveOf(node: Node | null): Primitive | null {
  for (let at = node; at !== null; at = at.parentNode) {
    const painted = paintedNodes.get(at);
    if (painted !== undefined) return painted.primitive;
  }
  return null;
}

function newCanvas(container: HTMLElement): Canvas {
  const root = svgElement('svg', { class: 'picture', role: 'img', ...rootAttributes });
  container.appendChild(root);
  const canvas = {
    root,
    children: new Map(),
    title: '',
    size: '',
    scale: Infinity,
    levels: new Set<number>(),
  };
  canvases.set(container, canvas);
  return canvas;
}

function patchChildren(
  canvas: Canvas,
  parent: SVGElement,
  known: Map<string, Painted>,
  items: readonly Primitive[],
): void {
  removeMissing(parent, known, items);
  let next = parent.firstChild;
  for (const item of items) {
    if (known.get(item.id)?.node === next && next !== null) {
      // In its place already: stay there, unless it needs another element.
      const after: ChildNode | null = next.nextSibling;
      const { node } = patched(canvas, parent, known, item);
      if (node !== next) parent.insertBefore(node, after);
      next = after;
      continue;
    }
    const painted = patched(canvas, parent, known, item);
    parent.insertBefore(painted.node, next);
  }
}

/** Takes away what is no longer in the picture. */
function removeMissing(parent: SVGElement, known: Map<string, Painted>, items: readonly Primitive[]): void {
  if (known.size === 0) return;
  const ids = new Set(items.map(({ id }) => id));
  for (const [id, { node }] of known) {
    if (ids.has(id)) continue;
    parent.removeChild(node);
    known.delete(id);
  }
}

/** The element of a primitive: the one that is there, brought up to date, or a new one. */
function patched(canvas: Canvas, parent: SVGElement, known: Map<string, Painted>, item: Primitive): Painted {
  const before = known.get(item.id);
  // The same object is the same all the way down: what is sent anew is a new one.
  if (before?.primitive === item) return before;
  const element = before !== undefined && samePrimitive(before.primitive, item) ? null : toElement(item);
  if (before === undefined || (element !== null && before.node.tagName !== element.tag)) {
    if (before !== undefined) parent.removeChild(before.node);
    const painted = newPainted(canvas, item, element ?? toElement(item));
    known.set(item.id, painted);
    return painted;
  }
  if (element !== null) {
    changeAttributes(before.node, before.attributes, element.attributes);
    if (element.text !== undefined && before.node.textContent !== element.text)
      before.node.textContent = element.text;
    before.attributes = element.attributes;
  }
  before.primitive = item;
  if (element !== null) showNew(canvas, before);
  if (item.kind === 'group' && before.children !== null)
    patchChildren(canvas, before.node, before.children, item.items);
  return before;
}

function newPainted(
  canvas: Canvas,
  primitive: Primitive,
  { tag, attributes, text, children }: SvgElement,
): Painted {
  const node = svgElement(tag, attributes);
  if (text !== undefined) node.textContent = text;
  const painted = { node, primitive, attributes, children: children === undefined ? null : new Map() };
  paintedNodes.set(node, painted);
  showNew(canvas, painted);
  if (painted.children !== null) patchChildren(canvas, node, painted.children, children ?? []);
  return painted;
}

/** Shows or hides what was just painted, and notes the scale at which it begins to show. */
function showNew(canvas: Canvas, painted: Painted): void {
  const level = shownFrom(painted.primitive);
  if (level > 0) canvas.levels.add(level);
  if (level > 0 || painted.node.hasAttribute('display')) show(painted, canvas.scale);
}

function changeAttributes(
  node: Element,
  before: Readonly<Record<string, string>>,
  after: Readonly<Record<string, string>>,
): void {
  for (const name in before) if (!(name in after)) node.removeAttribute(name);
  for (const name in after) if (before[name] !== after[name]) node.setAttribute(name, after[name]!);
}
