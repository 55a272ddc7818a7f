import { fixed } from '../../core/language/numbers.ts';
import { type Box, primitiveBox } from '../../core/picture/bounds.ts';
import { elementTag, rootAttributes, toElement } from '../../core/picture/element.ts';
import { numberText } from '../../core/picture/numberText.ts';
import type { Picture, Primitive } from '../../core/picture/picture.ts';
import { samePrimitive } from '../../core/picture/samePrimitive.ts';
import { whenIdle } from './frames.ts';
import { svgElement } from './svgElement.ts';

/** Text shows from the scale on at which it is this many pixels high. */
const legible = 9;

/** A primitive on the page. */
interface Painted {
  readonly node: SVGElement;
  /** Of a group. */
  readonly children: Map<string, Painted> | null;
  /** What the node shows, and what it is to show: another one while it is out of sight and its turn is to come. */
  primitive: Primitive;
  wanted: Primitive;
  /** Null while the node shows nothing yet. */
  attributes: Readonly<Record<string, string>> | null;
  /** Too small at the present scale. */
  hidden: boolean;
}

/** A container's picture. */
interface Canvas {
  readonly root: SVGElement;
  readonly children: Map<string, Painted>;
  /** What the root was last written from. */
  title: string;
  size: string;
  /** The part that is seen, in millimeters; null where nobody says. */
  sight: Box | null;
  /** Pixels per millimeter at which it is seen, and the scales at which something begins to show. */
  scale: number;
  readonly levels: Set<number>;
  /** What is out of sight and not as it is to be. */
  readonly pending: Set<Painted>;
  /** Hears that something of it has been brought up to date; null where all is painted at once. */
  followed: (() => void) | null;
}

const canvases = new WeakMap<Node, Canvas>();
const paintedNodes = new WeakMap<Node, Painted>();

/**
 * Shows the picture in the container, as one svg element. What is there already is patched: primitives are known by
 * their id, and one that has not changed is not touched. Where it is known what is seen (`lookAt`), pan and zoom
 * survive, and with `followed` only that is painted at once: the rest follows in pauses after the frame, or when it
 * comes into sight, so that what is seen is always of one picture. `followed` is called after each such step that
 * ends with something new in sight, or with all of it painted.
 */
export function paint(container: HTMLElement, picture: Picture, followed: (() => void) | null = null): void {
  const canvas = canvasOf(container);
  canvas.followed = followed;
  if (canvas.title !== picture.title) {
    canvas.title = picture.title;
    canvas.root.setAttribute('aria-label', picture.title);
  }
  const [width, height] = [numberText(picture.width), numberText(picture.height)];
  if (canvas.size !== `${width} ${height}`) {
    canvas.size = `${width} ${height}`;
    canvas.root.setAttribute('width', `${width}mm`);
    canvas.root.setAttribute('height', `${height}mm`);
    if (canvas.sight === null) canvas.root.setAttribute('viewBox', `0 0 ${width} ${height}`);
  }
  patchChildren(canvas, canvas.root, canvas.children, picture.items);
  if (followed === null) bringAll(canvas);
  else followLater(canvas);
}

/**
 * Says what is seen: a part of the picture, in millimeters, at so many pixels per millimeter. Hides what is too small
 * at this scale, and shows what is not.
 */
export function lookAt(container: HTMLElement, sight: Box, scale: number): void {
  const canvas = canvasOf(container);
  const { left, top, right, bottom } = sight;
  const viewBox = [left, top, right - left, bottom - top].map((value) => fixed(value, 4)).join(' ');
  // Set anew it would be laid out anew, even with the same value.
  if (canvas.root.getAttribute('viewBox') !== viewBox) canvas.root.setAttribute('viewBox', viewBox);
  const crossed = [...canvas.levels].some((level) => isShown(level, scale) !== isShown(level, canvas.scale));
  canvas.sight = sight;
  canvas.scale = scale;
  if (crossed) noteHidden(canvas, canvas.children);
  if (bringSeen(canvas)) canvas.followed?.();
  if (canvas.followed === null) bringAll(canvas);
  else followLater(canvas);
}

/** Paints what is still to come: for whoever needs all of the picture. */
export function paintRest(container: HTMLElement): void {
  const canvas = canvasOf(container);
  if (canvas.pending.size === 0) return;
  bringAll(canvas);
  canvas.followed?.();
}

/** The innermost primitive that is drawn by this node or by one round it. */
export function primitiveOf(node: Node | null): Primitive | null {
  for (let at = node; at !== null; at = at.parentNode) {
    const painted = paintedNodes.get(at);
    if (painted !== undefined) return painted.primitive;
  }
  return null;
}

function canvasOf(container: HTMLElement): Canvas {
  const known = canvases.get(container);
  if (known !== undefined) return known;
  const root = svgElement('svg', { class: 'picture', role: 'img', ...rootAttributes });
  container.appendChild(root);
  const canvas: Canvas = {
    root,
    children: new Map(),
    title: '',
    size: '',
    sight: null,
    scale: Infinity,
    levels: new Set(),
    pending: new Set(),
    followed: null,
  };
  canvases.set(container, canvas);
  return canvas;
}

/** Brings the elements of a container in the order of its items; how they look may follow later. */
function patchChildren(
  canvas: Canvas,
  parent: SVGElement,
  known: Map<string, Painted>,
  items: readonly Primitive[],
): void {
  removeMissing(canvas, parent, known, items);
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
function removeMissing(
  canvas: Canvas,
  parent: SVGElement,
  known: Map<string, Painted>,
  items: readonly Primitive[],
): void {
  if (known.size === 0) return;
  const ids = new Set(items.map(({ id }) => id));
  for (const [id, painted] of known) if (!ids.has(id)) remove(canvas, parent, known, painted);
}

function remove(canvas: Canvas, parent: SVGElement, known: Map<string, Painted>, painted: Painted): void {
  parent.removeChild(painted.node);
  known.delete(painted.wanted.id);
  forget(canvas, painted);
}

/** Nothing of it is to come any more. */
function forget(canvas: Canvas, painted: Painted): void {
  canvas.pending.delete(painted);
  for (const child of painted.children?.values() ?? []) forget(canvas, child);
}

/** The element of a primitive: the one that is there or a new one; up to date where it is seen. */
function patched(canvas: Canvas, parent: SVGElement, known: Map<string, Painted>, item: Primitive): Painted {
  const before = known.get(item.id);
  // The same object is the same all the way down: what is sent anew is a new one.
  if (before?.wanted === item) return before;
  const stays = before?.node.tagName === elementTag(item);
  if (before !== undefined && !stays) remove(canvas, parent, known, before);
  const painted = before !== undefined && stays ? before : newPainted(known, item);
  painted.wanted = item;
  const level = shownFrom(item);
  if (level > 0) canvas.levels.add(level);
  if (item.kind === 'group' || isSeen(canvas, painted)) bring(canvas, painted);
  else canvas.pending.add(painted);
  if (item.kind === 'group') patchChildren(canvas, painted.node, painted.children!, item.items);
  return painted;
}

function newPainted(known: Map<string, Painted>, item: Primitive): Painted {
  const node = svgElement(elementTag(item), {});
  const children = item.kind === 'group' ? new Map<string, Painted>() : null;
  const painted = { node, children, primitive: item, wanted: item, attributes: null, hidden: false };
  known.set(item.id, painted);
  paintedNodes.set(node, painted);
  return painted;
}

/** Brings an element up to date with what it is to show, and with the scale. */
function bring(canvas: Canvas, painted: Painted): void {
  canvas.pending.delete(painted);
  const { node, primitive, wanted, attributes } = painted;
  if (attributes === null || (primitive !== wanted && !samePrimitive(primitive, wanted))) {
    const element = toElement(wanted);
    changeAttributes(node, attributes ?? {}, element.attributes);
    if (element.text !== undefined && node.textContent !== element.text) node.textContent = element.text;
    painted.attributes = element.attributes;
  }
  painted.primitive = wanted;
  const hidden = isHidden(canvas, wanted);
  if (hidden === painted.hidden) return;
  painted.hidden = hidden;
  // The attribute is the page's own: no primitive has it.
  if (hidden) node.setAttribute('display', 'none');
  else node.removeAttribute('display');
}

function bringAll(canvas: Canvas): void {
  for (const painted of canvas.pending) bring(canvas, painted);
}

/** Brings what has come into sight; whether there was something. */
function bringSeen(canvas: Canvas): boolean {
  const seen = [...canvas.pending].filter((painted) => isSeen(canvas, painted));
  for (const painted of seen) bring(canvas, painted);
  return seen.length > 0;
}

/** Elements brought between two looks at the clock. */
const atOnce = 16;

function followLater(canvas: Canvas): void {
  if (canvas.pending.size === 0) return;
  whenIdle(canvas, (hasTime) => {
    do {
      let count = 0;
      for (const painted of canvas.pending) {
        bring(canvas, painted);
        if (++count === atOnce) break;
      }
    } while (canvas.pending.size > 0 && hasTime());
    if (canvas.pending.size === 0) canvas.followed?.();
    else followLater(canvas);
  });
}

/** Another scale: what shows or hides by it has its turn. */
function noteHidden(canvas: Canvas, children: ReadonlyMap<string, Painted>): void {
  for (const painted of children.values()) {
    if (isHidden(canvas, painted.wanted) !== painted.hidden) {
      if (painted.children === null) canvas.pending.add(painted);
      else bring(canvas, painted);
    }
    if (painted.children !== null) noteHidden(canvas, painted.children);
  }
}

/** Whether something of the element is in sight, as it is or as it is to be. */
function isSeen({ sight, scale }: Canvas, { primitive, wanted, attributes, hidden }: Painted): boolean {
  if (sight === null) return true;
  if (attributes !== null && !hidden && meets(primitive, sight)) return true;
  return isShown(shownFrom(wanted), scale) && meets(wanted, sight);
}

function meets(primitive: Primitive, { left, top, right, bottom }: Box): boolean {
  const box = boxOf(primitive);
  return box !== null && box.left <= right && box.right >= left && box.top <= bottom && box.bottom >= top;
}

const boxes = new WeakMap<Primitive, Box | null>();

function boxOf(primitive: Primitive): Box | null {
  let box = boxes.get(primitive);
  if (box === undefined) {
    box = primitiveBox(primitive);
    boxes.set(primitive, box);
  }
  return box;
}

function isHidden({ scale }: Canvas, primitive: Primitive): boolean {
  return !isShown(shownFrom(primitive), scale);
}

function isShown(level: number, scale: number): boolean {
  return scale >= level - 1e-6;
}

/** The smallest scale at which a primitive shows. For text its size says so, which need not be sent. */
function shownFrom(primitive: Primitive): number {
  return primitive.shownFrom ?? (primitive.kind === 'text' ? legible / primitive.size : 0);
}

function changeAttributes(
  node: Element,
  before: Readonly<Record<string, string>>,
  after: Readonly<Record<string, string>>,
): void {
  for (const name in before) if (!(name in after)) node.removeAttribute(name);
  for (const name in after) if (before[name] !== after[name]) node.setAttribute(name, after[name]!);
}
