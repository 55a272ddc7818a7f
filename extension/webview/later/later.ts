import type { Baseline, ShownDifference, ShownDrawing } from '../../protocol/shownParts.ts';
import type { DrawAct, Subject } from '../../protocol/subject.ts';
import type { Marked } from '../marking.ts';

/** What the panel's page gives to the part of it that is loaded later: drawing by hand, and comparing while typing. */
export interface LaterHooks {
  /** The area with the drawing, which has the focus while keys draw. */
  readonly area: HTMLElement;
  readonly drawing: HTMLElement;
  /** What stands out at present: where a drawing begins. */
  readonly marked: () => Marked;
  readonly draw: (act: DrawAct, subject: Subject | null, by: 1 | -1 | 0) => void;
  readonly against: (baseline: Baseline) => void;
}

/** The part of the page that is loaded later. */
export interface Later {
  /**
   * Shows what can be taken, and how it stands, and what changed; null ends either. To be called again after each
   * painting.
   */
  readonly show: (shown: ShownDrawing | null, difference: ShownDifference | null) => void;
}

/** Takes over the parts of the page that are its own. */
export type StartLater = (hooks: LaterHooks) => Later;

declare global {
  interface Window {
    slotwrightLater?: StartLater;
  }
}
