import type { Baseline, ShownDifference, ShownDrawing } from '../protocol/panelState.ts';
import type { DrawAct, Subject } from '../protocol/subject.ts';
import type { Marked } from './marking.ts';
import { part, partOf } from './parts.ts';

/** Drawing paths by hand, and what changed while typing: all but their beginning is loaded when it is first shown. */
export interface LoadedLater {
  readonly show: (shown: ShownDrawing | null, difference: ShownDifference | null) => void;
  /** What a click on a thing means while a path is drawn; false where it means what it always does. */
  readonly chosen: (subject: Subject) => boolean;
}

/** What a reader does there. */
export interface LaterActs {
  readonly draw: (act: DrawAct, subject: Subject | null, by: 1 | -1 | 0) => void;
  readonly against: (baseline: Baseline) => void;
}

/** Connects the buttons, choices and keys that begin it. */
export function controlLoadedLater(
  area: HTMLElement,
  marked: () => Marked,
  { draw: act, against }: LaterActs,
): LoadedLater {
  let shown: ShownDrawing | null = null;
  let asked = false;
  let changes: ShownDifference | null = null;
  let show: LoadedLater['show'] = () => {};
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
      show(shown, changes);
    });
    document.body.append(script);
  };
  const choice = partOf('against', HTMLSelectElement);
  choice.addEventListener('change', () => against(choice.value as Baseline));
  part('keep').addEventListener('click', () => against('kept'));
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
    show: (next, difference) => {
      if (next !== null || difference !== null) load();
      changes = difference;
      if ((next === null) !== (shown === null)) {
        shown = next;
        open(false);
      }
      shown = next;
      show(next, difference);
    },
    chosen: (subject) => {
      if (shown === null) return false;
      if ('bar' in subject) act('take', subject, 0);
      return true;
    },
  };
}
