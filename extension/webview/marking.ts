import type { PanelMarks } from '../protocol/shownParts.ts';

/** What stands out in the picture at present. */
export type Marked = Omit<PanelMarks, 'words'>;

/** Gives the class `lit` to what is marked, and `chosen` to the bar from which the keys step on; takes both from all else. */
export function mark(drawing: ParentNode, marked: Marked): void {
  const lit = new Set<Element>();
  const add = (selector: string) => {
    for (const element of drawing.querySelectorAll(selector)) lit.add(element);
  };
  for (const bar of marked.bars) add(`[data-bar="${CSS.escape(bar)}"]`);
  for (const joint of marked.joints) add(`[data-joint="${joint}"]`);
  for (const { phase, path } of marked.paths)
    add(`:is([data-bar], [data-joint]).phase-${phase}.path-${path}`);
  for (const element of drawing.querySelectorAll('.lit'))
    if (!lit.has(element)) element.classList.remove('lit', 'chosen');
  for (const element of lit) {
    element.classList.add('lit');
    element.classList.toggle('chosen', element.getAttribute('data-bar') === marked.chosen);
  }
}
