import type { EndSide } from '../core/winding/model.ts';

/** The views of the panel, in the order of their tabs. */
export const panelViews = ['layout', 'section', 'phasors', 'field', 'copper', 'tables'] as const;
export type PanelView = (typeof panelViews)[number];

/** The tables, in the order of their menu. */
export const panelTables = ['slots', 'bars', 'joints', 'leads', 'paths', 'factors', 'findings'] as const;
export type PanelTable = (typeof panelTables)[number];

export const endSides: readonly EndSide[] = ['connection', 'far'];

/** What the reader wants to see. */
export interface Wish {
  readonly view: PanelView;
  /** What stands out: phase by name, parallel path by number, layer by letter, side; null for all alike. */
  readonly phase: string | null;
  readonly path: number | null;
  readonly layer: string | null;
  readonly side: EndSide | null;
  /** Electrical degrees of the instant that the field view shows, 0 <= instant < 360. */
  readonly instant: number;
  /** All slots in the section instead of one repetition. */
  readonly wholeCircle: boolean;
  readonly table: PanelTable;
}

/** What a panel shows at first. */
export const firstWish: Wish = {
  view: 'layout',
  phase: null,
  path: null,
  layer: null,
  side: null,
  instant: 0,
  wholeCircle: false,
  table: 'slots',
};

/** The wish if the value is one, else null; further parts are left out. */
export function readWish(value: unknown): Wish | null {
  if (typeof value !== 'object' || value === null) return null;
  const { view, phase, path, layer, side, instant, wholeCircle, table } = value as Partial<
    Record<keyof Wish, unknown>
  >;
  if (!isOneOf(panelViews, view) || !isOneOf(panelTables, table)) return null;
  if (phase !== null && typeof phase !== 'string') return null;
  if (path !== null && typeof path !== 'number') return null;
  if (layer !== null && typeof layer !== 'string') return null;
  if (side !== null && !isOneOf(endSides, side)) return null;
  if (typeof instant !== 'number' || !(instant >= 0 && instant < 360)) return null;
  if (typeof wholeCircle !== 'boolean') return null;
  return { view, phase, path, layer, side, instant, wholeCircle, table };
}

function isOneOf<Name extends string>(names: readonly Name[], value: unknown): value is Name {
  return (names as readonly unknown[]).includes(value);
}

/** Whether all of a picture is to look alike: nothing stands out. */
export function allAlike({ phase, path, layer, side }: Wish): boolean {
  return phase === null && path === null && layer === null && side === null;
}
