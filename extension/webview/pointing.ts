import { readSubject, type Subject } from '../protocol/subject.ts';

/** What a reader does to the things of the picture. */
export interface Pointing {
  /** The pointer came to something, or left everything. */
  readonly point: (subject: Subject | null) => void;
  readonly choose: (subject: Subject) => void;
  /** The next bar along the path; false where none is chosen, so that the key does something else. */
  readonly step: (by: 1 | -1) => boolean;
  readonly release: () => void;
  /** The thing at a place of the window; by default that of the element there, or of the nearest within reach. */
  readonly subjectAt?: (x: number, y: number) => Subject | null;
}

/** Pixels by which a click may miss a thin line, and a press may move and still be a click. */
const reach = 5;

/** Listens to the pointer over the picture, and to the keys that step along a path. Call it before the gestures. */
export function listenToPointing(area: HTMLElement, pointing: Pointing): void {
  const { subjectAt = subjectNear } = pointing;
  let pointed = '';
  let pressed: { readonly x: number; readonly y: number } | null = null;

  const point = (subject: Subject | null) => {
    const next = JSON.stringify(subject);
    if (next === pointed) return;
    pointed = next;
    pointing.point(subject);
  };
  area.addEventListener('pointermove', (event) => {
    if (event.buttons === 0) point(subjectAt(event.clientX, event.clientY));
  });
  area.addEventListener('pointerleave', () => point(null));
  area.addEventListener('pointerdown', ({ clientX, clientY, button, isPrimary }) => {
    pressed = button === 0 && isPrimary ? { x: clientX, y: clientY } : null;
  });
  area.addEventListener('pointerup', ({ clientX, clientY }) => {
    if (pressed === null || Math.hypot(clientX - pressed.x, clientY - pressed.y) > reach) return;
    const subject = subjectAt(clientX, clientY);
    if (subject === null) pointing.release();
    else pointing.choose(subject);
  });
  area.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === 'Escape') pointing.release();
    const by = { ArrowRight: 1, ArrowLeft: -1 }[event.key] as 1 | -1 | undefined;
    if (by === undefined || !pointing.step(by)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
  });
}

/** The thing at a place of the window, or the nearest within reach. */
function subjectNear(x: number, y: number): Subject | null {
  for (let radius = 0; radius <= reach; radius += reach / 2)
    for (const [dx, dy] of radius === 0 ? [[0, 0] as const] : around) {
      const subject = subjectOf(document.elementFromPoint(x + dx * radius, y + dy * radius));
      if (subject !== null) return subject;
    }
  return null;
}

const around = [
  [-1, 0],
  [1, 0],
  [0, -1],
  [0, 1],
] as const;

/** What an element of the picture stands for; a label stands for the bar it names. */
function subjectOf(element: Element | null): Subject | null {
  const holder = element?.closest<SVGElement>(
    '[data-bar], [data-label], [data-joint], [data-terminal], [data-star], [data-coil], [data-slot]',
  );
  if (!holder) return null;
  const { bar, label, joint, terminal, star, coil, slot } = holder.dataset;
  const number = (text: string | undefined) => (text === undefined ? undefined : Number(text));
  return readSubject({ bar: bar ?? label, joint: number(joint), terminal, star, coil, slot: number(slot) });
}
