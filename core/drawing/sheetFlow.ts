import type { Primitive } from './picture.ts';
import type { Area } from './sheetFormat.ts';

/** Sections of a sheet set with the number of the sheet each begins on. */
export type SheetIndex = ReadonlyMap<string, number>;

/** A piece of contents with a fixed size, in millimetres. */
export interface Part {
  readonly height: number;
  /** Draws it with its top left corner at a place; ids are unique over the whole set. */
  readonly draw: (left: number, top: number, index: SheetIndex) => readonly Primitive[];
}

/** Contents that are as wide as said and may be split where a column ends. */
export interface Block {
  readonly section: string;
  readonly width: number;
  /** As much as fits into a height, and what is left; null where nothing fits. */
  readonly take: (room: number) => { readonly part: Part; readonly rest: Block | null } | null;
}

/** Rows of the full width that belong together, such as one layout. */
export interface Band {
  readonly section: string;
  /** Height of everything, for the decision where to begin. */
  readonly rows: readonly Part[];
}

/** What comes on the sheets, in order. */
export type Content =
  | { readonly kind: 'block'; readonly block: Block }
  | { readonly kind: 'band'; readonly band: Band };

/** Contents that have found their sheet and place. */
export interface PlacedPart {
  readonly section: string;
  readonly part: Part;
  readonly left: number;
  readonly top: number;
}

export const columnGap = 8;
export const rowGap = 6;

/**
 * Spreads contents over sheets with the same free area: blocks in columns from left to right, bands of
 * the full width below what there is already. A band that does not fit on the rest of a sheet begins on a new one.
 * Throws RangeError for contents larger than a sheet's area: those who make blocks keep within it.
 */
export function flow(contents: readonly Content[], area: Area): readonly (readonly PlacedPart[])[] {
  const sheets: PlacedPart[][] = [[]];
  let cursor = fresh(area);
  const newSheet = (): void => {
    sheets.push([]);
    cursor = fresh(area);
  };
  const place = (section: string, part: Part, left: number, top: number, width: number): void => {
    sheets.at(-1)!.push({ section, part, left, top });
    cursor.lowest = Math.max(cursor.lowest, top + part.height);
    cursor.columnWidth = Math.max(cursor.columnWidth, width);
  };

  const placeBlock = (block: Block): void => {
    let left: Block | null = block;
    while (left !== null) {
      const width = left.width;
      const offset = cursor.x - area.left;
      if (offset + width > area.right - area.left + 1e-6) {
        if (offset < 1e-6) throw new RangeError(`A block of ${width} mm is wider than its sheet`);
        newSheet();
        continue;
      }
      const taken: ReturnType<Block['take']> = left.take(area.bottom - cursor.y);
      if (taken === null) {
        if (cursor.y > cursor.bandTop) nextColumn(cursor);
        else if (cursor.bandTop > area.top) newSheet();
        else throw new RangeError(`Nothing of ${left.section} fits in ${area.bottom - area.top} mm`);
        continue;
      }
      place(left.section, taken.part, cursor.x, cursor.y, width);
      cursor.y += taken.part.height + rowGap;
      if (taken.rest !== null) nextColumn(cursor);
      left = taken.rest;
    }
  };

  const placeBand = ({ section, rows }: Band): void => {
    const whole = heightOf(rows);
    const start = cursor.lowest > area.top ? cursor.lowest + rowGap : area.top;
    const fits = start + whole <= area.bottom + 1e-6;
    if (!fits && cursor.lowest > area.top) newSheet();
    let y = cursor.lowest > area.top ? cursor.lowest + rowGap : area.top;
    for (const row of rows) {
      if (y + row.height > area.bottom + 1e-6 && y > area.top) {
        newSheet();
        y = area.top;
      }
      if (y + row.height > area.bottom + 1e-6)
        throw new RangeError(`A row of ${row.height} mm is higher than its sheet`);
      place(section, row, area.left, y, 0);
      y += row.height + rowGap;
    }
    cursor = { x: area.left, y, bandTop: y, columnWidth: 0, lowest: y - rowGap };
    if (area.bottom - y < leastRest) newSheet();
  };

  for (const content of contents) {
    if (content.kind === 'block') placeBlock(content.block);
    else placeBand(content.band);
  }
  return sheets.filter((parts) => parts.length > 0);
}

/** Less height than this below a band stays free. */
const leastRest = 60;

interface Cursor {
  x: number;
  y: number;
  /** Where columns begin: below the last band. */
  bandTop: number;
  columnWidth: number;
  /** How far down the sheet is filled. */
  lowest: number;
}

function fresh(area: Area): Cursor {
  return { x: area.left, y: area.top, bandTop: area.top, columnWidth: 0, lowest: area.top };
}

function nextColumn(cursor: Cursor): void {
  cursor.x += cursor.columnWidth + columnGap;
  cursor.y = cursor.bandTop;
  cursor.columnWidth = 0;
}

/** Height of rows one below the other. */
export function heightOf(rows: readonly Part[]): number {
  return rows.reduce((sum, row) => sum + row.height, rowGap * Math.max(0, rows.length - 1));
}

/** Which sheet, from 1, each section begins on. */
export function indexOf(sheets: readonly (readonly PlacedPart[])[]): SheetIndex {
  const index = new Map<string, number>();
  sheets.forEach((parts, number) => {
    for (const { section } of parts) if (!index.has(section)) index.set(section, number + 1);
  });
  return index;
}
