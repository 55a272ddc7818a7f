import type { Baseline, ShownDrawing } from '../../protocol/shownParts.ts';
import type { DrawAct } from '../../protocol/subject.ts';
import { part, partOf, textElement } from '../parts.ts';
import { markChanges, showChanges } from './changes.ts';
import type { StartLater } from './later.ts';
import { markOffers, stepAside } from './offers.ts';

/** What a key does while a path or joint is drawn. */
const keys: Readonly<Record<string, readonly [DrawAct, (1 | -1)?]>> = {
  ArrowRight: ['take'],
  ArrowLeft: ['back'],
  Backspace: ['back'],
  ArrowDown: ['mark', 1],
  ArrowUp: ['mark', -1],
  Enter: ['end'],
  a: ['all'],
  Escape: ['leave'],
};

window.slotwrightLater = (({ area, drawing, marked, draw, against }) => {
  let present: ShownDrawing | null = null;
  const act = (what: DrawAct, by: 1 | -1 | 0 = 0) => draw(what, null, by);
  const begin = (what: DrawAct) => {
    const { chosen, bars, joints } = marked();
    const bar = chosen ?? (bars.length === 1 ? bars[0]! : null);
    const [joint] = joints;
    draw(what, bar !== null ? { bar } : joint === undefined ? null : { joint }, 0);
  };
  const opener = part('by-hand');
  const open = (wanted: boolean) => {
    part('hand').hidden = !wanted && present === null;
    part('hand-begin').hidden = present !== null;
    part('hand-state').hidden = present === null;
    opener.setAttribute('aria-expanded', String(!part('hand').hidden));
  };
  opener.addEventListener('click', () => open(part('hand').hidden === true));
  for (const [name, what] of [
    ['draw', 'path'],
    ['redraw', 'phase'],
    ['lead', 'joint'],
  ] as const)
    part(name).addEventListener('click', () => begin(what));
  const choice = partOf('against', HTMLSelectElement);
  choice.addEventListener('change', () => against(choice.value as Baseline));
  part('keep').addEventListener('click', () => against('kept'));
  const strip = part('hand');
  const lines = part('hand-lines');

  // Before all other keys of the drawing.
  area.addEventListener(
    'keydown',
    (event) => {
      const does = keys[event.key.length === 1 ? event.key.toLowerCase() : event.key];
      if (present === null || does === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      act(...does);
    },
    true,
  );
  area.addEventListener('keydown', (event) => {
    const what = ({ d: 'path', D: 'phase', j: 'joint' } as const)[event.key];
    if (what === undefined || present !== null || opener.hidden) return;
    if (!event.ctrlKey && !event.metaKey && !event.altKey) begin(what);
  });
  strip.addEventListener('keydown', ({ key }) => {
    if (key === 'Escape' && present !== null) act('leave');
  });
  for (const button of strip.querySelectorAll<HTMLElement>('[data-act]'))
    button.addEventListener('click', () => {
      act(button.dataset.act as DrawAct);
      area.focus();
    });
  return {
    show: (shown, difference) => {
      showChanges(difference);
      markChanges(drawing, shown === null ? difference : null);
      const begun = present === null && shown !== null;
      const turned = begun || (present !== null && shown === null);
      present = shown;
      if (turned) open(false);
      area.classList.toggle('by-hand', shown !== null);
      stepAside(drawing, shown?.phase ?? null);
      markOffers(drawing, shown);
      if (shown === null) return;
      const words = part('hand-words');
      if (words.textContent !== shown.words) words.textContent = shown.words;
      lines.replaceChildren(...shown.lines.map((line) => textElement('li', line)));
      for (const button of strip.querySelectorAll<HTMLElement>('[data-path]')) button.hidden = shown.joint;
      partOf('hand-take', HTMLButtonElement).disabled = shown.next.length === 0;
      if (begun) area.focus();
    },
  };
}) satisfies StartLater;
