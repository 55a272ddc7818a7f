/** An element of a class. */
export function element(tag: string, name: string): HTMLElement {
  const made = document.createElement(tag);
  made.className = name;
  return made;
}

export function button(words: string, act: () => void): HTMLButtonElement {
  const made = document.createElement('button');
  made.type = 'button';
  made.textContent = words;
  made.addEventListener('click', act);
  return made;
}

/** A list to choose from, behind its words. */
export function choice(words: string, chosen: (value: string) => void) {
  const label = document.createElement('label');
  const select = document.createElement('select');
  select.addEventListener('change', () => chosen(select.value));
  label.append(`${words} `, select);
  return { element: label, select };
}

export function checkbox(words: string, on: boolean, turned: (on: boolean) => void): HTMLElement {
  const label = document.createElement('label');
  const box = document.createElement('input');
  box.type = 'checkbox';
  box.checked = on;
  box.addEventListener('change', () => turned(box.checked));
  label.append(box, ` ${words}`);
  return label;
}

/** The head of a column. */
export function headCell(words: string): HTMLTableCellElement {
  const cell = document.createElement('th');
  cell.scope = 'col';
  cell.textContent = words;
  return cell;
}
