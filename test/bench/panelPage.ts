import type { Picture } from '../../core/picture/picture.ts';
import { paint } from '../../extension/webview/paint.ts';

/** What `panel.ts` calls on the page. */
declare global {
  interface Window {
    /** Milliseconds from the start of each redraw until its frame is drawn; the pictures take turns. */
    redraw: (pictures: readonly Picture[], times: number) => Promise<readonly number[]>;
  }
}

window.redraw = async (pictures, times) => {
  const container = document.createElement('div');
  document.body.replaceChildren(container);
  const spent: number[] = [];
  for (let turn = 0; turn < times; turn++)
    spent.push(await frame(() => paint(container, pictures[turn % pictures.length]!)));
  return spent;
};

/** Time from the start of the work until the browser has styled, laid out and painted what it changed. */
function frame(work: () => void): Promise<number> {
  return new Promise((resolve) => {
    requestAnimationFrame(() => {
      const start = performance.now();
      const { port1, port2 } = new MessageChannel();
      // A message sent from within a frame arrives when that frame is done.
      port1.onmessage = () => resolve(performance.now() - start);
      work();
      port2.postMessage(null);
    });
  });
}
