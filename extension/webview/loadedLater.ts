import type { ShownDifference, ShownDrawing } from '../protocol/shownParts.ts';
import type { Subject } from '../protocol/subject.ts';
import type { Later, LaterHooks } from './later/later.ts';
import { loadScript } from './loadScript.ts';
import { part } from './parts.ts';

/** Drawing paths by hand, and what changed while typing. */
export interface LoadedLater {
  readonly show: Later['show'];
  /** Shows it again, where the drawing has been painted further. */
  readonly again: () => void;
  /** What a click on a thing means while a path is drawn; false where it means what it always does. */
  readonly chosen: (subject: Subject) => boolean;
}

/** Loads all of it when the reader first turns to the page, or there is something of it to show. */
export function controlLoadedLater(hooks: LaterHooks): LoadedLater {
  let drawn: ShownDrawing | null = null;
  let changes: ShownDifference | null = null;
  let asked = false;
  let later: Later | undefined;
  let pressed: HTMLElement | null = null;
  const load = () => {
    if (asked) return;
    asked = true;
    const { nonce = '', script: address = '' } = part('hand').dataset;
    loadScript({ address, nonce }, () => {
      later = window.slotwrightLater?.(hooks);
      later?.show(drawn, changes);
      if (later) pressed?.click();
      pressed = null;
    });
  };
  // What is pressed before it is there is pressed again once it is.
  for (const name of ['by-hand', 'keep'])
    part(name).addEventListener('click', () => {
      if (later === undefined) pressed = part(name);
      load();
    });
  for (const event of ['focusin', 'pointermove']) window.addEventListener(event, load, { once: true });
  return {
    show: (next, difference) => {
      drawn = next;
      changes = difference;
      if (next !== null || difference !== null) load();
      later?.show(next, difference);
    },
    again: () => {
      if (drawn !== null || changes !== null) later?.show(drawn, changes);
    },
    chosen: (subject) => {
      if (drawn === null) return false;
      if ('bar' in subject) hooks.draw('take', subject, 0);
      return true;
    },
  };
}
