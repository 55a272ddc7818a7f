import {
  type PageMessage,
  type PageState,
  type PanelContent,
  type PanelNotice,
  readHostMessage,
  readPageState,
} from '../messages.ts';
import { paint } from './paint.ts';
import { showFactors, showFigures, textElement } from './tables.ts';
import { controlView } from './viewControl.ts';
import { readView, type View } from './viewport.ts';

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
const views = controlView(
  { area: part('area'), fit: part('fit'), zoomIn: part('zoom-in'), zoomOut: part('zoom-out') },
  (view) => save(view),
);

/** The text whose content is on the page, null before the first. */
let source: string | null = null;

window.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  const message = readHostMessage(data);
  if (message?.kind === 'content') showContent(message);
  if (message?.kind === 'notice') showNotice(message);
});
editor.postMessage({ kind: 'ready' });

function showContent(next: PanelContent): void {
  content.hidden = false;
  notice.hidden = true;
  stamp.hidden = true;
  document.body.classList.remove('out-of-date');
  part('title').textContent = next.title;
  part('description').textContent = next.picture.description;
  paint(drawing, next.picture);
  turnTo(next.source);
  views.repainted(next.picture);
  showFigures(part('figures'), next.keyFigures);
  showFactors(part('factors') as HTMLTableElement, next.factorRows);
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
  part('places').replaceChildren(...next.places.map(({ text, range }) => placeItem(text, range)));
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

/** Takes up the view kept for this text; a text seen for the first time is fitted into the area. */
function turnTo(next: string): void {
  if (next === source) return;
  source = next;
  const kept = readPageState(editor.getState());
  const view = kept?.source === next ? readView(kept.view) : null;
  views.restore(view);
  save(view);
}

function save(view: View | null): void {
  if (source !== null) editor.setState({ source, view });
}

/** The page's part of that name; panelPage.ts writes them. */
function part(name: string): HTMLElement {
  const element = document.getElementById(`panel-${name}`);
  if (element === null) throw new RangeError(`The page has no part "${name}"`);
  return element;
}
