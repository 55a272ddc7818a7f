import { type OrthographicCamera, Vector3 } from 'three';
import type { SolidName } from '../../../core/views/space/solids.ts';
import type { Size } from '../viewport/viewport.ts';

/** Names of terminals and star points beside the ends they name. */
export interface Names {
  readonly show: (names: readonly SolidName[]) => void;
  /** Puts those of the side that is seen where their ends are; of names that would lie on each other the first. */
  readonly place: (camera: OrthographicCamera, area: Size, fromAbove: boolean) => void;
  /** Writes those that are seen onto a canvas, with pixels of the page a times as large. */
  readonly write: (context: CanvasRenderingContext2D, times: number, ink: string, ground: string) => void;
}

/** Pixels between an end and the foot of its name. */
const lift = 6;

export function controlNames(area: HTMLElement): Names {
  let all: readonly { readonly name: SolidName; readonly element: HTMLElement }[] = [];
  const at = new Vector3();
  return {
    show: (names) => {
      for (const { element } of all) element.remove();
      all = names.map((name) => {
        const element = document.createElement('span');
        element.className = 'space-name';
        element.textContent = name.text;
        area.append(element);
        return { name, element };
      });
    },
    place: (camera, { width, height }, fromAbove) => {
      const taken: DOMRect[] = [];
      for (const { name, element } of all) {
        element.hidden = (name.side === 'connection') !== fromAbove;
        if (element.hidden) continue;
        at.set(...name.at).project(camera);
        const left = ((at.x + 1) / 2) * width - element.offsetWidth / 2;
        const top = ((1 - at.y) / 2) * height - element.offsetHeight - lift;
        const box = new DOMRect(left, top, element.offsetWidth, element.offsetHeight);
        const free = taken.every(
          (other) =>
            box.right <= other.left ||
            other.right <= box.left ||
            box.bottom <= other.top ||
            other.bottom <= box.top,
        );
        if (free) taken.push(box);
        element.hidden = !free;
        element.style.transform = `translate(${Math.round(left)}px, ${Math.round(top)}px)`;
      }
    },
    write: (context, times, ink, ground) => {
      const origin = area.getBoundingClientRect();
      context.textBaseline = 'middle';
      context.lineJoin = 'round';
      for (const { element } of all) {
        if (element.hidden) continue;
        const box = element.getBoundingClientRect();
        const style = getComputedStyle(element);
        context.font = `${style.fontWeight} ${Number.parseFloat(style.fontSize) * times}px ${style.fontFamily}`;
        const [x, y] = [(box.left - origin.left) * times, (box.top - origin.top + box.height / 2) * times];
        context.strokeStyle = ground;
        context.lineWidth = 4 * times;
        context.strokeText(element.textContent ?? '', x, y);
        context.fillStyle = ink;
        context.fillText(element.textContent ?? '', x, y);
      }
    },
  };
}
