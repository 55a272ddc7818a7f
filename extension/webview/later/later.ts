import type { ShownDifference, ShownDrawing } from '../../protocol/panelState.ts';
import type { DrawAct } from '../../protocol/subject.ts';

/** What the panel's page gives to the part of it that is loaded when a reader first draws by hand or compares. */
export interface LaterHooks {
  /** The area with the drawing, which has the focus while keys draw. */
  readonly area: HTMLElement;
  readonly drawing: HTMLElement;
  readonly act: (act: DrawAct, by?: 1 | -1) => void;
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
