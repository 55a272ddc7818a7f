import type { Baseline, ShownDifference, ShownDrawing } from '../../protocol/panelState.ts';
import type { DrawAct } from '../../protocol/subject.ts';
import { part, partOf, textElement } from '../parts.ts';
import type { StartLater } from './later.ts';

type Kind = ShownDrawing['next'][number]['kind'];

/** Half the size of a mark on a bar, mm; that of the marked one is larger. */
const reach = 0.95;
const markedReach = 1.5;

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

/** What is not of the phase steps aside. */
function stepAside(drawing: HTMLElement, phase: number | null): void {
  for (const element of drawing.querySelectorAll('[data-bar], [data-joint]'))
    element.classList.toggle('aside', phase !== null && !element.classList.contains(`phase-${phase}`));
}

/** A mark on each bar that can be taken: a circle for a regular joint, a diamond for a special one, a square for a piece. */
function markOffers(drawing: HTMLElement, shown: ShownDrawing | null): void {
  const root = drawing.querySelector('svg');
  root?.querySelector('.offers')?.remove();
  if (!root || shown === null) return;
  const group = element('g', { class: 'offers', 'aria-hidden': 'true' });
  for (const [index, { bar, kind }] of shown.next.entries()) {
    const line = drawing.querySelector<SVGGraphicsElement>(`[data-bar="${CSS.escape(bar)}"]`);
    if (line === null) continue;
    const box = line.getBBox();
    const marked = index === shown.marked;
    const center = { x: box.x + box.width / 2, y: box.y + box.height * 0.17 };
    const mark = element('path', {
      d: outline(kind, center, marked ? markedReach : reach),
      class: `offer offer-${kind}${marked ? ' marked' : ''}`,
      'data-offer': bar,
    });
    group.append(mark);
  }
  root.append(group);
}

/** What changed, in words and figures. */
function showChanges(difference: ShownDifference | null): void {
  partOf('against', HTMLSelectElement).value = difference?.against ?? 'off';
  const words = part('changes-words');
  const told = difference?.words ?? words.dataset.off ?? '';
  if (words.textContent !== told) words.textContent = told;
  const table = partOf('changes', HTMLTableElement);
  const rows = difference?.rows ?? [];
  table.hidden = rows.length === 0;
  table.tBodies[0]!.replaceChildren(
    ...rows.map(([label = '', ...values]) => {
      const row = document.createElement('tr');
      const head = textElement('th', label);
      head.setAttribute('scope', 'row');
      row.append(head, ...values.map((value) => textElement('td', value)));
      return row;
    }),
  );
}

/** A triangle on each bar and joint that is not as it was. */
function markChanges(drawing: HTMLElement, difference: ShownDifference | null): void {
  const root = drawing.querySelector('svg');
  root?.querySelector('.changes')?.remove();
  if (!root || difference === null) return;
  const group = element('g', { class: 'changes', 'aria-hidden': 'true' });
  const selectors = [
    ...difference.bars.map((bar) => `[data-bar="${CSS.escape(bar)}"]`),
    ...difference.joints.map((joint) => `[data-joint="${joint}"]`),
  ];
  for (const selector of selectors) {
    const line = drawing.querySelector<SVGGraphicsElement>(selector);
    if (line === null) continue;
    const box = line.getBBox();
    const [x, y] = [box.x + box.width / 2, box.y + box.height * (line.dataset.bar ? 0.83 : 0.5)];
    group.append(
      element('path', { d: `M${x} ${y - 1.2}L${x + 1.1} ${y + 0.8}H${x - 1.1}Z`, class: 'change' }),
    );
  }
  root.append(group);
}

function outline(kind: Kind, { x, y }: { readonly x: number; readonly y: number }, r: number): string {
  if (kind === 'regular') return `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
  if (kind === 'special')
    return `M${x} ${y - 1.3 * r}L${x + 1.3 * r} ${y}L${x} ${y + 1.3 * r}L${x - 1.3 * r} ${y}Z`;
  return `M${x - r} ${y - r}h${2 * r}v${2 * r}h${-2 * r}Z`;
}

function element(name: string, attributes: Readonly<Record<string, string>>): SVGElement {
  const made = document.createElementNS('http://www.w3.org/2000/svg', name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}
