import { type OrthographicCamera, Vector3 } from 'three';
import type { Vector } from '../../../core/space/vectors.ts';
import type { SolidName, SolidPlace } from '../../../core/views/space/solids.ts';
import type { Size } from '../viewport/viewport.ts';
import { placeNames } from './namePlaces.ts';

/** Names of terminals and star points beside the ends they name, and rings with letters round marked places. */
export interface Names {
  readonly show: (names: readonly SolidName[], places: readonly SolidPlace[]) => void;
  /**
   * Puts those of the side that is seen where their ends are, aside at lines where they would lie on each other.
   * `hides` tells what stands before a marked place; without it rings stay as they were.
   */
  readonly place: (
    camera: OrthographicCamera,
    area: Size,
    fromAbove: boolean,
    hides: ((at: Vector) => boolean) | null,
  ) => void;
  /** Writes those that are seen onto a canvas, with pixels of the page a times as large. */
  readonly write: (context: CanvasRenderingContext2D, times: number, ink: string, ground: string) => void;
}

export function controlNames(area: HTMLElement): Names {
  let all: readonly {
    readonly name: SolidName;
    readonly element: HTMLElement;
    readonly line: HTMLElement;
  }[] = [];
  let rings: readonly { readonly place: SolidPlace; readonly element: HTMLElement }[] = [];
  const at = new Vector3();
  return {
    show: (names, places) => {
      for (const { element } of [...all, ...rings]) element.remove();
      rings = places.map((place) => {
        const element = document.createElement('span');
        element.className = place.fault ? 'space-place fault' : 'space-place';
        const letter = document.createElement('span');
        letter.className = 'space-name';
        letter.textContent = place.letter;
        element.append(letter);
        area.append(element);
        return { place, element };
      });
      all = names.map((name) => {
        const element = document.createElement('span');
        element.className = 'space-name';
        element.textContent = name.text;
        const line = document.createElement('span');
        line.className = 'space-line';
        element.append(line);
        area.append(element);
        return { name, element, line };
      });
    },
    place: (camera, { width, height }, fromAbove, hides) => {
      for (const { place, element } of rings) {
        at.set(...place.at).project(camera);
        element.style.transform = `translate(${((at.x + 1) / 2) * width}px, ${((1 - at.y) / 2) * height}px)`;
        if (hides) element.classList.toggle('behind', hides(place.at));
      }
      for (const { name, element } of all) element.hidden = (name.side === 'connection') !== fromAbove;
      const shown = all.filter(({ element }) => !element.hidden);
      const ends = shown.map(({ name, element }) => {
        at.set(...name.at).project(camera);
        return {
          text: name.text,
          at: { x: ((at.x + 1) / 2) * width, y: ((1 - at.y) / 2) * height },
          size: { width: element.offsetWidth, height: element.offsetHeight },
        };
      });
      for (const [index, place] of placeNames(ends, { width, height }).entries()) {
        const { element, line } = shown[index]!;
        element.hidden = place === null;
        if (!place) continue;
        const { corner } = place;
        element.style.transform = `translate(${Math.round(corner.x)}px, ${Math.round(corner.y)}px)`;
        line.hidden = place.line === null;
        if (!place.line) continue;
        const end = ends[index]!.at;
        const [right, down] = [end.x - place.line.x, end.y - place.line.y];
        line.style.width = `${Math.hypot(right, down)}px`;
        line.style.transform = `translate(${place.line.x - corner.x}px, ${place.line.y - corner.y}px) rotate(${Math.atan2(down, right)}rad)`;
      }
    },
    write: (context, times, ink, ground) => {
      const origin = area.getBoundingClientRect();
      context.textBaseline = 'middle';
      context.lineJoin = 'round';
      for (const { element } of rings) {
        const box = element.getBoundingClientRect();
        const [x, y] = [box.left - origin.left + box.width / 2, box.top - origin.top + box.height / 2];
        context.strokeStyle = getComputedStyle(element).borderTopColor;
        context.lineWidth = 2 * times;
        context.setLineDash(element.classList.contains('behind') ? [4 * times, 3 * times] : []);
        context.beginPath();
        context.arc(x * times, y * times, (box.width / 2 - 1) * times, 0, 2 * Math.PI);
        context.stroke();
      }
      context.setLineDash([]);
      for (const { element, line } of all) {
        if (element.hidden || line.hidden) continue;
        const { a, b, e, f } = new DOMMatrix(getComputedStyle(line).transform);
        const own = new DOMMatrix(getComputedStyle(element).transform);
        const long = Number.parseFloat(line.style.width);
        context.strokeStyle = ink;
        context.lineWidth = times;
        context.beginPath();
        context.moveTo((own.e + e) * times, (own.f + f) * times);
        context.lineTo((own.e + e + long * a) * times, (own.f + f + long * b) * times);
        context.stroke();
      }
      const letters = rings.map(({ element }) => ({ element: element.firstElementChild as HTMLElement }));
      for (const { element } of [...all, ...letters]) {
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
