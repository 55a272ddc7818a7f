import type { ShownDrawing } from '../protocol/panelState.ts';
import type { DrawAct, Subject } from '../protocol/subject.ts';
import type { Marked } from './marking.ts';
import { part } from './parts.ts';

/** Drawing paths by hand; all but its beginning is loaded when it is first shown. */
export interface ByHand {
  readonly show: (shown: ShownDrawing | null) => void;
  /** What a click on a thing means while a path is drawn; false where it means what it always does. */
  readonly chosen: (subject: Subject) => boolean;
}

/** Connects the buttons and keys that begin to draw; `act` tells what the reader does. */
export function controlByHand(
  area: HTMLElement,
  marked: () => Marked,
  act: (act: DrawAct, subject: Subject | null, by: 1 | -1 | 0) => void,
): ByHand {
  let shown: ShownDrawing | null = null;
  let asked = false;
  let show = (_: ShownDrawing | null) => {};
  const opener = part('by-hand');
  const open = (wanted: boolean) => {
    part('hand').hidden = !wanted && shown === null;
    part('hand-begin').hidden = shown !== null;
    part('hand-state').hidden = shown === null;
    opener.setAttribute('aria-expanded', String(!part('hand').hidden));
  };
  const begin = (what: DrawAct) => {
    const { chosen, bars, joints } = marked();
    const bar = chosen ?? (bars.length === 1 ? bars[0]! : null);
    const [joint] = joints;
    act(what, bar !== null ? { bar } : joint === undefined ? null : { joint }, 0);
  };
  const load = () => {
    if (asked) return;
    asked = true;
    const script = document.createElement('script');
    // Of the page's own script; its policy lets others in by this word alone.
    script.nonce = part('hand').dataset.nonce ?? '';
    script.src = part('hand').dataset.script ?? '';
    script.addEventListener('load', () => {
      const later = window.slotwrightLater?.({
        area,
        drawing: part('drawing'),
        act: (what, by) => act(what, null, by ?? 0),
      });
      if (later === undefined) return;
      show = later.show;
      show(shown);
    });
    document.body.append(script);
  };
  opener.addEventListener('click', () => open(part('hand').hidden === true));
  part('draw').addEventListener('click', () => begin('path'));
  part('redraw').addEventListener('click', () => begin('phase'));
  part('lead').addEventListener('click', () => begin('joint'));
  area.addEventListener('keydown', (event) => {
    const what = ({ d: 'path', D: 'phase', j: 'joint' } as const)[event.key];
    if (what === undefined || shown !== null || opener.hidden) return;
    if (!event.ctrlKey && !event.metaKey && !event.altKey) begin(what);
  });
  return {
    show: (next) => {
      if (next !== null) load();
      if ((next === null) !== (shown === null)) {
        shown = next;
        open(false);
      }
      shown = next;
      show(next);
    },
    chosen: (subject) => {
      if (shown === null) return false;
      if ('bar' in subject) act('take', subject, 0);
      return true;
    },
  };
}
