/** The page's part of that name; the host's page writes them. Throws RangeError where there is none. */
export function part(name: string): HTMLElement {
  const element = document.getElementById(`panel-${name}`);
  if (element === null) throw new RangeError(`The page has no part "${name}"`);
  return element;
}

/** A part that is an element of a certain kind; throws RangeError where it is another. */
export function partOf<Kind extends HTMLElement>(name: string, kind: new () => Kind): Kind {
  const element = part(name);
  if (!(element instanceof kind)) throw new RangeError(`The part "${name}" is no ${kind.name}`);
  return element;
}

/** An element with nothing but this text in it. */
export function textElement(tag: string, text: string): HTMLElement {
  const element = document.createElement(tag);
  element.textContent = text;
  return element;
}

/** A number with a space behind it and one of the shown units. */
const beforeUnit =
  /(\d) (?=(?:%|\u00b0C|rpm|deg|min|h|K|[kMGmc\u00b5]?(?:A|V|W|Nm?|Hz|J|\u03a9|H|Pa|T|g|m|s))(?![a-zA-Z]))/g;

/** Words whose lines do not end between a number and its unit. */
export function unbroken(words: string): string {
  return words.replace(beforeUnit, '$1\u00a0');
}

/** Fills a list of choices; what was chosen stays chosen. */
export function fillChoices(
  select: HTMLSelectElement,
  choices: readonly { readonly value: string; readonly text: string }[],
  chosen: string,
): void {
  const present = [...select.options].map(({ value, text }) => `${value} ${text}`).join();
  const wanted = choices.map(({ value, text }) => `${value} ${text}`).join();
  if (present !== wanted)
    select.replaceChildren(...choices.map(({ value, text }) => new Option(text, value)));
  select.value = chosen;
}

/** A template's words with values in place of {0}, {1}. */
export function filled(template: string | undefined, ...values: readonly (string | number)[]): string {
  return (template ?? '').replace(/\{(\d)\}/g, (_, index) => String(values[Number(index)] ?? ''));
}

/** Words that lead somewhere. */
export function linkButton(words: string, go: () => void): HTMLElement {
  const button = textElement('button', words);
  button.setAttribute('type', 'button');
  button.className = 'link';
  button.addEventListener('click', go);
  return button;
}
