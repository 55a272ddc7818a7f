import type { Room } from '../../core/views/room.ts';
import type { EndSide } from '../../core/winding/model.ts';

/** The views of the panel, in the order of their tabs. */
export const panelViews = [
  'layout',
  'section',
  'phasors',
  'field',
  'copper',
  'operation',
  'space',
  'variants',
  'tables',
] as const;
export type PanelView = (typeof panelViews)[number];

/** The tables, in the order of their menu. */
export const panelTables = [
  'slots',
  'bars',
  'joints',
  'leads',
  'paths',
  'factors',
  'bends',
  'duty',
  'findings',
] as const;
export type PanelTable = (typeof panelTables)[number];

/** What stands below the drawing, in the order of its tabs. */
export const panelPanes = [
  'figures',
  'waves',
  'limits',
  'findings',
  'connections',
  'changes',
  'notes',
] as const;
export type PanelPane = (typeof panelPanes)[number];

const endSides: readonly EndSide[] = ['connection', 'far'];

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
  /** The page can show the bars in space live, to be turned; else they are a picture. */
  readonly live: boolean;
  /** The room there is for the drawing. */
  readonly room: Room;
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
  live: false,
  // Half a window of usual size.
  room: { width: 104, height: 92 },
};

/** The wish if the value is one, else null; further parts are left out. */
export function readWish(value: unknown): Wish | null {
  if (typeof value !== 'object' || value === null) return null;
  const { view, phase, path, layer, side, instant, wholeCircle, table, live, room } = value as Partial<
    Record<keyof Wish, unknown>
  >;
  if (!isOneOf(panelViews, view) || !isOneOf(panelTables, table)) return null;
  if (phase !== null && typeof phase !== 'string') return null;
  if (path !== null && typeof path !== 'number') return null;
  if (layer !== null && typeof layer !== 'string') return null;
  if (side !== null && !isOneOf(endSides, side)) return null;
  if (typeof instant !== 'number' || !(instant >= 0 && instant < 360)) return null;
  if (typeof wholeCircle !== 'boolean') return null;
  return {
    view,
    phase,
    path,
    layer,
    side,
    instant,
    wholeCircle,
    table,
    live: live === true,
    room: readRoom(room),
  };
}

/** A room of legible size; the usual one where the value is none, as in what older versions saved. */
function readRoom(value: unknown): Room {
  if (typeof value !== 'object' || value === null) return firstWish.room;
  const { width, height } = value as Partial<Record<keyof Room, unknown>>;
  return isLength(width) && isLength(height) ? { width, height } : firstWish.room;
}

function isLength(value: unknown): value is number {
  return typeof value === 'number' && value > 0 && value <= 10_000;
}

function isOneOf<Name extends string>(names: readonly Name[], value: unknown): value is Name {
  return (names as readonly unknown[]).includes(value);
}
