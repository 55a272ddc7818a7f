/**
 * A row of tabs that name the views of one sheet: a click or the arrow keys, Home and End choose. The
 * tabs carry the view's name in `data-view`. Returns what turns the row to a view. `turned` is called before
 * the chosen tab gets the focus: it may have to be brought into the row.
 */
export function controlTabs(
  row: HTMLElement,
  chosen: (view: string) => void,
  turned: () => void = () => {},
): (view: string) => void {
  const tabs = [...row.querySelectorAll<HTMLElement>('[role="tab"]')];
  const turn = (view: string) => {
    for (const tab of tabs) {
      const selected = tab.dataset.view === view;
      tab.setAttribute('aria-selected', String(selected));
      tab.tabIndex = selected ? 0 : -1;
    }
  };
  const choose = (index: number) => {
    const tab = tabs[(index + tabs.length) % tabs.length];
    if (tab?.dataset.view === undefined) return;
    turn(tab.dataset.view);
    turned();
    tab.focus();
    chosen(tab.dataset.view);
  };
  tabs.forEach((tab, index) => {
    tab.addEventListener('click', () => choose(index));
    tab.addEventListener('keydown', (event) => {
      const next = nextIndex(event.key, index, tabs.length);
      if (next === null || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      choose(next);
    });
  });
  return turn;
}

function nextIndex(key: string, index: number, count: number): number | null {
  switch (key) {
    case 'ArrowRight':
      return index + 1;
    case 'ArrowLeft':
      return index - 1;
    case 'Home':
      return 0;
    case 'End':
      return count - 1;
    default:
      return null;
  }
}
