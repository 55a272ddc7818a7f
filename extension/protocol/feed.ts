import type { PanelState } from './panelState.ts';
import { type PanelUpdate, panelChanges } from './panelUpdate.ts';

/**
 * Feeds one page with what a panel shows: one update under way at a time, the next one made when the page has
 * shown the last, from what there is to show by then. So what a fast writer overtakes is neither drawn nor sent.
 */
export interface Feed {
  /** There may be something new to show. */
  readonly changed: () => void;
  /** A page has begun, and shows nothing yet. */
  readonly begun: () => void;
  /** The page is gone, as it is when it is hidden; nothing is sent until another begins. */
  readonly gone: () => void;
  /** The page has shown an update, or could not follow it. */
  readonly answered: (version: number, followed: boolean) => void;
}

/** A feed that asks for what there is to show, null for nothing yet, and posts the updates. */
export function createFeed(present: () => PanelState | null, post: (update: PanelUpdate) => void): Feed {
  let begun = false;
  let version = 0;
  let base = 0;
  /** What the page shows once it has answered; null while it shows nothing. */
  let shown: PanelState | null = null;
  let underWay = false;
  /** There may be something new since the last update was made. */
  let stale = false;

  const send = () => {
    if (!begun || underWay || !stale) return;
    stale = false;
    const state = present();
    const changes = state && panelChanges(shown, state);
    if (changes === null) return;
    base = shown === null ? 0 : version;
    shown = state;
    version++;
    underWay = true;
    post({ kind: 'update', version, base, changes });
  };
  const forget = () => {
    shown = null;
    underWay = false;
    stale = true;
  };
  return {
    changed: () => {
      stale = true;
      send();
    },
    begun: () => {
      begun = true;
      forget();
      send();
    },
    gone: () => {
      begun = false;
      forget();
    },
    answered: (answeredVersion, followed) => {
      if (!underWay || answeredVersion !== version) return;
      underWay = false;
      if (!followed) {
        // The page has something else than was meant, and gets all of it; if it was all, with the next change.
        shown = null;
        stale ||= base > 0;
      }
      send();
    },
  };
}
