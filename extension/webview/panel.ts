import type { Picture } from '../../core/picture/picture.ts';
import {
  type PageMessage,
  type PageState,
  readHostMessage,
  readPageState,
  readShare,
  type TextAct,
} from '../protocol/messages.ts';
import type { PanelState } from '../protocol/panelState.ts';
import type { PanelUpdate } from '../protocol/panelUpdate.ts';
import { createReplica } from '../protocol/replica.ts';
import {
  nothingMarked,
  type PanelControls,
  type PanelHeading,
  type PanelMarks,
  type PanelNotice,
} from '../protocol/shownParts.ts';
import type { Subject } from '../protocol/subject.ts';
import type { ViewContent } from '../protocol/viewContent.ts';
import {
  firstWish,
  type PanelPane,
  type PanelTable,
  type PanelView,
  panelPanes,
  type Wish,
} from '../protocol/wish.ts';
import { controlChoices } from './choices.ts';
import { controlConnections } from './connections.ts';
import { copyBlob, copyPicture } from './copyPicture.ts';
import { controlDivider } from './divider.ts';
import { whenShown } from './frames.ts';
import { boxOfSubjects, boxOfWanted, lastBar, readWanted, type Wanted } from './goTo.ts';
import { controlInstant } from './instant.ts';
import { controlLive } from './live.ts';
import { controlLoadedLater } from './loadedLater.ts';
import { mark } from './marking.ts';
import { showNotice } from './notice.ts';
import { controlOverflow } from './overflow.ts';
import { paint, paintRest } from './paint.ts';
import { filled, part, partOf, textElement, unbroken } from './parts.ts';
import { listenToPointing, type Pointing } from './pointing.ts';
import { showFactors, showFigures } from './tables/figures.ts';
import { controlTable } from './tables/shownTable.ts';
import { controlTabs } from './tabs.ts';
import { controlVariants } from './variants/load.ts';
import { controlVerdict } from './verdict.ts';
import { openingOf, roomOf } from './viewport/openings.ts';
import { controlOverview } from './viewport/overview.ts';
import { controlView } from './viewport/viewControl.ts';
import { readZooms, type Zooms, zoomKey } from './viewport/zooms.ts';

/** What the editor gives to the page. */
interface EditorApi {
  readonly postMessage: (message: PageMessage) => void;
  readonly getState: () => unknown;
  readonly setState: (state: PageState) => void;
}

declare function acquireVsCodeApi(): EditorApi;

const editor = acquireVsCodeApi();
const content = part('content');
const stamp = part('stamp');
const drawing = part('drawing');
const area = part('area');
const tableChoice = partOf('table-choice', HTMLSelectElement);
const search = partOf('search', HTMLInputElement);
const table = controlTable(partOf('table', HTMLTableElement), (place) => goToPlace(place));

const replica = createReplica();
/** The text whose content is on the page; null before the first, empty where there is none. */
let source: string | null = null;
/** Its name, kept for the time after a reload. */
let title = '';
/** The zoom of what is drawn; null while nothing is. */
let drawnZoom: string | null = null;
/** What was asked for last, and whether the answer is still to come. */
let wish: Wish = firstWish;
let asked = false;
let zooms: Zooms = {};
let pane: PanelPane = 'figures';
/** What changed while typing is on the page; its list is turned to when it comes. */
let comparing = false;
/** No pane has been shown yet. */
let firstPane = true;
/** The lower part's share of the height; null for where the divider begins. */
let lower: number | null = null;
let marked = nothingMarked;
/** The panel keeps to its text. */
let pinned = false;
/** What is searched for as soon as all slots are drawn; null for nothing. */
let searched: string | null = null;
/** What is marked is still to be brought into sight. */
let toFollow = false;
/** The pointer has not left since its thing was asked for. */
let pointsAtSomething = false;

const ask = (change: Partial<Wish>) => {
  wish = { ...wish, ...change };
  asked = true;
  save();
  editor.postMessage({ kind: 'show', wish });
};

/** Tells what the reader does with the text on the page; nothing while there is none. */
const tell = (act: TextAct) => {
  if (source) editor.postMessage({ source, ...act });
};

const pointing: Pointing = {
  point: (subject) => {
    pointsAtSomething = subject !== null;
    if (subject === null) part('pointed').textContent = '';
    else tell({ kind: 'point', subject });
  },
  choose,
  step: (by) => {
    if (marked.chosen === null) return false;
    tell({ kind: 'step', bar: marked.chosen, by });
    return true;
  },
  release: () => {
    showMarks(nothingMarked);
    tell({ kind: 'release' });
  },
};
const later = controlLoadedLater({
  area,
  drawing,
  marked: () => marked,
  draw: (act, subject, by) => tell({ kind: 'draw', act, subject, by }),
  against: (against) => tell({ kind: 'against', against }),
});
// Keys that step along a path come before those that move the picture.
listenToPointing(area, pointing);
// Of this script: the editor puts others before it that have none.
const nonce = document.currentScript?.nonce ?? '';
const live = controlLive(
  {
    area: part('live'),
    coloring: partOf('coloring', HTMLSelectElement),
    opened: partOf('opened', HTMLInputElement),
    openedValue: partOf('opened-value', HTMLOutputElement),
    why: part('live-why'),
    buttons: { fit: part('fit'), zoomIn: part('zoom-in'), zoomOut: part('zoom-out') },
    script: { address: part('live').dataset.script ?? '', nonce },
  },
  { pointing, changed: () => save(), failed: () => ask({ live: false }) },
);
const variants = controlVariants(part('variants'), nonce, {
  act: (act, numbers) => tell({ kind: 'variants', act, numbers }),
  changed: () => save(),
});
const views = controlView(
  {
    area,
    fit: part('fit'),
    zoomIn: part('zoom-in'),
    zoomOut: part('zoom-out'),
    seen: (seen) => overview.seen(seen),
  },
  (view) => {
    if (drawnZoom === null) return;
    zooms = { ...zooms, [drawnZoom]: view };
    save();
  },
);
const overview = controlOverview(
  {
    strip: part('overview'),
    canvas: partOf('overview-picture', HTMLCanvasElement),
    mark: part('overview-part'),
    drawing,
  },
  (share) => views.center(share),
);
const arrangeTabs = controlOverflow({
  row: part('tabs'),
  open: partOf('more-open', HTMLButtonElement),
  menu: part('more-list'),
});
const turnTabs = controlTabs(
  part('tabs'),
  (view) => {
    instant.stop();
    turnToView(view as PanelView);
  },
  arrangeTabs,
);
const turnPanes = controlTabs(part('lower-tabs'), (next) => showPane(next as PanelPane));
const verdict = controlVerdict({ reveal, turnTo: (next) => showPane(next) });
const showConnections = controlConnections({
  draw: (index) => tell({ kind: 'try', index }),
  write: (index) => tell({ kind: 'write', index }),
});
const divider = controlDivider(
  { divider: part('divider'), whole: content, lower: part('lower') },
  (share) => {
    lower = share;
    save();
    editor.postMessage({ kind: 'divide', lower });
  },
);
// The drawing is laid out for the room there is.
new ResizeObserver(() => askForRoom()).observe(part('stage'));
const instant = controlInstant(
  {
    slider: partOf('instant', HTMLInputElement),
    value: part('instant-value'),
    play: partOf('play', HTMLButtonElement),
  },
  (next) => ask({ instant: next }),
);
const showChoices = controlChoices(ask);
tableChoice.addEventListener('change', () => ask({ table: tableChoice.value as PanelTable }));
part('search-form').addEventListener('submit', (event) => {
  event.preventDefault();
  goTo(search.value);
});
part('copy').addEventListener('click', () => {
  editor.postMessage({ kind: 'copy', text: table.text() });
  sayDone('copied');
});
part('copy-picture').addEventListener('click', () => {
  if (part('stage').hidden) return;
  paintRest(drawing);
  const svg = drawing.querySelector('svg');
  const copied = live.isShown() ? copyBlob(live.picture()) : svg && copyPicture(svg);
  void copied?.then(
    () => sayDone('picture'),
    () => sayDone('refused'),
  );
});
part('export').addEventListener('click', () => tell({ kind: 'export' }));
part('search-open').addEventListener('click', () =>
  part('search-form').hidden ? openSearch() : closeSearch(),
);
part('search-close').addEventListener('click', closeSearch);
part('search-form').addEventListener('keydown', ({ key }) => {
  if (key === 'Escape') closeSearch();
});
window.addEventListener('keydown', (event) => {
  if (event.key.toLowerCase() !== 'f' || !(event.ctrlKey || event.metaKey) || event.altKey || event.shiftKey)
    return;
  event.preventDefault();
  openSearch();
});

window.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  const message = readHostMessage(data);
  if (message?.kind === 'update') hear(message);
  if (message?.kind === 'pinned') {
    pinned = message.pinned;
    save();
  }
  if (message?.kind === 'name' && message.source === source && pointsAtSomething)
    part('pointed').textContent = message.words;
});
const kept = readPageState(editor.getState());
wish = kept?.wish ?? firstWish;
wish = { ...wish, live: wish.view === 'space' && live.possible() };
live.restore(kept?.space);
variants.restore(kept?.variants);
pane = panelPanes.find((each) => each === kept?.pane) ?? 'figures';
// The divider stands where it was put last, in this panel or in one before it.
lower = readShare(kept?.lower) ?? readShare(Number(content.dataset.lower || Number.NaN));
divider.restore(lower);
showPane(pane);
pinned = kept?.pinned ?? false;
comparing = kept?.comparing === true;
if (kept?.title) part('title').textContent = kept.title;
editor.postMessage({ kind: 'ready', wish: kept?.wish ? wish : null });

/** Follows an update and answers it once it is on the screen. What cannot be followed or shown is asked for anew. */
function hear(update: PanelUpdate): void {
  const answer = (followed: boolean) =>
    editor.postMessage({ kind: 'shown', version: update.version, followed });
  const before = update.base === 0 ? null : replica.state();
  if (!replica.take(update)) {
    answer(false);
    return;
  }
  try {
    show(before, replica.state()!);
  } catch (problem) {
    replica.forget();
    answer(false);
    throw problem;
  }
  whenShown(() => answer(true));
}

/** Brings the page from one state to the next; parts that stay themselves are left alone. */
function show(before: PanelState | null, state: PanelState): void {
  const isNew = (name: keyof PanelState) => state[name] !== before?.[name];
  const { heading, controls, view } = state;
  const { wish: present } = controls;
  if (isNew('heading')) showHeading(heading);
  if (isNew('notice')) showNotice(state.notice, reveal);
  // Variants are there where the text as it stands makes no winding.
  content.hidden = controls.layers === 0 && present.view !== 'variants';
  if (isNew('controls')) showControls(controls);
  if (isNew('view') || zoomKey(present) !== drawnZoom) showView(view, present);
  // An instant may be asked for that looks like the last one.
  if (present.view === 'field' && (isNew('view') || isNew('controls'))) instant.drawn(present.instant);
  if (isNew('figures')) showFigures(part('figures'), state.figures);
  if (isNew('factors')) showFactors(partOf('factors', HTMLTableElement), state.factors);
  if (isNew('findings')) verdict.showFindings(state.findings);
  if (isNew('limits')) verdict.showLimits(state.limits);
  if (isNew('connections')) showConnections(state.connections);
  part('verdict').hidden = heading.waiting || heading.source === '';
  showStamp(state.notice);
  if (isNew('marks')) hearMarks(state.marks, before !== null);
  showLater(before, state);
  followMarks();
  askForRoom();
  save();
}

/** A drawing by hand, and what changed while typing: both mark bars, in whatever drawing is shown. */
function showLater(before: PanelState | null, { drawing: drawn, difference, view }: PanelState): void {
  const marksBars = drawn !== null || difference !== null;
  if (drawn !== before?.drawing || difference !== before?.difference || (marksBars && view !== before?.view))
    later.show(drawn, difference);
  if (difference !== null && !comparing) showPane('changes');
  comparing = difference !== null;
}

function showHeading(heading: PanelHeading): void {
  turnTo(heading.source);
  if (heading.title !== '') title = heading.title;
  // Until the text is read its name is the one it had, if it was shown before.
  part('title').textContent = title || (part('title').dataset.words ?? '');
  part('file').textContent = heading.file;
  part('title').title = heading.file;
  part('waiting').hidden = !heading.waiting;
}

function showView(view: ViewContent | null, present: Wish): void {
  const zoom = zoomKey(present);
  area.classList.toggle('blank', view?.kind !== 'picture');
  area.hidden = view?.kind === 'solids';
  live.show(view?.kind === 'solids' ? view.solids : null);
  variants.show(view?.kind === 'variants' ? view : null);
  for (const tool of part('tools').querySelectorAll<HTMLElement>('[data-live]'))
    tool.hidden = area.hidden === false;
  if (view?.kind === 'picture') {
    showNotes(view.picture.description, view.picture.notes);
    if (drawnZoom !== zoom) views.restore(zooms[zoom] ?? null);
    views.repainted(view.picture, openingOf(present));
    paint(drawing, view.picture, () => {
      mark(drawing, marked);
      later.again();
    });
    mark(drawing, marked);
  }
  if (view?.kind === 'solids') showNotes(view.description, view.notes);
  // No drawing is shown: what is said of the last one, of another text perhaps, is not about this.
  if (view?.kind === 'variants') showNotes(title);
  const withStrip = view?.kind === 'picture' && (present.view === 'layout' || present.view === 'section');
  overview.show(withStrip ? view.picture : null);
  if (view?.kind === 'table') {
    part('table-title').textContent = view.table.title;
    showNotes(view.table.title);
    table.show(view.table);
  }
  drawnZoom = zoom;
  if (searched === null || !present.wholeCircle) return;
  const text = searched;
  searched = null;
  goTo(text);
}

function showNotes(description: string, notes: readonly string[] = []): void {
  part('description').textContent = description;
  part('notes').replaceChildren(...notes.map((note) => textElement('li', unbroken(note))));
  part('notes-none').hidden = notes.length > 0;
}

/** Turns to a view; the bars in space come live where the browser can show them so. */
function turnToView(view: PanelView): void {
  if (view === 'space') live.retry();
  ask({ view, live: view === 'space' && live.possible() });
}

/** The picture that is shown; null while there is none. */
function drawnPicture(): Picture | null {
  const view = replica.state()?.view;
  return view?.kind === 'picture' ? view.picture : null;
}

/** The part of the page that the drawing is in. */
function drawnArea(): HTMLElement {
  return live.isShown() ? part('live') : area;
}

/** Brings the tabs and the tools of the view in step with what is shown. */
function showControls(controls: PanelControls): void {
  const { wish: present } = controls;
  // A choice made meanwhile stands until it is answered itself.
  if (asked && JSON.stringify(present) !== JSON.stringify(wish)) return;
  asked = false;
  wish = present;
  const { view } = present;
  turnTabs(view);
  arrangeTabs();
  content.dataset.view = view;
  part('sheet').setAttribute('aria-labelledby', `panel-tab-${view}`);
  const drawn = view !== 'tables' && view !== 'variants';
  part('stage').hidden = !drawn;
  partOf('copy-picture', HTMLButtonElement).disabled = !drawn;
  part('table-area').hidden = view !== 'tables';
  for (const tool of part('tools').querySelectorAll<HTMLElement>('[data-for]'))
    tool.hidden =
      !(tool.dataset.for ?? '').split(' ').includes(view) ||
      (tool.dataset.live !== undefined && !live.isShown());
  live.control(controls);
  showChoices(controls);
  tableChoice.value = present.table;
  part('done').textContent = '';
}

/** Opens the search; from a view without positions it turns to the layout. */
function openSearch(): void {
  part('search-form').hidden = false;
  part('search-open').setAttribute('aria-expanded', 'true');
  if (!['layout', 'section', 'phasors', 'space'].includes(wish.view)) turnToView('layout');
  // The hint is a place of this winding.
  const picture = drawnPicture();
  const last = live.isShown() ? live.find(allSlots).at(-1) : picture && lastBar(picture);
  search.placeholder = last ?? '';
  search.focus();
  search.select();
}

function closeSearch(): void {
  part('search-form').hidden = true;
  part('search-open').setAttribute('aria-expanded', 'false');
  drawnArea().focus();
}

function sayDone(what: 'copied' | 'picture' | 'refused'): void {
  part('done').textContent = part('done').dataset[what] ?? '';
}

/** Shows what stands below the drawing. */
function showPane(next: PanelPane): void {
  // Connections are looked for while their list is open.
  if ((next === 'connections') !== (pane === 'connections') || firstPane)
    editor.postMessage({ kind: 'connections', open: next === 'connections' });
  firstPane = false;
  pane = next;
  turnPanes(next);
  for (const each of panelPanes) part(`pane-${each}`).hidden = each !== next;
  save();
}

/** Asks for a drawing that fills its area, where that has another size by now. */
function askForRoom(): void {
  const { offsetWidth, offsetHeight } = part('stage');
  if (offsetWidth === 0 || content.hidden || source === '') return;
  const room = roomOf({ width: offsetWidth, height: offsetHeight }, wish.room);
  if (room !== wish.room) ask({ room });
}

/** Words over the drawing: why it is not the present text's, or that it has errors. */
function showStamp(words: PanelNotice | null): void {
  const errors = verdict.errors();
  const released = filled(errors === 1 ? stamp.dataset.one : stamp.dataset.many, errors);
  stamp.textContent = words?.stamp || (errors > 0 && replica.state()?.view ? released : '');
}

function reveal(place: string): void {
  tell({ kind: 'reveal', place });
}

/** Goes to what a row of a table stands for: bar and text, or the text alone. */
function goToPlace(place: string): void {
  const [kind, name = ''] = place.split(' ');
  if (kind === 'bar') choose({ bar: name });
  else if (kind === 'joint' || kind === 'slot')
    choose(kind === 'joint' ? { joint: Number(name) } : { slot: Number(name) });
  else reveal(place);
}

function choose(subject: Subject): void {
  if (!later.chosen(subject)) tell({ kind: 'choose', subject });
}

function hearMarks(next: PanelMarks, isNew: boolean): void {
  showMarks(next);
  // A page that comes back stays where the reader left it.
  toFollow = isNew;
}

/** Brings what is marked into sight, once the drawing is there; of whole paths there is no one place to see. */
function followMarks(): void {
  if (!toFollow || part('stage').hidden) return;
  toFollow = false;
  const { chosen, bars, joints } = marked;
  if (live.isShown()) {
    live.bringIntoSight(chosen === null ? bars : [chosen]);
    return;
  }
  const names = chosen === null ? bars.slice(0, mostFollowed + 1) : [chosen];
  const picture = drawnPicture();
  if (picture === null || names.length + joints.length > mostFollowed) return;
  const box = boxOfSubjects(picture, names, joints);
  if (box !== null) views.bringIntoSight(box);
}

/** More slots than any winding has. */
const allSlots: Wanted = { kind: 'slots', first: 1, last: Number.MAX_SAFE_INTEGER };

/** Bars and joints that are brought into sight together. */
const mostFollowed = 4;

function showMarks(next: PanelMarks): void {
  marked = next;
  mark(drawing, next);
  live.mark(next);
  part('chosen').textContent = next.words;
  part('pointed').textContent = '';
  part('search-result').textContent = '';
}

/** Turns the picture to the place that was typed; a single bar is chosen, too. */
function goTo(text: string): void {
  const wanted = readWanted(text);
  const result = part('search-result');
  if (live.isShown()) {
    const found = wanted === null ? [] : live.find(wanted);
    result.textContent = found.length === 0 ? (result.dataset.words ?? '') : '';
    if (found.length === 0) return;
    live.turnTo(found);
    if (wanted?.kind === 'bar') choose({ bar: wanted.bar });
    part('live').focus();
    return;
  }
  const picture = drawnPicture();
  const box = wanted && picture && boxOfWanted(picture, wanted);
  if (box === null && wanted !== null && wish.view === 'section' && !wish.wholeCircle) {
    // The section shows one repetition; the place may lie in another.
    searched = text;
    ask({ wholeCircle: true });
    return;
  }
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
  const same = saved?.source === next ? saved : null;
  zooms = readZooms(same?.zooms);
  live.restore(same?.space);
  variants.restore(same?.variants);
  title = same?.title ?? '';
  drawnZoom = null;
  search.value = '';
  part('search-result').textContent = '';
}

function save(): void {
  if (source)
    editor.setState({
      source,
      title,
      wish,
      zooms,
      space: live.state(),
      variants: variants.state(),
      pane,
      lower,
      pinned,
      comparing,
    });
}
