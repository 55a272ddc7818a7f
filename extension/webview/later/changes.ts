import type { ShownDifference } from '../../protocol/shownParts.ts';
import { part, partOf, textElement } from '../parts.ts';
import { svgElement } from '../svgElement.ts';

/** What changed, in words and figures. */
export function showChanges(difference: ShownDifference | null): void {
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
export function markChanges(drawing: HTMLElement, difference: ShownDifference | null): void {
  const root = drawing.querySelector('svg');
  root?.querySelector('.changes')?.remove();
  if (!root || difference === null) return;
  const group = svgElement('g', { class: 'changes', 'aria-hidden': 'true' });
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
      svgElement('path', { d: `M${x} ${y - 1.2}L${x + 1.1} ${y + 0.8}H${x - 1.1}Z`, class: 'change' }),
    );
  }
  root.append(group);
}
