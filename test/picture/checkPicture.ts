import { SaxesParser } from 'saxes';
import { type Box, primitiveBox, textBox } from '../../core/picture/bounds.ts';
import type { Picture, Primitive, Text } from '../../core/picture/picture.ts';
import { barName, type SlotTable } from '../../core/winding/model.ts';

/** Every primitive of a picture, groups opened. */
export function flat(items: readonly Primitive[]): readonly Primitive[] {
  const found: Primitive[] = [];
  const open = (inside: readonly Primitive[]) => {
    for (const item of inside) {
      if (item.kind === 'group') open(item.items);
      else found.push(item);
    }
  };
  open(items);
  return found;
}

/** What is wrong with a picture, in words; empty for a good one. */
export function troublesOf(picture: Picture): readonly string[] {
  const items = flat(picture.items);
  return [...outside(picture, items), ...overlaps(items.filter(isText)), ...sameIds(picture.items)];
}

function isText(item: Primitive): item is Text {
  return item.kind === 'text';
}

function outside(picture: Picture, items: readonly Primitive[]): readonly string[] {
  return items.flatMap((item) => {
    const box = primitiveBox(item);
    if (box === null) return [`${item.id} draws nothing`];
    const inside =
      box.left >= 0 && box.top >= 0 && box.right <= picture.width && box.bottom <= picture.height;
    return inside ? [] : [`${item.id} reaches out of the picture: ${words(box)}`];
  });
}

/** Pairs of texts whose boxes (ascent to descent) meet: a sweep from left to right. */
function overlaps(texts: readonly Text[]): readonly string[] {
  const boxes = texts.map((text) => ({ text, box: textBox(text) }));
  boxes.sort((one, other) => one.box.left - other.box.left);
  const troubles: string[] = [];
  let open: typeof boxes = [];
  for (const next of boxes) {
    open = open.filter(({ box }) => box.right > next.box.left);
    for (const { text, box } of open)
      if (box.top < next.box.bottom && next.box.top < box.bottom)
        troubles.push(`${text.id} and ${next.text.id} overlap: ${words(box)} and ${words(next.box)}`);
    open.push(next);
  }
  return troubles;
}

function sameIds(items: readonly Primitive[]): readonly string[] {
  const seen = new Set<string>();
  const troubles: string[] = [];
  const visit = (item: Primitive): void => {
    if (seen.has(item.id)) troubles.push(`the id ${item.id} stands twice`);
    seen.add(item.id);
    if (item.kind === 'group') item.items.forEach(visit);
  };
  items.forEach(visit);
  return troubles;
}

function words({ left, top, right, bottom }: Box): string {
  return [left, top, right, bottom].map((value) => value.toFixed(2)).join(' ');
}

/** An element of an SVG document as a strict XML parser (saxes) reads it. */
export interface ReadElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: ReadElement[];
  text: string;
}

/** Reads XML; throws where it is not well-formed. */
export function readXml(xml: string): ReadElement {
  const parser = new SaxesParser();
  const document: ReadElement = { name: '', attributes: {}, children: [], text: '' };
  const open = [document];
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    const element = { name, attributes: attributes as Record<string, string>, children: [], text: '' };
    open.at(-1)!.children.push(element);
    open.push(element);
  });
  parser.on('text', (text) => {
    open.at(-1)!.text += text;
  });
  parser.on('closetag', () => {
    open.pop();
  });
  parser.write(xml).close();
  return document.children[0]!;
}

/** Every element with its descendants. */
export function descendants(element: ReadElement): readonly ReadElement[] {
  return [element, ...element.children.flatMap(descendants)];
}

/** The values of an attribute in a document, in its order. */
export function valuesOf(root: ReadElement, attribute: string): readonly string[] {
  return descendants(root).flatMap(({ attributes }) => attributes[attribute] ?? []);
}

/** The names of a table's bars, by layers. */
export function barsOf(table: SlotTable): readonly string[] {
  const names: string[] = [];
  for (let layer = 0; layer < table.layers; layer++)
    for (let slot = 1; slot <= table.slots; slot++)
      if (table.cells[layer * table.slots + slot - 1] !== 0) names.push(barName({ slot, layer }));
  return names;
}
