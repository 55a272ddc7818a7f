import { type PanelState, panelParts } from './panelState.ts';
import { followState, type StateChanges, stateChanges } from './stateParts.ts';
import { type Fields, hasOnly, isCount, isRecord } from './values.ts';

/** What changes of the parts of a panel. */
export type PanelChanges = StateChanges<PanelState>;

/** One step of what the panel shows. The page answers each with `shown`, and only then gets the next. */
export interface PanelUpdate {
  readonly kind: 'update';
  /** Counts the updates of a panel, from 1. */
  readonly version: number;
  /** The version these changes follow on; 0 for a page that shows nothing yet, which forgets what it has. */
  readonly base: number;
  readonly changes: PanelChanges;
}

/** What changes from one state to another, the first being null for a page that shows nothing; null for nothing. */
export function panelChanges(before: PanelState | null, state: PanelState): PanelChanges | null {
  return stateChanges(panelParts, before, state);
}

/** The state that follows from the one before; null where the changes do not fit. */
export function followChanges(before: PanelState | null, changes: PanelChanges): PanelState | null {
  return followState(panelParts, before, changes);
}

/** The update if the value is one that a page can try to follow, else null. Changes are read when they are followed. */
export function readUpdate(value: Fields): PanelUpdate | null {
  const { version, base, changes } = value;
  const good =
    hasOnly(value, ['kind', 'version', 'base', 'changes']) &&
    isCount(version) &&
    isCount(base) &&
    0 <= base &&
    base < version &&
    isRecord(changes);
  return good ? { kind: 'update', version, base, changes } : null;
}
