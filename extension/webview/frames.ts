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
