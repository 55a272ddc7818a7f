import type { Picture } from '../../core/picture/picture.ts';
import { lookAt, paint } from '../../extension/webview/paint.ts';
import {
  fitView,
  type Opening,
  openingView,
  type Size,
  sightOf,
} from '../../extension/webview/viewport/viewport.ts';

/** Milliseconds from the start of a redraw until the frame with all that is in view, and until the rest is painted too. */
export interface RedrawTime {
  readonly inView: number;
  readonly all: number;
}

/** What `panel.ts` calls on the page. */
declare global {
  interface Window {
    /** Times of redraws in an area of that size, as the panel opens a layout or with all of it in view; the pictures take turns. */
    redraw: (
      pictures: readonly Picture[],
      times: number,
      area: Size,
      opening: Opening,
    ) => Promise<readonly RedrawTime[]>;
  }
}

window.redraw = async (pictures, times, area, opening) => {
  const container = document.createElement('div');
  container.style.width = `${area.width}px`;
  container.style.height = `${area.height}px`;
  document.body.replaceChildren(container);
  const spent: RedrawTime[] = [];
  for (let turn = 0; turn < times; turn++) {
    const picture = pictures[turn % pictures.length]!;
    const view = opening === 'whole' ? fitView(picture, area) : openingView(opening, picture, area);
    spent.push(
      await redrawn(container, () => {
        lookAt(container, sightOf(view, area), view.scale);
        paint(container, picture, () => {});
      }),
    );
  }
  return spent;
};

/** Milliseconds without a change after which nothing is thought to follow any more. */
const quiet = 300;

/** Times until the browser has styled, laid out and painted what the work changed, and what followed on it. */
async function redrawn(container: HTMLElement, work: () => void): Promise<RedrawTime> {
  let start = 0;
  await new Promise<void>((resolve) => {
    requestAnimationFrame(() => {
      start = performance.now();
      afterFrame(resolve);
      work();
    });
  });
  const inView = performance.now() - start;
  let all = inView;
  await new Promise<void>((resolve) => {
    let timer = setTimeout(resolve, quiet);
    const watch = new MutationObserver(() => {
      clearTimeout(timer);
      timer = setTimeout(resolve, quiet);
      requestAnimationFrame(() => afterFrame(() => (all = performance.now() - start)));
    });
    watch.observe(container, { subtree: true, childList: true, attributes: true, characterData: true });
  });
  return { inView, all };
}

/** A message that is sent from within a frame arrives when that frame is done. */
function afterFrame(done: () => void): void {
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = () => {
    port1.close();
    done();
  };
  port2.postMessage(null);
}
