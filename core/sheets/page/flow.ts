import type { Steps } from '../../figures/steps.ts';
import { text } from '../../picture/make.ts';
import type { Primitive } from '../../picture/picture.ts';
import type { Area } from './format.ts';

/** Sections of a sheet set with the number of the sheet each begins on. */
export type SheetIndex = ReadonlyMap<string, number>;

/** A piece of contents with a fixed size, in millimetres. */
export interface Part {
  readonly height: number;
  /** Draws it with its top left corner at a place, at once or in steps; ids are unique over the whole set. */
  readonly draw: (
    left: number,
    top: number,
    index: SheetIndex,
  ) => readonly Primitive[] | Steps<readonly Primitive[]>;
}

/** Contents that are as wide as said and may be split where a column ends. */
export interface Block {
  readonly section: string;
  readonly width: number;
  /** As much as fits into a height, and what is left; null where nothing fits. */
  readonly take: (room: number) => { readonly part: Part; readonly rest: Block | null } | null;
}

/** A row of a band. */
export interface BandRow extends Part {
  /** The same with a heading, for a row that goes on at the top of a new sheet. */
  readonly continued: Part;
}

/** Rows of the full width that belong together, such as one layout. */
export interface Band {
  readonly section: string;
  readonly rows: readonly BandRow[];
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

/** Draws a part at its place, in steps. */
export function* drawPart({ part, left, top }: PlacedPart, index: SheetIndex): Steps<readonly Primitive[]> {
  const drawn = part.draw(left, top, index);
  return 'next' in drawn ? yield* drawn : drawn;
}

export const columnGap = 8;
export const rowGap = 6;

/**
 * Spreads contents over sheets with the same free area: blocks in columns from left to right, bands of
 * the full width below what there is already. A band that does not fit on the rest of a sheet begins on
 * a new one. Blocks that fit on the rest of a sheet together take no more of its height than they need.
 * Where a block is larger than a sheet's area, words say so in its place; a band that is throws RangeError.
 */
export function flow(contents: readonly Content[], area: Area): readonly (readonly PlacedPart[])[] {
  let state: FlowState = { sheets: [[]], cursor: fresh(area) };
  for (const group of groupsOf(contents))
    state =
      group.kind === 'band' ? placeBand(state, group.band, area) : placeBlocks(state, group.blocks, area);
  return state.sheets.filter((parts) => parts.length > 0);
}

/** Less height than this below a band stays free. */
const leastRest = 60;
/** Columns of blocks that fit on a sheet are at least this high, then higher in steps. */
const leastColumn = 100;
const columnStep = 8;

interface Cursor {
  readonly x: number;
  readonly y: number;
  /** Where columns begin: below the last band. */
  readonly bandTop: number;
  readonly columnWidth: number;
  /** How far down the sheet is filled. */
  readonly lowest: number;
}

interface FlowState {
  readonly sheets: readonly (readonly PlacedPart[])[];
  readonly cursor: Cursor;
}

function fresh(area: Area): Cursor {
  return { x: area.left, y: area.top, bandTop: area.top, columnWidth: 0, lowest: area.top };
}

type Group =
  | { readonly kind: 'blocks'; readonly blocks: readonly Block[] }
  | { readonly kind: 'band'; readonly band: Band };

/** Blocks that follow each other are one group. */
function groupsOf(contents: readonly Content[]): readonly Group[] {
  const groups: Group[] = [];
  let blocks: Block[] = [];
  for (const content of contents) {
    if (content.kind === 'block') {
      if (blocks.length === 0) groups.push({ kind: 'blocks', blocks });
      blocks.push(content.block);
    } else {
      blocks = [];
      groups.push({ kind: 'band', band: content.band });
    }
  }
  return groups;
}

function placeBlocks(state: FlowState, blocks: readonly Block[], area: Area): FlowState {
  const { bandTop } = state.cursor;
  for (let height = leastColumn; bandTop + height < area.bottom; height += columnStep) {
    const tried = placeAll(state, blocks, area, bandTop + height);
    if (tried.sheets.length === state.sheets.length) return tried;
  }
  return placeAll(state, blocks, area, area.bottom);
}

/** Places blocks one after the other, on the first sheet down to `bottom`. */
function placeAll(state: FlowState, blocks: readonly Block[], area: Area, bottom: number): FlowState {
  const first = state.sheets.length;
  const limit = ({ sheets }: FlowState) => (sheets.length === first ? bottom : area.bottom);
  return blocks.reduce((before, block) => {
    let [after, left]: [FlowState, Block | null] = [before, block];
    while (left !== null) [after, left] = placeOne(after, left, area, limit(after));
    return after;
  }, state);
}

/** Words in place of a block that is larger than the area of its sheet. */
function placedInstead(state: FlowState, { section }: Block): FlowState {
  const { cursor, sheets } = state;
  const id = `larger-than-sheet-${sheets.at(-1)!.length}`;
  const words = `${section}: a figure is larger than this sheet; a larger sheet-size shows it.`;
  const part: Part = { height: 4, draw: (left, top) => [text(id, 'note', left, top + 3, words)] };
  const placed = { section, part, left: cursor.x, top: cursor.y };
  return { sheets: added(state, placed), cursor: { ...cursor, y: cursor.y + part.height + rowGap } };
}

/** One step: part of a block is placed, or a new column or sheet begun. */
function placeOne(
  state: FlowState,
  block: Block,
  area: Area,
  bottom: number,
): readonly [FlowState, Block | null] {
  const { cursor } = state;
  if (cursor.x + block.width > area.right + 1e-6) {
    if (cursor.x <= area.left + 1e-6) return [placedInstead(state, block), null];
    return [newSheet(state, area), block];
  }
  const taken = block.take(bottom - cursor.y);
  if (taken === null) {
    if (cursor.y > cursor.bandTop) return [{ ...state, cursor: nextColumn(cursor) }, block];
    if (cursor.bandTop > area.top || bottom < area.bottom) return [newSheet(state, area), block];
    return [placedInstead(state, block), null];
  }
  const { part, rest } = taken;
  const filled = {
    ...cursor,
    y: cursor.y + part.height + rowGap,
    columnWidth: Math.max(cursor.columnWidth, block.width),
    lowest: Math.max(cursor.lowest, cursor.y + part.height),
  };
  const placed = { section: block.section, part, left: cursor.x, top: cursor.y };
  return [{ sheets: added(state, placed), cursor: rest === null ? filled : nextColumn(filled) }, rest];
}

function added({ sheets }: FlowState, part: PlacedPart): FlowState['sheets'] {
  return [...sheets.slice(0, -1), [...sheets.at(-1)!, part]];
}

function newSheet({ sheets }: FlowState, area: Area): FlowState {
  return { sheets: [...sheets, []], cursor: fresh(area) };
}

function nextColumn(cursor: Cursor): Cursor {
  return { ...cursor, x: cursor.x + cursor.columnWidth + columnGap, y: cursor.bandTop, columnWidth: 0 };
}

function placeBand(state: FlowState, { section, rows }: Band, area: Area): FlowState {
  const used = state.cursor.lowest > area.top;
  const below = used ? state.cursor.lowest + rowGap : area.top;
  let now = used && below + heightOf(rows) > area.bottom + 1e-6 ? newSheet(state, area) : state;
  let y = now === state ? below : area.top;
  for (const [index, row] of rows.entries()) {
    let part: Part = row;
    if (y + part.height > area.bottom + 1e-6 && y > area.top) {
      now = newSheet(now, area);
      y = area.top;
      if (index > 0) part = row.continued;
    }
    if (y + part.height > area.bottom + 1e-6)
      throw new RangeError(`A row of ${part.height} mm is higher than its sheet`);
    now = { ...now, sheets: added(now, { section, part, left: area.left, top: y }) };
    y += part.height + rowGap;
  }
  if (area.bottom - y < leastRest) return newSheet(now, area);
  return { ...now, cursor: { x: area.left, y, bandTop: y, columnWidth: 0, lowest: y - rowGap } };
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
