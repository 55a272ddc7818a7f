import { type EndSide, layerLetter } from '../../core/winding/model.ts';
import {
  type PageMessage,
  type PageState,
  type PanelContent,
  type PanelMarks,
  type PanelNotice,
  readHostMessage,
  readPageState,
} from '../messages.ts';
import type { Subject } from '../subject.ts';
import { firstWish, type PanelTable, type PanelView, type Wish } from '../wish.ts';
import { boxAround, readWanted, wantedBars } from './goTo.ts';
import { controlInstant } from './instant.ts';
import { type Marked, mark } from './marking.ts';
import { paint } from './paint.ts';
import { fillChoices, part, partOf, textElement } from './parts.ts';
import { listenToPointing } from './pointing.ts';
import { controlTable } from './shownTable.ts';
import { showFactors, showFigures } from './tables.ts';
import { controlTabs } from './tabs.ts';
import { controlView } from './viewControl.ts';
import { readZooms, type Zooms, zoomKey } from './zooms.ts';

/** What the editor gives to the page. */
interface EditorApi {
  readonly postMessage: (message: PageMessage) => void;
  readonly getState: () => unknown;
  readonly setState: (state: PageState) => void;
}

declare function acquireVsCodeApi(): EditorApi;

const editor = acquireVsCodeApi();
const content = part('content');
const notice = part('notice');
const stamp = part('stamp');
const drawing = part('drawing');
const area = part('area');
const phase = partOf('phase', HTMLSelectElement);
const path = partOf('path', HTMLSelectElement);
const layer = partOf('layer', HTMLSelectElement);
const side = partOf('side', HTMLSelectElement);
const tableChoice = partOf('table-choice', HTMLSelectElement);
const circle = partOf('circle', HTMLInputElement);
const search = partOf('search', HTMLInputElement);
const table = controlTable(partOf('table', HTMLTableElement));

const nothingMarked: Marked = { bars: [], joints: [], paths: [], chosen: null };

/** The text whose content is on the page, null before the first. */
let source: string | null = null;
/** What is shown, and what was asked for last. */
let shown: Wish | null = null;
let wish: Wish = firstWish;
let zooms: Zooms = {};
let marked = nothingMarked;
/** The places that the notice names, as text to compare with the next ones. */
let shownPlaces = '';
/** The pointer has not left since its thing was asked for. */
let pointsAtSomething = false;

const ask = (change: Partial<Wish>) => {
  wish = { ...wish, ...change };
  save();
  editor.postMessage({ kind: 'show', wish });
};

// Keys that step along a path come before those that move the picture.
listenToPointing(area, {
  point: (subject) => {
    pointsAtSomething = subject !== null;
    if (subject === null || source === null) part('pointed').textContent = '';
    else editor.postMessage({ kind: 'point', source, subject });
  },
  choose,
  step: (by) => {
    if (marked.chosen === null || source === null) return false;
    editor.postMessage({ kind: 'step', source, bar: marked.chosen, by });
    return true;
  },
  release: () => showMarks(nothingMarked, ''),
});
const views = controlView(
  { area, fit: part('fit'), zoomIn: part('zoom-in'), zoomOut: part('zoom-out') },
  (view) => {
    if (shown === null) return;
    zooms = { ...zooms, [zoomKey(shown)]: view };
    save();
  },
);
const turnTabs = controlTabs(part('tabs'), (view) => {
  instant.stop();
  ask({ view: view as PanelView });
});
const instant = controlInstant(
  {
    slider: partOf('instant', HTMLInputElement),
    value: part('instant-value'),
    play: partOf('play', HTMLButtonElement),
  },
  (next) => ask({ instant: next }),
);
phase.addEventListener('change', () => ask({ phase: phase.value || null }));
path.addEventListener('change', () => ask({ path: Number(path.value) || null }));
layer.addEventListener('change', () => ask({ layer: layer.value || null }));
side.addEventListener('change', () => ask({ side: (side.value as EndSide) || null }));
circle.addEventListener('change', () => ask({ wholeCircle: circle.checked }));
tableChoice.addEventListener('change', () => ask({ table: tableChoice.value as PanelTable }));
part('search-form').addEventListener('submit', (event) => {
  event.preventDefault();
  goTo(search.value);
});
part('copy').addEventListener('click', () => {
  editor.postMessage({ kind: 'copy', text: table.text() });
  part('copied').textContent = part('copied').dataset.words ?? '';
});

window.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  const message = readHostMessage(data);
  if (message?.kind === 'content') showContent(message);
  if (message?.kind === 'notice') showNotice(message);
  if (message?.source !== source) return;
  if (message?.kind === 'marks') hearMarks(message);
  if (message?.kind === 'name' && pointsAtSomething) part('pointed').textContent = message.words;
});
const kept = readPageState(editor.getState());
wish = kept?.wish ?? firstWish;
editor.postMessage({ kind: 'ready', wish: kept?.wish ?? null });

function showContent(next: PanelContent): void {
  content.hidden = false;
  notice.hidden = true;
  stamp.hidden = true;
  document.body.classList.remove('out-of-date');
  part('title').textContent = next.title;
  turnTo(next.source);
  const changed = shown === null || zoomKey(shown) !== zoomKey(next.wish);
  shown = next.wish;
  wish = next.wish;
  showControls(next);
  if (next.picture !== null) {
    part('description').textContent = next.picture.description;
    paint(drawing, next.picture);
    if (changed) views.restore(zooms[zoomKey(next.wish)] ?? null);
    views.repainted(next.picture);
    mark(drawing, marked);
    if (next.wish.view === 'field') instant.drawn(next.wish.instant);
  }
  if (next.table !== null) {
    part('table-title').textContent = next.table.title;
    table.show(next.table);
  }
  showFigures(part('figures'), next.keyFigures);
  showFactors(partOf('factors', HTMLTableElement), next.factorRows);
  save();
}

/** Brings the tabs and the tools of the view in step with what is shown. */
function showControls({ wish: { view, ...choices }, phases, paths, layers }: PanelContent): void {
  turnTabs(view);
  part('sheet').setAttribute('aria-labelledby', `panel-tab-${view}`);
  part('area').hidden = view === 'tables';
  part('line').hidden = view === 'tables';
  part('table-area').hidden = view !== 'tables';
  for (const tool of part('tools').querySelectorAll<HTMLElement>('[data-for]'))
    tool.hidden = !(tool.dataset.for ?? '').split(' ').includes(view);
  offer(phase, phases, choices.phase);
  offer(path, paths > 1 ? Array.from({ length: paths }, (_, index) => String(index + 1)) : [], choices.path);
  offer(
    layer,
    layers > 1 ? Array.from({ length: layers }, (_, index) => layerLetter(index)) : [],
    choices.layer,
  );
  side.value = choices.side ?? '';
  circle.checked = choices.wholeCircle;
  tableChoice.value = choices.table;
  part('copied').textContent = '';
}

/** Offers names after the choice of all; where there are none, there is nothing to choose. */
function offer(list: HTMLSelectElement, names: readonly string[], chosen: string | number | null): void {
  const all = { value: '', text: list.dataset.all ?? '' };
  const known = names.includes(String(chosen)) ? String(chosen) : '';
  fillChoices(list, [all, ...names.map((name) => ({ value: name, text: name }))], known);
  list.disabled = names.length === 0;
}

function showNotice(next: PanelNotice): void {
  if (next.source !== source) {
    content.hidden = true;
    turnTo(next.source);
  }
  document.body.classList.add('out-of-date');
  stamp.textContent = next.stamp;
  stamp.hidden = next.stamp === '';
  part('headline').textContent = next.headline;
  // A notice that comes again unchanged leaves its buttons alone: one may be under a pressed pointer.
  const places = JSON.stringify([next.source, next.places]);
  if (places !== shownPlaces) {
    part('places').replaceChildren(...next.places.map(({ text, range }) => placeItem(text, range)));
    shownPlaces = places;
  }
  notice.hidden = false;

  function placeItem(text: string, range: { readonly start: number; readonly end: number }): HTMLElement {
    const item = document.createElement('li');
    const button = textElement('button', text);
    button.setAttribute('type', 'button');
    button.addEventListener('click', () =>
      editor.postMessage({ kind: 'reveal', source: next.source, range }),
    );
    item.append(button);
    return item;
  }
}

function choose(subject: Subject): void {
  if (source !== null) editor.postMessage({ kind: 'choose', source, subject });
}

function hearMarks({ words, ...next }: PanelMarks): void {
  showMarks(next, words);
  if (next.chosen === null) return;
  const box = boxAround([...drawing.querySelectorAll(`[data-bar="${CSS.escape(next.chosen)}"]`)]);
  if (box !== null) views.bringIntoSight(box);
}

function showMarks(next: Marked, words: string): void {
  marked = next;
  mark(drawing, next);
  part('chosen').textContent = words;
  part('pointed').textContent = '';
  part('search-result').textContent = '';
}

/** Turns the picture to the place that was typed; a single bar is chosen, too. */
function goTo(text: string): void {
  const wanted = readWanted(text);
  const bars = wanted === null ? [] : wantedBars(drawing, wanted);
  const box = boxAround(bars);
  const result = part('search-result');
  result.textContent = box === null ? (result.dataset.words ?? '') : '';
  if (box === null) return;
  views.show(box);
  if (wanted?.kind === 'bar') choose({ bar: wanted.bar });
  area.focus();
}

/** Takes up the zooms kept for this text; a text seen for the first time is fitted into the area. */
function turnTo(next: string): void {
  if (next === source) return;
  source = next;
  const saved = readPageState(editor.getState());
  zooms = saved?.source === next ? readZooms(saved.zooms) : {};
  shown = null;
  showMarks(nothingMarked, '');
  save();
}

function save(): void {
  if (source !== null) editor.setState({ source, wish, zooms });
}
