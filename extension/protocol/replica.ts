import type { PanelState } from './panelState.ts';
import { followChanges, type PanelUpdate } from './panelUpdate.ts';

/** The page's copy of what the panel shows. */
export interface Replica {
  /** Null while nothing came. */
  readonly state: () => PanelState | null;
  /** Takes an update; false where it does not follow on what is here, which is forgotten then. */
  readonly take: (update: PanelUpdate) => boolean;
  /** Forgets all, so that only a whole state is taken next. */
  readonly forget: () => void;
}

/** A copy of nothing yet. */
export function createReplica(): Replica {
  let state: PanelState | null = null;
  let version = 0;
  return {
    state: () => state,
    take: (update) => {
      const fits = update.base === 0 || (state !== null && update.base === version);
      state = fits ? followChanges(update.base === 0 ? null : state, update.changes) : null;
      version = update.version;
      return state !== null;
    },
    forget: () => {
      state = null;
    },
  };
}
