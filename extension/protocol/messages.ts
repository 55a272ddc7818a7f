import { type PanelUpdate, readUpdate } from './panelUpdate.ts';
import { type Baseline, baselines } from './shownParts.ts';
import { type DrawAct, drawActs, readSubject, type Subject } from './subject.ts';
import { hasTexts, isCount, isListOf, isRecord } from './values.ts';
import { readWish, type Wish } from './wish.ts';

/** The answer to `point`: what is under the pointer, in one line. */
export interface PanelName {
  readonly kind: 'name';
  readonly source: string;
  readonly words: string;
}

/** Whether the panel keeps to its text, which the page keeps over a reload of the window. */
export interface PanelPinned {
  readonly kind: 'pinned';
  readonly pinned: boolean;
}

/** All that the extension tells the page. */
export type HostMessage = PanelUpdate | PanelName | PanelPinned;

/** All that the page tells the extension. */
export type PageMessage =
  /** The page begins, and shows nothing yet. */
  | { readonly kind: 'ready'; readonly wish: Wish | null }
  /** An update is on the screen; or it could not be followed, and the page needs all of it. */
  | { readonly kind: 'shown'; readonly version: number; readonly followed: boolean }
  /** The reader wants another view, phase, instant or table. */
  | { readonly kind: 'show'; readonly wish: Wish }
  /** A place that the page offers to jump to, by its name. */
  | { readonly kind: 'reveal'; readonly source: string; readonly place: string }
  /** The pointer rests on something. */
  | { readonly kind: 'point'; readonly source: string; readonly subject: Subject }
  /** The reader chose something: its text is to be selected. */
  | { readonly kind: 'choose'; readonly source: string; readonly subject: Subject }
  /** Nothing is chosen any more. */
  | { readonly kind: 'release'; readonly source: string }
  /** The reader goes on along the path, forwards or backwards. */
  | { readonly kind: 'step'; readonly source: string; readonly bar: string; readonly by: 1 | -1 }
  /** The reader wants to export a drawing of this text. */
  | { readonly kind: 'export'; readonly source: string }
  /** The list of connections comes on the page or goes. */
  | { readonly kind: 'connections'; readonly open: boolean }
  /** One of the connections is to be drawn. */
  | { readonly kind: 'try'; readonly source: string; readonly index: number }
  /** One of the connections is to be written into the text. */
  | { readonly kind: 'write'; readonly source: string; readonly index: number }
  /** What the reader does with the variants of the text; `numbers` are the candidates it is about. */
  | {
      readonly kind: 'variants';
      readonly source: string;
      readonly act: VariantsAct;
      readonly numbers: readonly number[];
    }
  /** The reader moved the divider; null for where it begins. */
  | { readonly kind: 'divide'; readonly lower: number | null }
  /** The reader draws a path by hand: what is done, to what, and by how many steps. */
  | {
      readonly kind: 'draw';
      readonly source: string;
      readonly act: DrawAct;
      readonly subject: Subject | null;
      readonly by: number;
    }
  /** With what the reader wants the text compared while it is typed. */
  | { readonly kind: 'against'; readonly source: string; readonly against: Baseline }
  /** A table for the clipboard. */
  | { readonly kind: 'copy'; readonly text: string };

/** What the reader does with a text, before it is said with which. */
export type TextAct = WithoutSource<Extract<PageMessage, { readonly source: string }>>;
type WithoutSource<Message> = Message extends unknown ? Omit<Message, 'source'> : never;

/** What is done with each kind of message of the page. */
export type PageAnswers = {
  readonly [Kind in PageMessage['kind']]: (message: Extract<PageMessage, { readonly kind: Kind }>) => void;
};

/** Judges them, ends that, writes a question; opens one as a text, takes one over, sets some side by side. */
const variantsActs = ['run', 'cancel', 'vary', 'open', 'take', 'beside'] as const;
export type VariantsAct = (typeof variantsActs)[number];

/** Most candidates that stand side by side. */
export const mostBeside = 4;

/** What the page keeps over a reload of the window. The views' zooms are read by the page alone. */
export interface PageState {
  readonly source: string;
  /** Name of the winding, shown while a reloaded page waits; empty where it is not known. */
  readonly title: string;
  readonly wish: Wish | null;
  readonly zooms: unknown;
  /** How the bars in space are seen live; read by the page alone. */
  readonly space?: unknown;
  /** How the variants are seen: axes, columns, order; read by the page alone. */
  readonly variants?: unknown;
  /** What stands below the drawing, and its share of the height; read by the page alone. */
  readonly pane?: unknown;
  readonly lower?: unknown;
  readonly pinned: boolean;
  /** Whether changes while typing were shown; read by the page alone. */
  readonly comparing?: unknown;
}

/** The message if it is one that the page can act on, else null. */
export function readHostMessage(value: unknown): HostMessage | null {
  if (!isRecord(value)) return null;
  if (value.kind === 'update') return readUpdate(value);
  if (value.kind === 'pinned')
    return typeof value.pinned === 'boolean' ? { kind: 'pinned', pinned: value.pinned } : null;
  if (value.kind !== 'name' || !hasTexts(value, ['source', 'words'])) return null;
  return value as unknown as PanelName;
}

const longestCopy = 20_000_000;

/** The message if it is one that the extension can act on, else null; further parts are left out. */
export function readPageMessage(value: unknown): PageMessage | null {
  if (!isRecord(value)) return null;
  const { kind, source, text, version, followed } = value;
  const wish = readWish(value.wish);
  if (kind === 'ready') return { kind, wish };
  if (kind === 'shown')
    return isCount(version) && typeof followed === 'boolean' ? { kind, version, followed } : null;
  if (kind === 'show') return wish === null ? null : { kind, wish };
  if (kind === 'copy') return typeof text === 'string' && text.length <= longestCopy ? { kind, text } : null;
  if (kind === 'divide') return { kind, lower: readShare(value.lower) };
  if (kind === 'connections') return typeof value.open === 'boolean' ? { kind, open: value.open } : null;
  if (typeof source !== 'string') return null;
  if (kind === 'try' || kind === 'write')
    return isCount(value.index) ? { kind, source, index: value.index } : null;
  if (kind === 'variants') {
    const act = variantsActs.find((each) => each === value.act);
    const { numbers } = value;
    return act && isListOf(numbers, isCount) && numbers.length <= mostBeside
      ? { kind, source, act, numbers }
      : null;
  }
  if (kind === 'release' || kind === 'export') return { kind, source };
  if (kind === 'reveal') return typeof value.place === 'string' ? { kind, source, place: value.place } : null;
  if (kind === 'step') {
    const { bar, by } = value;
    return typeof bar === 'string' && (by === 1 || by === -1) ? { kind, source, bar, by } : null;
  }
  const subject = readSubject(value.subject);
  if (kind === 'against') {
    const against = baselines.find((each) => each === value.against);
    return against === undefined ? null : { kind, source, against };
  }
  if (kind === 'draw') {
    const act = drawActs.find((each) => each === value.act);
    const { by } = value;
    return act !== undefined && (by === 1 || by === -1 || by === 0)
      ? { kind, source, act, subject, by }
      : null;
  }
  return (kind === 'point' || kind === 'choose') && subject !== null ? { kind, source, subject } : null;
}

/** A share of a height, between 0 and 1; null where the value is none. */
export function readShare(value: unknown): number | null {
  return typeof value === 'number' && value > 0 && value < 1 ? value : null;
}

/** The state if it is one that a page of ours saved, else null. */
export function readPageState(value: unknown): PageState | null {
  if (!isRecord(value) || typeof value.source !== 'string') return null;
  const title = typeof value.title === 'string' ? value.title : '';
  const { source, zooms, space, variants, pane, lower, comparing } = value;
  const pinned = value.pinned === true;
  const own = { zooms, space, variants, pane, lower, comparing };
  return { source, title, wish: readWish(value.wish), ...own, pinned };
}
