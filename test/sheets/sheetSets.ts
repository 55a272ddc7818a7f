import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Picture, Primitive, Text } from '../../core/picture/picture.ts';
import { sheets } from '../../core/sheets/sheets.ts';
import { flat, troublesOf } from '../picture/checkPicture.ts';
import { keeping } from '../support/keeping.ts';
import { type Study, study } from '../support/study.ts';
import { crossedTexts, outsideFrame, overlappingGroups } from './checkSheet.ts';

/** Stands for the hash of a file. */
export const someHash = '0f1e2d3c4b5a69788796a5b4c3d2e1f00f1e2d3c4b5a69788796a5b4c3d2e1f0';

/** A winding text with its sheets. */
export interface SheetSet {
  readonly study: Study;
  readonly pages: readonly Picture[];
}

const keep = keeping<SheetSet>(50);

/** The sheets of a text; `sheet` is put into its sheet block. Throws where it describes no winding. Made once. */
export function sheetSet(text: string, sheet = ''): SheetSet {
  return keep(JSON.stringify([text, sheet]), () => sheetSetAnew(text, sheet));
}

/** As `sheetSet`, made again. */
export function sheetSetAnew(text: string, sheet = ''): SheetSet {
  const studied = study(sheet === '' ? text : `${text}\nsheet { ${sheet} }\n`);
  const { facts, specification, title, findings, limits } = studied;
  if (facts === null) throw new RangeError(`no winding: ${findings[0]?.message}`);
  return {
    study: studied,
    pages: sheets({ facts, specification, title, findings, limits, fileHash: someHash }),
  };
}

/** Tooth coils whose connecting pieces stand on tips of two heights, and step beside each other. */
export const hatch = `winding "Oyster hatch"
  machine { slots 12 poles 10 phases 3 bore 70 mm stack 45 mm drive-end far }
  slot { width 9 mm depth 11 mm opening 2 mm opening-height 0.8 mm liner 0.25 mm wedge 0.6 mm separator a b 0.4 mm }
  bar { width 3.4 mm height 4 mm corner 0.4 mm coating 0.08 mm end-straight 4.5 mm end-clearance 0.6 mm joint-straight 6 mm
    bend-radius 3.5 mm lead-length 20 mm piece-width 3.4 mm piece-height 3 mm piece-clearance 1 mm }
  layout { layers 2 span 1 } connect { star }`;

/** The text of an example. */
export function exampleText(name: string): string {
  return readFileSync(join(import.meta.dirname, `../../examples/${name}.winding`), 'utf8');
}

const contents = new WeakMap<SheetSet, { items: readonly Primitive[]; texts: readonly Text[] }>();

function contentsOf(set: SheetSet) {
  const found = contents.get(set);
  if (found !== undefined) return found;
  const items = set.pages.flatMap((page) => flat(page.items));
  const made = { items, texts: items.filter((item): item is Text => item.kind === 'text') };
  contents.set(set, made);
  return made;
}

/** Everything drawn on all sheets. */
export function allItems(set: SheetSet): readonly Primitive[] {
  return contentsOf(set).items;
}

/** Everything written on all sheets. */
export function allTexts(set: SheetSet): readonly Text[] {
  return contentsOf(set).texts;
}

/** The rows of a table, by its id: cells from left to right. */
export function tableRows(set: SheetSet, id: string): readonly (readonly string[])[] {
  const rows: string[][] = [];
  const cell = new RegExp(`^${id}-(\\d+)-(\\d+)$`);
  for (const text of allTexts(set)) {
    const found = text.role === 'table-text' ? cell.exec(text.id) : null;
    if (!found) continue;
    const row = Number(found[1]) - 1;
    rows[row] ??= [];
    rows[row]![Number(found[2])] = text.text;
  }
  return rows;
}

/** What is wrong with any sheet, in words; empty for a good set. */
export function sheetTroubles({ pages }: SheetSet): readonly string[] {
  return pages.flatMap((page, index) =>
    [
      ...troublesOf(page),
      ...crossedTexts(page),
      ...outsideFrame(page),
      ...overlappingGroups(page),
      ...smallTexts(page),
    ].map((trouble) => `sheet ${index + 1}: ${trouble}`),
  );
}

/** Capitals of DejaVu Sans Condensed are 1493 units of 2048 high (its OS/2 table). */
function smallTexts(page: Picture): readonly string[] {
  return flat(page.items).flatMap((item) =>
    item.kind === 'text' && (item.size * 1493) / 2048 < 1.8 - 1e-9 ? [`${item.id} is too small`] : [],
  );
}
