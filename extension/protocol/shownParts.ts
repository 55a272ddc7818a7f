import type { FactorTableRow } from '../../core/report/figures.ts';
import type { Wish } from './wish.ts';

/** The columns of the factor table, in order. */
export const factorColumns = [
  'order',
  'harmonic',
  'distribution',
  'pitch',
  'skew',
  'winding',
  'wave',
  'direction',
] as const satisfies readonly (keyof FactorTableRow)[];

/** Which winding is open, whatever is shown of it. */
export interface PanelHeading {
  /** Address of the document, kept by the page so that a reloaded window finds it again; empty while there is none. */
  readonly source: string;
  /** Name of its file, `pod-drive.winding`. */
  readonly file: string;
  /** The winding's own name; empty while the text has not been read. */
  readonly title: string;
  /** The text is still being read: what is shown comes later. */
  readonly waiting: boolean;
}

/** A finding of the present text. */
export interface ShownFinding {
  readonly severity: 'error' | 'warning' | 'info';
  readonly message: string;
  /** Name of its place in the text. */
  readonly place: string;
}

/** A limit of the require block, and how the winding stands to it. */
export interface ShownLimit {
  /** `torque`, `winding-factor harmonic 5`. */
  readonly name: string;
  /** `>= 100 Nm`. */
  readonly limit: string;
  /** Empty where it cannot be computed, or is being computed. */
  readonly value: string;
  /** What is in hand: `+2.6 %`; empty where there is no measure for it. */
  readonly margin: string;
  readonly state: 'fails' | 'unknown' | 'waits' | 'holds';
  /** Name of its place in the text. */
  readonly place: string;
}

/** Something the page offers to jump to; the extension knows where its place is in the present text. */
export interface Place {
  readonly text: string;
  /** Name of the place, made from content, never from offsets: `finding span-too-long 1`, `limit 3`, `path U 1`. */
  readonly place: string;
}

/** What is shown no longer follows from the text, or nothing can be shown: why, and the places to mend. */
export interface PanelNotice {
  /** One or two words beside the title; empty where nothing is shown at all. */
  readonly stamp: string;
  /** Empty where the stamp says it all. */
  readonly headline: string;
  readonly places: readonly Place[];
}

/** What was asked for, which the page's own controls follow, and what there is to choose from. */
export interface PanelControls {
  readonly wish: Wish;
  /** Names of the phases, in order. */
  readonly phases: readonly string[];
  /** Parallel paths of a phase, 0 while bars are not joined, and layers. */
  readonly paths: number;
  readonly layers: number;
}

/** The connections to choose from in place of the one that was found. */
export interface ShownConnections {
  /** `none`: there are none, or nobody has looked for them; `written`: the text writes its paths. */
  readonly status: 'none' | 'written' | 'searching' | 'found';
  /** What each costs, a cell for each column behind its number; the first is what the text gives. */
  readonly rows: readonly (readonly string[])[];
  /** Index of the row that is drawn. */
  readonly drawn: number;
}

/** A path of the winding: index of its phase, and its number from 1. */
export interface PathMark {
  readonly phase: number;
  readonly path: number;
}

/** What stands out in the picture: what the text's cursor stands on, or what the reader chose. */
export interface PanelMarks {
  readonly bars: readonly string[];
  /** Numbers of joints, from 1. */
  readonly joints: readonly number[];
  readonly paths: readonly PathMark[];
  /** The bar from which the arrow keys step on; null for none. */
  readonly chosen: string | null;
  /** What it is, in one line; empty for nothing. */
  readonly words: string;
}

/** A path that is drawn by hand, or a joint that is to lead elsewhere: what can be taken, and how it stands. */
export interface ShownDrawing {
  /** Index of the phase that is drawn. */
  readonly phase: number;
  /** What was done, and what comes next, in a sentence or two. */
  readonly words: string;
  /** How the paths of the phase stand, a line each. */
  readonly lines: readonly string[];
  /** Bars that can be taken, the nearest to regular first, and which of them a key takes. */
  readonly next: readonly { readonly bar: string; readonly kind: 'regular' | 'special' | 'piece' }[];
  /** Index among them of the one that a key takes. */
  readonly marked: number;
  /** It is a joint that is changed. */
  readonly joint: boolean;
}

/** With what the text is compared while it is typed: nothing, its last commit, or a state that the reader kept. */
export const baselines = ['off', 'commit', 'kept'] as const;
export type Baseline = (typeof baselines)[number];

/** What changed against the baseline. */
export interface ShownDifference {
  readonly against: Baseline;
  /** What changed in a sentence, or why that cannot be told. */
  readonly words: string;
  /** Figure, before, now. */
  readonly rows: readonly (readonly string[])[];
  /** Bars and joints of the drawing that are not as they were. */
  readonly bars: readonly string[];
  /** Numbers of joints, from 1. */
  readonly joints: readonly number[];
}

export const nothingMarked: PanelMarks = { bars: [], joints: [], paths: [], chosen: null, words: '' };

export const nothingListed: ShownConnections = { status: 'none', rows: [], drawn: 0 };
