import {
  type ComparedPlace,
  type ComparedSide,
  type ComparisonContent,
  type ComparisonNotice,
  type ComparisonPageMessage,
  type ComparisonState,
  type ComparisonView,
  type Difference,
  readComparison,
  readComparisonState,
} from '../protocol/comparisonMessages.ts';
import type { Subject } from '../protocol/subject.ts';
import type { ShownTable } from '../protocol/viewContent.ts';
import { whenShown } from './frames.ts';
import { paint } from './paint.ts';
import { part, textElement } from './parts.ts';
import { controlTable } from './tables/shownTable.ts';
import { controlTabs } from './tabs.ts';
import { controlView, type ViewControl } from './viewport/viewControl.ts';
import type { Pixels, View } from './viewport/viewport.ts';

/** What the editor gives to the page. */
interface EditorApi {
  readonly postMessage: (message: ComparisonPageMessage) => void;
  readonly getState: () => unknown;
  readonly setState: (state: ComparisonState) => void;
}

declare function acquireVsCodeApi(): EditorApi;

const editor = acquireVsCodeApi();
const names = ['overlay', 'old', 'now'] as const;
/** The layouts, and beside them the bars in space, which have a view of their own. */
type DrawingName = (typeof names)[number] | 'space';

let shown: ComparisonContent | null = null;
let view: ComparisonView = readComparisonState(editor.getState())?.view ?? 'overlay';
let step = -1;

/** The drawings share one view, so that the same place is seen in each. */
const views: Readonly<Record<DrawingName, ViewControl>> = {
  overlay: control('overlay'),
  old: control('old'),
  now: control('now'),
  space: control('space'),
};
const turnTabs = controlTabs(part('tabs'), (next) => {
  view = next as ComparisonView;
  turn();
  if (step >= 0) bringStep();
});
part('next').addEventListener('click', () => goOn(1));
part('previous').addEventListener('click', () => goOn(-1));
part('swap').addEventListener('click', () => editor.postMessage({ kind: 'swap' }));

window.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  const content = readComparison(data);
  if (content === null) return;
  show(content);
  whenShown(() => editor.postMessage({ kind: 'shown' }));
});
editor.postMessage({ kind: 'ready' });

function control(name: DrawingName): ViewControl {
  const buttons = { fit: part('fit'), zoomIn: part('zoom-in'), zoomOut: part('zoom-out') };
  return controlView({ area: part(`area-${name}`), ...buttons }, (next) => follow(name, next));
}

/** A hidden drawing has no size of its own to follow by; it takes the view over when it is shown. */
function follow(from: DrawingName, next: View | null): void {
  if (from === 'space' || part(`area-${from}`).clientWidth === 0) return;
  for (const name of names) if (name !== from) views[name].restore(next && movedView(next, from, name));
}

/** The view of another drawing with the same bars in its middle: overhangs differ in height, margins in width. */
function movedView(next: View, from: DrawingName, to: DrawingName): View {
  const [here, there] = [anchorOf(from), anchorOf(to)];
  return here && there ? { ...next, x: next.x + there.x - here.x, y: next.y + there.y - here.y } : next;
}

/** Where the first bar begins in a drawing, in its millimeters; read from its path, as the drawing may be hidden. */
function anchorOf(name: DrawingName): Pixels | null {
  const path = part(`drawing-${name}`).querySelector('[data-bar="1a"]')?.getAttribute('d') ?? '';
  const [x, y] = (path.match(/-?[\d.]+/g) ?? []).map(Number);
  return x === undefined || y === undefined ? null : { x, y };
}

function show(content: ComparisonContent): void {
  shown = content;
  part('content').hidden = false;
  part('waiting').hidden = true;
  showNotice(content.notice);
  part('headline').textContent = content.headline;
  part('details').replaceChildren(...content.details.map((text) => textElement('li', text)));
  draw('overlay', content.overlay);
  draw('space', content.space);
  part('no-space').textContent = content.noSpace;
  showSide('old', content.old);
  showSide('now', content.now);
  part('tables').replaceChildren(...content.tables.map(tableSection));
  if (step >= content.differences.length) step = -1;
  turn();
  light();
}

/** Says that what is compared is older than the text, or only what could be read of it, and where to mend it. */
function showNotice(notice: ComparisonNotice | null): void {
  part('notice').hidden = notice === null;
  document.body.classList.toggle('out-of-date', notice !== null);
  part('stamp').textContent = notice?.stamp ?? '';
  part('broken').textContent = notice?.headline ?? '';
  part('places').replaceChildren(...(notice?.places ?? []).map(placeItem));
}

function placeItem({ source, text, place }: ComparedPlace): HTMLElement {
  const item = document.createElement('li');
  const button = textElement('button', text);
  button.setAttribute('type', 'button');
  button.addEventListener('click', () => editor.postMessage({ kind: 'reveal', source, place }));
  item.append(button);
  return item;
}

function showSide(name: 'old' | 'now', side: ComparedSide): void {
  part(`${name}-name`).textContent = side.name;
  part(`${name}-about`).textContent = side.about;
  part(`name-${name}`).textContent = side.name;
  draw(name, side.picture);
}

function draw(name: DrawingName, picture: ComparisonContent['overlay']): void {
  part(`area-${name}`).hidden = picture === null;
  part(`description-${name}`).textContent = picture?.description ?? '';
  if (picture === null) return;
  // As the layout does: legible, to be scrolled sideways.
  views[name].repainted(picture, 'height');
  paint(part(`drawing-${name}`), picture);
}

function turn(): void {
  turnTabs(view);
  part('sheet').setAttribute('aria-labelledby', `panel-tab-${view}`);
  for (const tool of document.querySelectorAll<HTMLElement>('[data-for]'))
    tool.hidden = !(tool.dataset.for ?? '').split(' ').includes(view);
  if (shown === null) return;
  part('missing').hidden = view !== 'overlay' || shown.overlay !== null;
  const drawn = view === 'overlay' ? shown.overlay : view === 'space' ? shown.space : null;
  part('legend').hidden = drawn === null;
  part('drawing-notes').textContent = drawn?.notes?.join(' ') ?? '';
  const { old, now } = shown;
  editor.setState({
    old: old.source,
    now: now.source,
    oldName: old.name,
    oldAbout: old.about,
    nowName: now.name,
    nowAbout: now.about,
    view,
  });
}

let tables = 0;

function tableSection({ title, columns, rows }: ShownTable): HTMLElement {
  const section = document.createElement('section');
  const head = textElement('h3', title);
  head.id = `panel-compared-${tables++}`;
  const element = document.createElement('table');
  for (const named of [section, element]) named.setAttribute('aria-labelledby', head.id);
  controlTable(element).show({ title, columns, rows });
  section.append(head, element);
  return section;
}

/** Goes to the next difference, or the one before, round and round. */
function goOn(by: 1 | -1): void {
  const count = shown?.differences.length ?? 0;
  if (count === 0) return;
  step = step < 0 ? (by > 0 ? 0 : count - 1) : (step + by + count) % count;
  light();
  bringStep();
}

/** Brings the difference at hand into sight. */
function bringStep(): void {
  for (const name of names) {
    const box = boxAround([...part(`drawing-${name}`).querySelectorAll('.lit')]);
    if (box !== null && part(`area-${name}`).clientWidth > 0) views[name].show(box);
  }
}

/** The smallest box round elements of a picture, in its millimeters; null for none. */
function boxAround(elements: readonly Element[]): DOMRect | null {
  const boxes = elements.map((element) => (element as SVGGraphicsElement).getBBox());
  if (boxes.length === 0) return null;
  const left = Math.min(...boxes.map(({ x }) => x));
  const top = Math.min(...boxes.map(({ y }) => y));
  const right = Math.max(...boxes.map(({ x, width }) => x + width));
  const bottom = Math.max(...boxes.map(({ y, height }) => y + height));
  return new DOMRect(left, top, right - left, bottom - top);
}

/** Lights the difference at hand in every drawing, and says which one it is. */
function light(): void {
  const differences = shown?.differences ?? [];
  const at = differences[step];
  for (const element of document.querySelectorAll('.lit')) element.classList.remove('lit', 'chosen');
  if (at !== undefined)
    for (const name of names)
      for (const element of elementsOf(name, at)) element.classList.add('lit', 'chosen');
  for (const name of ['previous', 'next']) part(name).toggleAttribute('disabled', differences.length === 0);
  part('step').textContent =
    at === undefined ? (shown?.counted ?? '') : `${step + 1} / ${differences.length}: ${at.words}`;
}

function elementsOf(name: DrawingName, { old, now }: Difference): readonly Element[] {
  const drawing = part(`drawing-${name}`);
  const found = (subject: Subject | null, kind: string) =>
    subject === null ? [] : [...drawing.querySelectorAll(`${selector(subject)}${kind}`)];
  if (name === 'old') return found(old, '');
  if (name === 'now') return found(now, '');
  // In the overlay a number may stand for a joint that is gone and for a new one.
  if (now !== null && 'bar' in now) return found(now, '');
  return [...found(old, '.removed-line'), ...found(now, '.added-line')];
}

function selector(subject: Subject): string {
  if ('bar' in subject) return `[data-bar="${CSS.escape(subject.bar)}"]`;
  return 'joint' in subject ? `[data-joint="${subject.joint}"]` : ':not(*)';
}
