/** Sends one thing at a time to a page that answers each: what was overtaken meanwhile is never sent. */
export interface Turns {
  /** There is something new to show. */
  readonly changed: () => void;
  /** The page begins, and shows nothing yet. */
  readonly begun: () => void;
  /** The page is hidden or gone: nothing is sent until another begins. */
  readonly gone: () => void;
  /** What was sent last is on the screen. */
  readonly answered: () => void;
}

/** Turns at sending; `send` makes what there is to show by then and posts it. */
export function createTurns(send: () => void): Turns {
  let begun = false;
  let underWay = false;
  let stale = false;
  const next = () => {
    if (!begun || underWay || !stale) return;
    stale = false;
    underWay = true;
    send();
  };
  return {
    changed: () => {
      stale = true;
      next();
    },
    begun: () => {
      begun = true;
      underWay = false;
      stale = true;
      next();
    },
    gone: () => {
      begun = false;
      underWay = false;
      stale = true;
    },
    answered: () => {
      underWay = false;
      next();
    },
  };
}
