import type { Solids } from '../../../core/views/space/solids.ts';
import type { Marked } from '../marking.ts';
import type { Pointing } from '../pointing.ts';

/** What the colors of bars stand for. */
export const colorings = ['phase', 'path', 'layer'] as const;
export type Coloring = (typeof colorings)[number];

/** Where the eye is, as it is kept over a reload: angles in radians, how often larger than fitted, and m off the middle. */
export interface Eye {
  /** About the axis, as `cameraAt` takes it, and above the connection side. */
  readonly turn: number;
  readonly above: number;
  readonly zoom: number;
  /** Of what is seen, and upwards, in the plane of the screen. */
  readonly right: number;
  readonly up: number;
}

/** How the reader wants to see the bars; which stand out is told by what the whole panel shows. */
export interface SpaceLook {
  readonly coloring: Coloring;
  /** Layers that are taken away, from the outermost. */
  readonly opened: number;
}

/** What is to stand out from the rest, as the page's choices say it; null for all alike. */
export interface Standing {
  /** Index from 0. */
  readonly phase: number | null;
  /** Number from 1. */
  readonly path: number | null;
  /** Index from 0, nearest the axis first. */
  readonly layer: number | null;
  readonly side: string | null;
}

/** The look if the value is one, else that at first. */
export function readLook(value: unknown): SpaceLook {
  if (typeof value !== 'object' || value === null) return firstLook;
  const { coloring, opened } = value as Partial<Record<keyof SpaceLook, unknown>>;
  const known = colorings.find((name) => name === coloring);
  return known && Number.isInteger(opened) && Number(opened) >= 0
    ? { coloring: known, opened: Number(opened) }
    : firstLook;
}

const firstLook: SpaceLook = { coloring: 'phase', opened: 0 };

/** The live view: it draws when something changes, and only then. */
export interface LiveSpace {
  readonly show: (solids: Solids) => void;
  readonly look: (look: SpaceLook, standing: Standing) => void;
  readonly mark: (marked: Marked) => void;
  /** Turns bars to the front, gently. */
  readonly turnTo: (bars: readonly string[]) => void;
  /** The same, where they are behind. */
  readonly bringIntoSight: (bars: readonly string[]) => void;
  readonly fit: () => void;
  /** Seen as before from somewhere; null: from where it is seen at first. */
  readonly face: (seen: Eye | null) => void;
  readonly zoom: (factor: number) => void;
  /** The editor's colors have changed. */
  readonly recolor: () => void;
  /** What is seen at present, as a picture. */
  readonly picture: () => Promise<Blob>;
  readonly end: () => void;
}

/** Who hears of what happens in the live view. */
export interface LiveHooks extends Omit<Pointing, 'subjectAt'> {
  /** The reader turned, zoomed or moved the view; null for as it opens. */
  readonly moved: (eye: Eye | null) => void;
  /** The graphics processor is gone: nothing is drawn any more. */
  readonly lost: () => void;
}

/** Starts the live view in an area of the page; throws where the browser cannot draw it. */
export type StartLiveSpace = (area: HTMLElement, eye: Eye | null, hooks: LiveHooks) => LiveSpace;

declare global {
  interface Window {
    /** Put here by the live view's own script. */
    slotwrightSpace?: StartLiveSpace;
  }
}
