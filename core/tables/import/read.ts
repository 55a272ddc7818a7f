import { mostLayers, mostSlots } from './bounds.ts';
import type { BarMark, LayerMark } from './cells.ts';
import { barMark, isEmptyPlace, layerMark, phaseMark, senseMark, slotNumber, wholeNumber } from './cells.ts';
import { type GridCell, type GridRow, quoted, type TableTrouble, troubleAt } from './grid.ts';
import { type Heading, type HeadingKind, headingsOf, pathHeading } from './headings.ts';

/** A bar of a slot table: its place, its phase as written, and its sense, null where none is marked. */
export interface ReadPlace {
  readonly slot: number;
  readonly layer: LayerMark;
  readonly phase: string;
  readonly sense: 1 | -1 | null;
  readonly cell: GridCell;
}

/** A path as a row of bars from its line terminal. */
export interface ReadPath {
  readonly phase: string;
  readonly number: number;
  readonly bars: readonly ReadBar[];
  readonly cell: GridCell;
}

export interface ReadBar extends BarMark {
  /** Written as joined to the bar before it by a separate connecting piece. */
  readonly piece: boolean;
  /** Null where the table does not tell. */
  readonly sense: 1 | -1 | null;
  readonly cell: GridCell;
}

/** What a table holds. */
export interface ReadTable {
  readonly places: readonly ReadPlace[];
  readonly paths: readonly ReadPath[];
  /** Every slot that has a row or column of its own, whether or not anything lies in it. */
  readonly slots: readonly number[];
  readonly layers: readonly LayerMark[];
  /** Columns that were not read, by their headings. */
  readonly unread: readonly GridCell[];
  /** Rows that name no phase and were taken to be of the one above them. */
  readonly merged?: readonly number[];
}

type Reader = (header: GridRow, rows: readonly GridRow[], troubles: TableTrouble[]) => ReadTable;

/** The reader of the table that a header row begins; null where it is no header. */
export function readerOf(header: GridRow, next: GridRow | undefined): Reader | null {
  const headings = headingsOf(header);
  const has = (kind: HeadingKind) => headings.some((heading) => heading.kind === kind);
  const numbers = header.slice(1).filter(({ text }) => text !== '');
  const slotsAcross =
    numbers.length >= 3 &&
    numbers.every(({ text }, i) => wholeNumber(text.replace(/^(?:slot|s)\s*/i, '')) === i + 1);
  if (
    slotsAcross &&
    (has('layer') || (has('slot') && /^(?:layer|lage)|^[a-z]$/i.test(next?.[0]?.text ?? '')))
  )
    return readLayersByRow;
  if (has('phase') && (has('position') || (has('slot') && has('layer')))) return readBarList;
  if (has('slot') && has('layer-places')) return readSlotsByRow;
  if ((has('phase') || has('path')) && (has('bars') || has('number'))) return readPathsByRow;
  const named = header.filter(({ text }) => text !== '');
  return named.length > 0 && named.every(({ text }) => pathHeading(text) !== null) ? readPathsByColumn : null;
}

const noCell = (row: GridRow, column: number): GridCell =>
  row[column] ?? { row: row[0]?.row ?? 0, column, text: '' };

/** A row a slot, a column a layer, and the sense in the place or in a column of its own. */
function readSlotsByRow(header: GridRow, rows: readonly GridRow[], troubles: TableTrouble[]): ReadTable {
  const headings = headingsOf(header);
  const slotColumn = headings.findIndex(({ kind }) => kind === 'slot');
  const layers = headings.flatMap((heading, column) =>
    heading.kind === 'layer-places'
      ? [{ layer: heading.layer!, column, senseColumn: senseColumnOf(headings, heading) }]
      : [],
  );
  const slots: number[] = [];
  const places = rows.flatMap((row): readonly ReadPlace[] => {
    const slot = slotNumber(noCell(row, slotColumn), troubles);
    if (slot === null) return [];
    if (slots.includes(slot))
      troubles.push(troubleAt(noCell(row, slotColumn), `slot ${slot} has a row above already.`));
    slots.push(slot);
    return layers.flatMap(({ layer, column, senseColumn }) =>
      placeOf(slot, layer, noCell(row, column), senseColumn < 0 ? null : noCell(row, senseColumn), troubles),
    );
  });
  return {
    places,
    paths: [],
    slots,
    layers: layers.map(({ layer }) => layer),
    unread: unreadOf(headings, header, ['slot', 'layer-places', 'layer-sense']),
  };
}

function senseColumnOf(headings: readonly Heading[], { layer }: Heading): number {
  return headings.findIndex(
    (other) =>
      other.kind === 'layer-sense' && other.layer!.by === layer!.by && other.layer!.index === layer!.index,
  );
}

function placeOf(
  slot: number,
  layer: LayerMark,
  cell: GridCell,
  senseCell: GridCell | null,
  troubles: TableTrouble[],
): readonly ReadPlace[] {
  if (isEmptyPlace(cell.text)) return [];
  const mark = phaseMark(cell, troubles);
  if (!mark) return [];
  if (senseCell === null) return [{ slot, layer, phase: mark.name, sense: mark.sense, cell }];
  const sense = senseMark(senseCell, troubles);
  if (sense !== null && mark.sense !== null && mark.sense !== sense)
    troubles.push(troubleAt(cell, `${quoted(cell.text)} and the sense beside it disagree.`));
  return [{ slot, layer, phase: mark.name, sense, cell }];
}

/** A row a layer, a column a slot. */
function readLayersByRow(header: GridRow, rows: readonly GridRow[], troubles: TableTrouble[]): ReadTable {
  const layers: LayerMark[] = [];
  const places = rows.flatMap((row): readonly ReadPlace[] => {
    const layer = layerMark(row[0]?.text ?? '');
    if (!layer) {
      troubles.push(
        troubleAt(
          noCell(row, 0),
          `${quoted(row[0]?.text ?? '')} is no layer; a letter from a, or a number, is expected.`,
        ),
      );
      return [];
    }
    if (layers.some(({ by, index }) => by === layer.by && index === layer.index))
      troubles.push(troubleAt(noCell(row, 0), 'this layer has a row above already.'));
    layers.push(layer);
    return header
      .slice(1)
      .flatMap(({ text, column }) =>
        text === ''
          ? []
          : placeOf(wholeNumber(text.replace(/^\D*/, ''))!, layer, noCell(row, column), null, troubles),
      );
  });
  const slots = header.slice(1).flatMap(({ text }) => wholeNumber(text.replace(/^\D*/, '')) ?? []);
  return { places, paths: [], slots, layers, unread: [] };
}

/** A row a bar, with its path and its place in it where the bars are joined. */
function readBarList(header: GridRow, rows: readonly GridRow[], troubles: TableTrouble[]): ReadTable {
  const headings = headingsOf(header);
  const at = (kind: HeadingKind) => headings.findIndex((heading) => heading.kind === kind);
  const columns = { position: at('position'), slot: at('slot'), layer: at('layer'), phase: at('phase') };
  const [senseColumn, pathColumn, placeColumn] = [at('sense'), at('path'), at('place')];
  const joined = pathColumn >= 0 && rows.some((row) => noCell(row, pathColumn).text !== '');
  const places: ReadPlace[] = [];
  const walked = new Map<string, { readonly number: number; readonly steps: Step[] }>();
  for (const row of rows) {
    const bar = barOfRow(row, columns, troubles);
    const phaseCell = noCell(row, columns.phase);
    const mark = bar && phaseMark(phaseCell, troubles);
    if (!bar || !mark) continue;
    const sense = senseColumn < 0 ? mark.sense : senseMark(noCell(row, senseColumn), troubles);
    const read: ReadPlace = { ...bar, phase: mark.name, sense, cell: phaseCell };
    places.push(read);
    if (!joined) continue;
    const path = countIn(noCell(row, pathColumn), 'path', troubles);
    const place = placeColumn < 0 ? null : countIn(noCell(row, placeColumn), 'place in its path', troubles);
    if (path === null || place === null) continue;
    const key = `${mark.name} ${path}`;
    const walk = walked.get(key) ?? { number: path, steps: [] };
    walk.steps.push({ place, read, cell: noCell(row, placeColumn) });
    walked.set(key, walk);
  }
  if (joined && placeColumn < 0)
    troubles.push(
      troubleAt(noCell(header, pathColumn), 'a column with the place in the path is expected beside it.'),
    );
  const paths = [...walked.values()].map(({ number, steps }) => pathOfSteps(number, steps, troubles));
  return {
    places,
    paths,
    slots: [],
    layers: [],
    unread: unreadOf(headings, header, [
      'position',
      'slot',
      'layer',
      'phase',
      'sense',
      'path',
      'place',
      'derived',
    ]),
  };
}

function barOfRow(
  row: GridRow,
  columns: { readonly position: number; readonly slot: number; readonly layer: number },
  troubles: TableTrouble[],
): BarMark | null {
  if (columns.slot < 0 || columns.layer < 0) {
    const cell = noCell(row, columns.position);
    return barMark(cell, cell.text, troubles);
  }
  const slot = slotNumber(noCell(row, columns.slot), troubles);
  const cell = noCell(row, columns.layer);
  const layer = layerMark(cell.text);
  if (!layer)
    troubles.push(
      troubleAt(cell, `${quoted(cell.text)} is no layer; a letter from a, or a number, is expected.`),
    );
  return slot !== null && layer ? { slot, layer } : null;
}

/** Most paths that the language numbers, and most bars that a winding has. */
const mostCounts = { path: mostSlots, 'place in its path': mostSlots * mostLayers } as const;

function countIn(cell: GridCell, what: keyof typeof mostCounts, troubles: TableTrouble[]): number | null {
  const number = wholeNumber(cell.text);
  if (number !== null && number >= 1 && number <= mostCounts[what]) return number;
  troubles.push(
    troubleAt(
      cell,
      `the number of its ${what} is expected, from 1 to ${mostCounts[what]}; ${quoted(cell.text)} stands here.`,
    ),
  );
  return null;
}

/** A bar of a list, and the cell with its place in the path. */
interface Step {
  readonly place: number;
  readonly read: ReadPlace;
  readonly cell: GridCell;
}

function pathOfSteps(number: number, steps: readonly Step[], troubles: TableTrouble[]): ReadPath {
  const ordered = [...steps].sort((a, b) => a.place - b.place);
  ordered.forEach(({ place, cell }, index) => {
    if (place !== (ordered[index - 1]?.place ?? 0) + 1)
      troubles.push(
        troubleAt(cell, `place ${place} of its path stands here; each place from 1 is expected once.`),
      );
  });
  const { read, cell } = ordered[0]!;
  const bars = ordered.map(({ read: { slot, layer, sense, cell: at } }) => ({
    slot,
    layer,
    sense,
    piece: false,
    cell: at,
  }));
  return { phase: read.phase, number, bars, cell };
}

/** A row a path: its phase and number, and its bars in one cell or in a cell each. */
function readPathsByRow(header: GridRow, rows: readonly GridRow[], troubles: TableTrouble[]): ReadTable {
  const headings = headingsOf(header);
  const at = (kind: HeadingKind) => headings.findIndex((heading) => heading.kind === kind);
  const [phaseColumn, pathColumn] = [at('phase'), at('path')];
  const barColumns = headings.flatMap(({ kind }, column) =>
    kind === 'bars' || kind === 'number' ? [column] : [],
  );
  const merged: number[] = [];
  let above: GridCell | null = null;
  const paths = rows.flatMap((row): readonly ReadPath[] => {
    // A cell that is merged over rows stands in the first of them.
    const own = phaseColumn < 0 ? null : noCell(row, phaseColumn);
    if (own?.text === '' && pathColumn >= 0 && above?.text) merged.push(own.row);
    else above = own;
    const named = pathNameOf(row, above, pathColumn, troubles);
    if (!named) return [];
    const cells = barColumns.map((column) => noCell(row, column));
    const bars = barsOf(cells, troubles);
    if (cells.every(({ text }) => text === ''))
      troubles.push(troubleAt(named.cell, 'this path has no bars.'));
    return bars.length === 0 ? [] : [{ ...named, bars }];
  });
  return {
    ...noPlaces,
    paths,
    unread: unreadOf(headings, header, ['phase', 'path', 'bars', 'number']),
    merged,
  };
}

/** Phase and number from a cell each, or from one that holds both: `U 1`; a column that there is not is null, or -1. */
function pathNameOf(
  row: GridRow,
  phaseCell: GridCell | null,
  pathColumn: number,
  troubles: TableTrouble[],
): Pick<ReadPath, 'phase' | 'number' | 'cell'> | null {
  const cell = pathColumn < 0 && phaseCell !== null ? phaseCell : noCell(row, pathColumn);
  if (phaseCell === null || pathColumn < 0) {
    const both = pathHeading(cell.text);
    if (both) return { ...both, cell };
    if (pathColumn < 0) {
      const mark = phaseMark(cell, troubles);
      return mark && { phase: mark.name, number: 1, cell };
    }
    troubles.push(
      troubleAt(cell, `${quoted(cell.text)} names no path; phase and number are expected, such as U 1.`),
    );
    return null;
  }
  const mark = phaseMark(phaseCell, troubles);
  const number = countIn(cell, 'path', troubles);
  return mark && number !== null ? { phase: mark.name, number, cell } : null;
}

/** A column a path, its bars one below the other. */
function readPathsByColumn(header: GridRow, rows: readonly GridRow[], troubles: TableTrouble[]): ReadTable {
  const paths = header
    .filter(({ text }) => text !== '')
    .flatMap((cell): readonly ReadPath[] => {
      const cells = rows.map((row) => noCell(row, cell.column));
      const bars = barsOf(cells, troubles);
      if (cells.every(({ text }) => text === '')) troubles.push(troubleAt(cell, 'this path has no bars.'));
      return bars.length === 0 ? [] : [{ ...pathHeading(cell.text)!, bars, cell }];
    });
  return { ...noPlaces, paths, unread: [] };
}

const noPlaces = { places: [], slots: [], layers: [] } as const;

/** The bars that cells hold one after the other; `|` stands before one that a separate piece joins. */
function barsOf(cells: readonly GridCell[], troubles: TableTrouble[]): readonly ReadBar[] {
  const bars: ReadBar[] = [];
  let piece = false;
  // A dash stands between bars behind the letter of a layer, else within a bar: `1a-7b`, `12-a`.
  const between = /[\s,;>\u2192]+|(\|)|(?<=\d[a-z])[-\u2010-\u2015](?=\d)/i;
  for (const cell of cells)
    for (const word of cell.text.split(between)) {
      if (word === undefined || word === '') continue;
      if (word === '|') {
        piece = true;
        continue;
      }
      const bar = barMark(cell, word, troubles);
      if (bar) bars.push({ ...bar, piece, sense: null, cell });
      piece = false;
    }
  return bars;
}

function unreadOf(
  headings: readonly Heading[],
  header: GridRow,
  read: readonly HeadingKind[],
): readonly GridCell[] {
  return header.filter(({ text }, column) => text !== '' && !read.includes(headings[column]!.kind!));
}
