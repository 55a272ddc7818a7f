/** The divider between the drawing and what stands below it. */
export interface Divider {
  /** Puts it to a place that was kept: the lower part's share of the height, from 0 to 1; null for where it begins. */
  readonly restore: (share: number | null) => void;
}

const [least, most] = [0.08, 0.8];
const keyStep = 0.04;

/** Divides a column; the lower part takes a share of its height. `moved` hears where the reader puts it. */
export function controlDivider(
  parts: { readonly divider: HTMLElement; readonly whole: HTMLElement; readonly lower: HTMLElement },
  moved: (share: number | null) => void,
): Divider {
  const { divider, whole, lower } = parts;
  let held = false;
  let share: number | null = null;

  const put = (next: number | null) => {
    share = next === null ? null : Math.min(Math.max(next, least), most);
    lower.style.height = share === null ? '' : `${100 * share}%`;
    divider.setAttribute('aria-valuenow', String(Math.round(100 * (1 - (share ?? present())))));
  };
  const present = () => lower.clientHeight / Math.max(whole.clientHeight, 1);
  const move = (next: number | null) => {
    put(next);
    moved(share);
  };
  divider.addEventListener('pointerdown', (event) => {
    if (event.button !== 0) return;
    divider.setPointerCapture(event.pointerId);
    held = true;
  });
  divider.addEventListener('pointermove', ({ clientY }) => {
    if (!held) return;
    const { bottom, height } = whole.getBoundingClientRect();
    put((bottom - clientY) / Math.max(height, 1));
  });
  for (const end of ['pointerup', 'pointercancel'] as const)
    divider.addEventListener(end, () => {
      if (held) moved(share);
      held = false;
    });
  divider.addEventListener('dblclick', () => move(null));
  divider.addEventListener('keydown', (event) => {
    const next = { ArrowUp: present() + keyStep, ArrowDown: present() - keyStep, Home: most, End: least }[
      event.key
    ];
    if (next === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    move(next);
  });
  return { restore: put };
}
