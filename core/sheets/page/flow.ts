import type { Steps } from '../../figures/steps.ts';
import type { Primitive } from '../../picture/picture.ts';
import type { Area } from './format.ts';
import { line, widthOf } from './text.ts';

/** Sections of a sheet set with the number of the sheet each begins on. */
export type SheetIndex = ReadonlyMap<string, number>;

/** A piece of contents with a fixed size, in millimeters. */
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
  /** In mm. */
  readonly width: number;
  /** As much as fits into a height, and what is left; null where nothing fits. */
  readonly take: (room: number) => { readonly part: Part; readonly rest: Block | null } | null;
  /** May stand before what comes before it, where a sheet has no other room for it. */
  readonly goesBack?: boolean;
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
  /** Of its top left corner on the sheet, mm to the right and down. */
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
 * Spreads contents over sheets with the same free area: blocks in columns from left to right, also beside narrow ones
 * below a wide one; bands of the full width below what there is already. A band that does not fit on the rest of a
 * sheet begins on a new one. Blocks that fit on the rest of a sheet together take no more of its height than they
 * need. What fits on a sheet is split only where that saves one. Where a block is larger than a sheet's area, words say
 * so in its place; a band that is throws RangeError.
 */
export function flow(contents: readonly Content[], area: Area): readonly (readonly PlacedPart[])[] {
  const groups = groupsOf(contents);
  const whole = placeGroups(groups, area, { keepWhole: true });
  const split = placeGroups(groups, area, { keepWhole: false });
  return split.length < whole.length ? split : whole;
}

interface Splitting {
  /** What fits on a sheet is split only where its group takes fewer sheets so. */
  readonly keepWhole: boolean;
}

/** Spreads groups over sheets. */
function placeGroups(
  groups: readonly Group[],
  area: Area,
  splitting: Splitting,
): readonly (readonly PlacedPart[])[] {
  let state: FlowState = { sheets: [[]], cursor: fresh(area) };
  for (const group of groups)
    state =
      group.kind === 'band'
        ? placeBand(state, group.band, area)
        : placeBlocks(state, group.blocks, area, splitting);
  return state.sheets.filter((parts) => parts.length > 0);
}

/** Less height than this below a band stays free. */
const leastRest = 60;
/** Columns of blocks that fit on a sheet are at least this high, then higher in steps. */
const leastColumn = 100;
const columnStep = 8;

/** What a part covers. */
interface Covered {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

interface Cursor {
  readonly x: number;
  readonly y: number;
  /** Where columns begin: below the last band. */
  readonly bandTop: number;
  /** Blocks below the last band. */
  readonly blocks: readonly Covered[];
  /** How far down the sheet is filled. */
  readonly lowest: number;
}

interface FlowState {
  readonly sheets: readonly (readonly PlacedPart[])[];
  readonly cursor: Cursor;
}

function fresh(area: Area): Cursor {
  return { x: area.left, y: area.top, bandTop: area.top, blocks: [], lowest: area.top };
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

/** In which order room is looked for: whole columns first, or the leftmost room first. */
type RoomOrder = (one: Room, other: Room) => number;

/** Where a column would begin. */
interface Room {
  readonly left: number;
  readonly top: number;
  readonly whole: boolean;
}

const leftmost = (one: { readonly left: number }, other: { readonly left: number }) => one.left - other.left;
const wholeFirst: RoomOrder = (one, other) => Number(other.whole) - Number(one.whole) || leftmost(one, other);

/** How blocks are placed: where room is looked for first, and whether what fits on a sheet is kept whole. */
interface Way {
  readonly order: RoomOrder;
  readonly whole: boolean;
}

const orders = [wholeFirst, leftmost];
const splitting: readonly Way[] = orders.map((order) => ({ order, whole: false }));
const keeping: readonly Way[] = orders.map((order) => ({ order, whole: true }));

/** Places blocks in the way that takes the fewest sheets, then splits the fewest, then looks for whole columns first. */
function placeBlocks(
  state: FlowState,
  blocks: readonly Block[],
  area: Area,
  { keepWhole }: Splitting,
): FlowState {
  const { bandTop } = state.cursor;
  const ways = keepWhole ? [...keeping, ...splitting] : splitting;
  const placed = (bottom: number, mostSheets: number) =>
    fewest(ways.flatMap((way) => placeAll(state, blocks, { area, bottom, mostSheets, ...way }) ?? []));
  const unsplit = partCount(state) + blocks.length;
  let lowest: FlowState | null = null;
  for (let height = leastColumn; bandTop + height < area.bottom; height += columnStep) {
    const onOne = placed(bandTop + height, state.sheets.length);
    if (onOne && (!keepWhole || partCount(onOne) === unsplit)) return onOne;
    lowest ??= onOne;
  }
  return lowest ?? placed(area.bottom, Number.POSITIVE_INFINITY)!;
}

/** The first of those with the fewest sheets, and of these with the fewest parts; null of none. */
function fewest(states: readonly FlowState[]): FlowState | null {
  return states.reduce<FlowState | null>((best, next) => {
    const more = best ? next.sheets.length - best.sheets.length || partCount(next) - partCount(best) : -1;
    return more < 0 ? next : best;
  }, null);
}

function partCount({ sheets }: FlowState): number {
  return sheets.reduce((sum, parts) => sum + parts.length, 0);
}

/** Where blocks may stand, and how they are placed. */
interface Placing extends Way {
  readonly area: Area;
  /** How far down the first sheet they may reach. */
  readonly bottom: number;
  readonly mostSheets: number;
}

/** Places blocks one after the other; null where that takes more sheets than it may. */
function placeAll(state: FlowState, blocks: readonly Block[], placing: Placing): FlowState | null {
  const first = state.sheets.length;
  const { area } = placing;
  let now = state;
  for (const block of blocks) {
    const whole = placing.whole && block.take(area.bottom - area.top)?.rest === null;
    let left: Block | null = block;
    while (left !== null) {
      const bottom = now.sheets.length === first ? placing.bottom : area.bottom;
      [now, left] = placeOne(now, left, { ...placing, bottom, whole });
      if (now.sheets.length > placing.mostSheets) return null;
    }
  }
  return now;
}

/** Words in place of a block that is larger than a sheet's area. */
function wordsInstead({ section }: Block, { sheets }: FlowState, area: Area): Block {
  const id = `larger-than-sheet-${sheets.flat().length}`;
  const words = `${section}: a figure is larger than this sheet; a larger sheet-size shows it.`;
  const part: Part = {
    height: 4,
    draw: (left, top) => [line(id, 'note', left, top + 3, words, { height: 2.5 })],
  };
  return {
    section,
    width: Math.min(widthOf(words, 2.5), area.right - area.left),
    take: (room) => (room < part.height ? null : { part, rest: null }),
  };
}

/** One step: part of a block is placed, or a new column or sheet begun. */
function placeOne(state: FlowState, block: Block, placing: Placing): readonly [FlowState, Block | null] {
  const { cursor } = state;
  const { area, bottom } = placing;
  const place = placeOf(block, cursor, placing);
  if (place === null) {
    const never = !fits(block, area.left, area) || block.take(area.bottom - area.top) === null;
    return never ? [state, wordsInstead(block, state, area)] : [newSheet(state, area), block];
  }
  const { x, y, part, rest } = place;
  const end = y + part.height;
  const filled = {
    ...cursor,
    ...(x < cursor.x ? {} : { x, y: rest === null ? end + rowGap : bottom }),
    blocks: [...cursor.blocks, { left: x, right: x + block.width, top: y, bottom: end }],
    lowest: Math.max(cursor.lowest, end),
  };
  const placed = { section: block.section, part, left: x, top: y };
  return [{ sheets: added(state, placed), cursor: filled }, rest];
}

/**
 * Where a block goes on, and what of it: in its column, else at the top of the next one that has room, else, where it
 * may go back, wherever it has room between the others, the leftmost first.
 */
function placeOf(block: Block, cursor: Cursor, { area, bottom, order, whole: kept }: Placing) {
  const { x, y, bandTop, blocks } = cursor;
  const takenOf = (room: number) => {
    const taken = block.take(room);
    return taken && (taken.rest === null || !kept) ? taken : null;
  };
  const topAt = (left: number): number =>
    blocks.reduce(
      (top, each) =>
        each.right + columnGap > left + 1e-6 && each.left < left + block.width + columnGap - 1e-6
          ? Math.max(top, each.bottom + rowGap)
          : top,
      bandTop,
    );
  if (fits(block, x, area) && topAt(x) <= y + 1e-6) {
    const taken = takenOf(bottom - y);
    if (taken) return { x, y, ...taken };
  }
  const rooms = blocks
    .map(({ right }) => right + columnGap)
    .filter((left) => left > x && fits(block, left, area))
    .map((left): Room => ({ left, top: topAt(left), whole: topAt(left) === bandTop }));
  for (const { left, top, whole } of rooms.sort(order)) {
    const taken = takenOf(bottom - top);
    // Beside narrow blocks and below a wide one there is room for what is not split.
    if (taken && (whole || taken.rest === null)) return { x: left, y: top, ...taken };
  }
  if (!block.goesBack) return null;
  const lefts = blocks
    .flatMap(({ left, right }) => [left, right + columnGap])
    .sort((one, other) => one - other);
  const tops = [bandTop, ...blocks.map((each) => each.bottom + rowGap)].sort((one, other) => one - other);
  for (const left of lefts.filter((each) => fits(block, each, area)))
    for (const top of tops) {
      const taken = block.take(bottom - top);
      if (taken?.rest !== null) continue;
      const [right, under] = [left + block.width + columnGap, top + taken.part.height + rowGap];
      const free = blocks.every(
        (each) =>
          each.right + columnGap <= left + 1e-6 ||
          each.left >= right - 1e-6 ||
          each.bottom + rowGap <= top + 1e-6 ||
          each.top >= under - 1e-6,
      );
      if (free) return { x: left, y: top, ...taken };
    }
  return null;
}

function fits({ width }: Block, left: number, area: Area): boolean {
  return left + width <= area.right + 1e-6;
}

function added({ sheets }: FlowState, part: PlacedPart): FlowState['sheets'] {
  return [...sheets.slice(0, -1), [...sheets.at(-1)!, part]];
}

function newSheet({ sheets }: FlowState, area: Area): FlowState {
  return { sheets: [...sheets, []], cursor: fresh(area) };
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
  return { ...now, cursor: { x: area.left, y, bandTop: y, blocks: [], lowest: y - rowGap } };
}

/** Height of rows one below the other. */
function heightOf(rows: readonly Part[]): number {
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
