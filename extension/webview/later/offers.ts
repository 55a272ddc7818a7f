import type { ShownDrawing } from '../../protocol/shownParts.ts';
import { svgElement } from '../svgElement.ts';

type Kind = ShownDrawing['next'][number]['kind'];

/** Half the size of a mark on a bar, mm; that of the marked one is larger. */
const reach = 0.95;
const markedReach = 1.5;

/** What is not of the phase steps aside. */
export function stepAside(drawing: HTMLElement, phase: number | null): void {
  for (const element of drawing.querySelectorAll('[data-bar], [data-joint]'))
    element.classList.toggle('aside', phase !== null && !element.classList.contains(`phase-${phase}`));
}

/** A mark on each bar that can be taken: a circle for a regular joint, a diamond for a special one, a square for a piece. */
export function markOffers(drawing: HTMLElement, shown: ShownDrawing | null): void {
  const root = drawing.querySelector('svg');
  root?.querySelector('.offers')?.remove();
  if (!root || shown === null) return;
  const group = svgElement('g', { class: 'offers', 'aria-hidden': 'true' });
  for (const [index, { bar, kind }] of shown.next.entries()) {
    const line = drawing.querySelector<SVGGraphicsElement>(`[data-bar="${CSS.escape(bar)}"]`);
    if (line === null) continue;
    const box = line.getBBox();
    const marked = index === shown.marked;
    const center = { x: box.x + box.width / 2, y: box.y + box.height * 0.17 };
    const mark = svgElement('path', {
      d: outline(kind, center, marked ? markedReach : reach),
      class: `offer offer-${kind}${marked ? ' marked' : ''}`,
      'data-offer': bar,
    });
    group.append(mark);
  }
  root.append(group);
}

function outline(kind: Kind, { x, y }: { readonly x: number; readonly y: number }, r: number): string {
  if (kind === 'regular') return `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
  if (kind === 'special')
    return `M${x} ${y - 1.3 * r}L${x + 1.3 * r} ${y}L${x} ${y + 1.3 * r}L${x - 1.3 * r} ${y}Z`;
  return `M${x - r} ${y - r}h${2 * r}v${2 * r}h${-2 * r}Z`;
}
