import { textElement } from './parts.ts';

/** The parts of a row of tabs that may be too narrow for all of them. */
export interface OverflowParts {
  readonly row: HTMLElement;
  /** Opens the menu of those that find no room. */
  readonly open: HTMLButtonElement;
  readonly menu: HTMLElement;
}

/**
 * Puts the tabs that find no room into a menu; the selected one always stands in the row. Returns what brings row
 * and menu in step after another tab was selected.
 */
export function controlOverflow({ row, open, menu }: OverflowParts): () => void {
  const tabs = [...row.querySelectorAll<HTMLElement>('[role="tab"]')];
  const isSelected = (tab: HTMLElement) => tab.getAttribute('aria-selected') === 'true';
  const tooWide = () => row.scrollWidth > row.clientWidth;

  const close = () => {
    menu.hidden = true;
    open.setAttribute('aria-expanded', 'false');
  };
  const arrange = () => {
    for (const tab of tabs) tab.hidden = false;
    open.hidden = true;
    if (tooWide()) {
      open.hidden = false;
      for (const tab of [...tabs].reverse()) {
        if (!tooWide()) break;
        if (!isSelected(tab)) tab.hidden = true;
      }
    }
    menu.replaceChildren(...tabs.filter(({ hidden }) => hidden).map(entry));
  };
  const entry = (tab: HTMLElement) => {
    const item = textElement('button', tab.textContent ?? '');
    item.setAttribute('type', 'button');
    item.setAttribute('role', 'menuitem');
    item.tabIndex = -1;
    item.addEventListener('click', () => {
      close();
      tab.click();
      tab.focus();
    });
    return item;
  };
  const focus = (index: number) => {
    const items = [...menu.querySelectorAll<HTMLElement>('[role="menuitem"]')];
    items[(index + items.length) % items.length]?.focus();
  };
  open.addEventListener('click', () => {
    if (!menu.hidden) {
      close();
      return;
    }
    menu.hidden = false;
    open.setAttribute('aria-expanded', 'true');
    focus(0);
  });
  menu.addEventListener('keydown', (event) => {
    const items = [...menu.querySelectorAll('[role="menuitem"]')];
    const present = items.indexOf(document.activeElement!);
    const step = { ArrowDown: present + 1, ArrowUp: present - 1, Home: 0, End: -1 }[event.key];
    if (event.key === 'Escape') {
      close();
      open.focus();
    }
    if (step === undefined) return;
    event.preventDefault();
    focus(step);
  });
  menu.addEventListener('focusout', ({ relatedTarget }) => {
    if (relatedTarget !== open && !menu.contains(relatedTarget as Node | null)) close();
  });
  // The row is as wide as what is in it.
  new ResizeObserver(arrange).observe(row.parentElement ?? row);
  return arrange;
}
