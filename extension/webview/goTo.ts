/** Places of a picture that a reader asks for. */
export type Wanted =
  | { readonly kind: 'bar'; readonly bar: string }
  | { readonly kind: 'slots'; readonly first: number; readonly last: number };

/** Reads `7b` as a bar, `7` as a slot, `7-12` (or `7 to 12`) as slots in a row; null for anything else. */
export function readWanted(text: string): Wanted | null {
  const trimmed = text.trim().toLowerCase();
  const bar = /^(\d{1,4})\s*([a-z])$/.exec(trimmed);
  if (bar) return { kind: 'bar', bar: `${Number(bar[1])}${bar[2]}` };
  const slots = /^(\d{1,4})(?:\s*(?:-|–|to)\s*(\d{1,4}))?$/.exec(trimmed);
  if (!slots) return null;
  const [first, last] = [Number(slots[1]), Number(slots[2] ?? slots[1])];
  return { kind: 'slots', first: Math.min(first, last), last: Math.max(first, last) };
}

/** The bars of a picture that are wanted, by their elements. */
export function wantedBars(drawing: ParentNode, wanted: Wanted): readonly Element[] {
  const bars = [...drawing.querySelectorAll('[data-bar]')];
  return bars.filter((element) => {
    const name = element.getAttribute('data-bar') ?? '';
    if (wanted.kind === 'bar') return name === wanted.bar;
    const slot = Number.parseInt(name, 10);
    return wanted.first <= slot && slot <= wanted.last;
  });
}

/** The smallest box round elements of a picture, in its millimetres; null for none. */
export function boxAround(elements: readonly Element[]): DOMRect | null {
  const boxes = elements.map((element) => (element as SVGGraphicsElement).getBBox());
  if (boxes.length === 0) return null;
  const left = Math.min(...boxes.map(({ x }) => x));
  const top = Math.min(...boxes.map(({ y }) => y));
  const right = Math.max(...boxes.map(({ x, width }) => x + width));
  const bottom = Math.max(...boxes.map(({ y, height }) => y + height));
  return new DOMRect(left, top, right - left, bottom - top);
}
