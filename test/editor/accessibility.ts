import type { FrameLocator, Page } from 'playwright-core';

/**
 * What a reader with a keyboard, a screen reader or weak sight would miss on a page, one sentence each:
 * names, references, roles, and the contrast of text (WCAG 2.2: 1.4.3, at least 4.5 : 1; 4.1.2).
 */
export function accessibilityProblems(frame: FrameLocator | Page): Promise<readonly string[]> {
  return frame.locator('body').evaluate((body) => {
    const problems: string[] = [];
    const shown = (element: Element) => (element as HTMLElement).getClientRects().length > 0;
    const all = <Kind extends Element>(selector: string) => [...body.querySelectorAll<Kind>(selector)];
    const label = (element: Element) => `<${element.tagName.toLowerCase()} id="${element.id}">`;

    const ids = all('[id]').map(({ id }) => id);
    for (const id of new Set(ids.filter((id, index) => ids.indexOf(id) !== index)))
      problems.push(`the id ${id} stands twice`);

    for (const name of ['aria-controls', 'aria-labelledby', 'aria-describedby'])
      for (const element of all(`[${name}]`))
        for (const id of (element.getAttribute(name) ?? '').split(' '))
          if (document.getElementById(id) === null)
            problems.push(`${label(element)} ${name} names ${id}, which is not there`);

    const named = (element: Element) =>
      [
        element.getAttribute('aria-label'),
        ...(element.getAttribute('aria-labelledby') ?? '')
          .split(' ')
          .map((id) => document.getElementById(id)?.textContent),
        ...[...((element as HTMLInputElement).labels ?? [])].map(({ textContent }) => textContent),
        element.tagName === 'BUTTON' ? element.textContent : '',
      ].some((text) => (text ?? '').trim() !== '');
    for (const element of all(
      'button, input, select, [role="img"], [role="region"], [role="tabpanel"], [tabindex]',
    ))
      if (shown(element) && !named(element)) problems.push(`${label(element)} has no name`);
    for (const list of all('[role="tablist"]')) {
      const selected = list.querySelectorAll('[role="tab"][aria-selected="true"]');
      if (selected.length !== 1) problems.push(`${selected.length} tabs are selected`);
      const reachable = list.querySelectorAll('[role="tab"][tabindex="0"]');
      if (reachable.length !== 1) problems.push(`${reachable.length} tabs are reached by the Tab key`);
    }
    for (const cell of all('th'))
      if (!cell.hasAttribute('scope')) problems.push(`a head cell "${cell.textContent}" has no scope`);

    const context = document.createElement('canvas').getContext('2d', { willReadFrequently: true })!;
    const pixels = new Map<string, readonly number[]>();
    const pixel = (color: string, under: readonly number[]): readonly number[] => {
      const key = `${color} ${under}`;
      const known = pixels.get(key);
      if (known !== undefined) return known;
      context.fillStyle = `rgb(${under.join()})`;
      context.fillRect(0, 0, 1, 1);
      context.fillStyle = color;
      context.fillRect(0, 0, 1, 1);
      const found = [...context.getImageData(0, 0, 1, 1).data].slice(0, 3);
      pixels.set(key, found);
      return found;
    };
    const grounds = new Map<Element, readonly number[]>();
    const ground = (element: Element | null): readonly number[] => {
      if (element === null) return [255, 255, 255];
      const found =
        grounds.get(element) ??
        pixel(getComputedStyle(element).backgroundColor, ground(element.parentElement));
      grounds.set(element, found);
      return found;
    };
    const luminance = (color: readonly number[]) =>
      color
        .map((channel) => channel / 255)
        .map((share) => (share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4))
        .reduce((sum, share, index) => sum + share * [0.2126, 0.7152, 0.0722][index]!, 0);
    const contrast = (one: readonly number[], other: readonly number[]) => {
      const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b) as [number, number];
      return (light + 0.05) / (dark + 0.05);
    };
    const poor = new Set<string>();
    for (const element of all('*')) {
      const text = [...element.childNodes].some((node) => node.nodeType === 3 && node.nodeValue?.trim());
      if (!text || !shown(element) || element.tagName === 'SCRIPT' || element.closest('.unseen')) continue;
      const inPicture = element instanceof SVGElement;
      const style = getComputedStyle(element);
      if (inPicture && style.opacity !== '1') continue;
      const under = ground(element);
      const found = contrast(pixel(inPicture ? style.fill : style.color, under), under);
      if (found < 4.5)
        poor.add(`${element.getAttribute('class') ?? label(element)}: contrast ${found.toFixed(2)}`);
    }
    return [...problems, ...poor];
  });
}
