/** Longest time to wait for a frame, in milliseconds: a window that is covered draws none. */
const longestWait = 500;

/** Calls back once what was just changed on the page has been drawn. */
export function whenShown(done: () => void): void {
  let over = false;
  const end = () => {
    if (over) return;
    over = true;
    clearTimeout(timer);
    done();
  };
  const timer = setTimeout(end, longestWait);
  requestAnimationFrame(() => {
    // A message sent from within a frame arrives when that frame is done.
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      end();
    };
    port2.postMessage(null);
  });
}

/** Milliseconds of work in a pause, where the browser does not say how long the pause is. */
const slice = 6;
/** Milliseconds after which a turn comes even without a pause. */
const longestPause = 400;

const awaited = new WeakSet<object>();

/**
 * Does some work in the first pause after the next frame; `hasTime` tells whether the pause lasts. A work of the same
 * owner that is still to come is done instead.
 */
export function whenIdle(owner: object, work: (hasTime: () => boolean) => void): void {
  if (awaited.has(owner)) return;
  awaited.add(owner);
  const turn = (hasTime: () => boolean) => {
    awaited.delete(owner);
    work(hasTime);
  };
  whenShown(() => {
    // Not every browser tells of pauses.
    if (typeof requestIdleCallback === 'function')
      requestIdleCallback((pause) => turn(pause.didTimeout ? untilOver() : () => pause.timeRemaining() > 1), {
        timeout: longestPause,
      });
    else setTimeout(() => turn(untilOver()), slice);
  });
}

function untilOver(): () => boolean {
  const end = performance.now() + slice;
  return () => performance.now() < end;
}
