import { windingFactor } from '../../analysis/factors/factors.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import { visible } from '../../language/text/visible.ts';
import {
  type PhaseSystem,
  placeName,
  type SlotTable,
  typedSigns,
  type Winding,
} from '../../winding/model.ts';
import { lineTerminal, pathEnd } from '../../winding/terminals.ts';
import { mostSlots } from './bounds.ts';
import { type LayerMark, wholeNumber } from './cells.ts';
import { columnName, type GridRow, grids, quoted, type TableTrouble, troubleAt } from './grid.ts';
import { type ConnectionWord, headRow, type TableWishes } from './head.ts';
import { headingsOf, isUnclearLayer } from './headings.ts';
import { type NamedPhases, namedPhases } from './phases.ts';
import { type ReadPath, type ReadPlace, type ReadTable, readerOf } from './read.ts';

/** What came of a table. */
export type ImportedTable =
  | { readonly kind: 'winding'; readonly text: string; readonly notes: readonly string[] }
  /** The table does not tell how many poles, or how the phases are joined; `words` ask for it. */
  | { readonly kind: 'lacking'; readonly what: 'poles' | 'connection'; readonly words: string }
  | { readonly kind: 'refused'; readonly troubles: readonly TableTrouble[] };

/** Most troubles that are told. */
const mostTroubles = 20;

/**
 * A winding file from a table of a spreadsheet: a slot table (a row or a column a slot, phases with their sense), a
 * list of bars, or the bars of each path in their order. What its text says of sizes is left to the user. `wishes`
 * count before what rows above the table say. Troubles tell the row and column of the table and what was expected.
 * The text is not yet in canonical form.
 */
export function readWinding(csv: string, wishes: TableWishes = {}): ImportedTable {
  const tried = grids(csv).map((rows) => readGrid(rows));
  // The first delimiter under which a header is understood, else what the likeliest one says.
  const found = tried.find(({ table }) => table !== null) ?? tried[0]!;
  if (found.table === null || found.troubles.length > 0) return refused(found.troubles);
  return windingOf(found.table, { ...found.said, ...wishes });
}

function refused(troubles: readonly TableTrouble[]): ImportedTable {
  const shown = troubles.slice(0, mostTroubles);
  const more = troubles.length - shown.length;
  if (more > 0) shown.push({ row: null, column: null, message: `${more} more rows or cells are wrong.` });
  return { kind: 'refused', troubles: shown };
}

interface ReadGrid {
  readonly table: ReadTable | null;
  readonly said: TableWishes;
  readonly troubles: readonly TableTrouble[];
}

/** Rows above the header, the header, and the rows below it. */
function readGrid(rows: readonly GridRow[]): ReadGrid {
  const troubles: TableTrouble[] = [];
  let said: TableWishes = {};
  for (const [index, row] of rows.entries()) {
    const filled = row.filter(({ text }) => text !== '');
    // `slots;12` is no header of one layer.
    const counts = filled.length === 2 && (wholeNumber(filled[1]!.text) ?? 0) >= 3;
    const reader = counts ? null : readerOf(row, rows[index + 1]);
    if (reader) return { table: reader(row, rows.slice(index + 1), troubles), said, troubles };
    const head = headRow(row, troubles);
    if (head) said = { ...said, ...head };
    else if (filled.length === 1) said = isHeading(filled) ? said : { title: filled[0]!.text, ...said };
    else return { table: null, said, troubles: [...troubles, noHeader(row)] };
  }
  const message =
    'there is no table; a header row is expected, such as slot;a;b, or phase;path;bars, and rows below it.';
  return { table: null, said, troubles: [...troubles, { row: null, column: null, message }] };
}

/** The first of some numbers. */
function listed(numbers: readonly number[]): string {
  return `${numbers.slice(0, 5).join(', ')}${numbers.length > 5 ? ' …' : ''}`;
}

/** Whether words by themselves head columns, as those over merged cells do. */
function isHeading(row: GridRow): boolean {
  return headingsOf(row).some(({ kind }) => kind !== null);
}

function noHeader(row: GridRow): TableTrouble {
  const unclear = row.find(({ text }) => isUnclearLayer(text));
  if (unclear)
    return troubleAt(
      unclear,
      `${quoted(unclear.text)} does not say which layer is nearer the axis; inner and outer, or a, b ... from the axis outwards, are expected.`,
    );
  return troubleAt(
    row.find(({ text }) => text !== '')!,
    'these headings are not understood; slot and layers (slot;a;b), layer and slots (layer;1;2;3), slot, layer and phase of each bar, or phase, path and bars are expected.',
  );
}

/** A winding with its bars placed, whatever the names in the table. */
interface Placed {
  readonly slots: number;
  readonly layers: number;
  readonly phases: NamedPhases;
  readonly layerOf: (mark: LayerMark) => number;
}

function windingOf(read: ReadTable, wishes: TableWishes): ImportedTable {
  const troubles: TableTrouble[] = [];
  const placed = placedBars(read, wishes, troubles);
  if (placed === null) return refused(troubles);
  const places = senses(read, troubles);
  const table = slotTable(read, placed, places, troubles);
  checkPaths(read.paths, placed, troubles);
  if (troubles.length > 0) return refused(troubles);
  const poles = wishes.poles === undefined ? likelyPoles(table, placed.phases.system) : known(wishes.poles);
  if (typeof poles === 'string') return { kind: 'lacking', what: 'poles', words: poles };
  if (read.paths.length > 0 && wishes.connection === undefined)
    return {
      kind: 'lacking',
      what: 'connection',
      words: 'the table does not tell how the phases are joined; star, delta or open is expected.',
    };
  const notes = notesOf(read, wishes, placed, poles.assumed);
  return { kind: 'winding', text: textOf(read, wishes, { placed, table, poles, notes }), notes };
}

/** Slots, layers and phases of a table; null where they are not what a winding can have. */
function placedBars(read: ReadTable, wishes: TableWishes, troubles: TableTrouble[]): Placed | null {
  const bars = [...read.places, ...read.paths.flatMap((path) => path.bars)];
  const highest = Math.max(0, ...read.slots, ...bars.map(({ slot }) => slot));
  const slots = wishes.slots ?? highest;
  for (const { slot, cell } of bars)
    if (slot > slots)
      troubles.push(troubleAt(cell, `slot ${slot} lies beyond the ${slots} slots that are stated.`));
  const lacking = missingSlots(read.slots, slots);
  if (lacking.length > 0) troubles.push(whole(`slot ${listed(lacking)} has no row.`));
  if (slots < 3 || slots > mostSlots)
    troubles.push(whole(`there are ${slots} slots; 3 to ${mostSlots} are expected.`));
  const marks = [...read.layers, ...bars.map(({ layer }) => layer)];
  const layers = 1 + Math.max(-1, ...marks.map(({ index }) => index));
  const names = [...read.places, ...read.paths].map(({ phase }) => phase.toUpperCase());
  if (names.length === 0) troubles.push(whole('the table holds no bars.'));
  const phases = namedPhases([...new Set(names)].sort(), wishes.sets ?? null);
  if (typeof phases === 'string') {
    if (names.length > 0) troubles.push(...phaseTroubles(read, names, wishes.sets ?? null, phases));
    return null;
  }
  const outside = wishes.firstLayer === 'outside';
  return {
    slots,
    layers,
    phases,
    layerOf: ({ by, index }) => (outside && by === 'number' ? layers - 1 - index : index),
  };
}

/** A few names among many that are phases are told where they stand; else all of them together. */
function phaseTroubles(
  { places, paths }: ReadTable,
  names: readonly string[],
  sets: number | null,
  words: string,
): readonly TableTrouble[] {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  const most = Math.max(...counts.values());
  const common = [...counts].flatMap(([name, count]) => (2 * count > most ? [name] : [])).sort();
  if (typeof namedPhases(common, sets) === 'string') return [whole(words)];
  return [...places, ...paths]
    .filter(({ phase }) => !common.includes(phase.toUpperCase()))
    .map(({ phase, cell }) =>
      troubleAt(cell, `${quoted(phase)} is no phase of this table; ${common.join(', ')} are.`),
    );
}

function whole(message: string): TableTrouble {
  return { row: null, column: null, message };
}

function missingSlots(named: readonly number[], slots: number): readonly number[] {
  if (named.length === 0) return [];
  const given = new Set(named);
  return Array.from({ length: slots }, (_, index) => index + 1).filter((slot) => !given.has(slot));
}

/**
 * The sense of every place: as marked, and away from the connection side where others are marked; where none is, small
 * letters carry the phase of the capital back.
 */
function senses(
  { places, paths }: ReadTable,
  troubles: TableTrouble[],
): readonly (ReadPlace & { readonly sense: 1 | -1 })[] {
  const marked = places.some(({ sense }) => sense !== null);
  const small = ({ phase }: ReadPlace) => phase !== phase.toUpperCase();
  const byCase = !marked && places.some(small) && !places.every(small);
  if (!marked && !byCase && places.length > 0 && paths.length === 0)
    troubles.push(
      whole(
        "no bar carries its phase back; +U and -U, U and U', U and u, or columns of senses are expected.",
      ),
    );
  return places.map((place) => ({ ...place, sense: place.sense ?? (byCase && small(place) ? -1 : 1) }));
}

function slotTable(
  { paths }: ReadTable,
  { slots, layers, phases, layerOf }: Placed,
  places: readonly (ReadPlace & { readonly sense: 1 | -1 })[],
  troubles: TableTrouble[],
): SlotTable {
  const cells = new Int8Array(Math.max(0, slots * layers));
  const put = (at: ReadPlace | ReadPath['bars'][number], phase: string, sense: 1 | -1) => {
    const index = layerOf(at.layer) * slots + at.slot - 1;
    if (cells[index] !== 0)
      troubles.push(
        troubleAt(at.cell, `slot ${at.slot}, layer ${layerLetter(layerOf(at.layer))} holds a bar already.`),
      );
    cells[index] = sense * (1 + phases.indexOf.get(phase.toUpperCase())!);
  };
  if (paths.length === 0) for (const place of places) put(place, place.phase, place.sense);
  for (const path of paths)
    path.bars.forEach((bar, index) => {
      put(bar, path.phase, startSense(path) * (index % 2 === 0 ? 1 : -1) === 1 ? 1 : -1);
    });
  return { slots, layers, cells };
}

/** The sense in which a path passes its first bar: it enters on the connection side unless the table says otherwise. */
function startSense({ bars }: ReadPath): 1 | -1 {
  return bars[0]?.sense ?? 1;
}

/** Bars of a path are passed to and fro; what the table says of their senses must agree. */
function checkPaths(paths: readonly ReadPath[], { phases }: Placed, troubles: TableTrouble[]): void {
  const names = new Set<string>();
  for (const path of paths) {
    const name = `${phases.system.names[phases.indexOf.get(path.phase.toUpperCase())!]} ${path.number}`;
    if (names.has(name)) troubles.push(troubleAt(path.cell, `path ${name} stands in the table already.`));
    names.add(name);
    path.bars.forEach(({ sense, cell }, index) => {
      const walked = startSense(path) * (index % 2 === 0 ? 1 : -1);
      if (sense !== null && sense !== walked)
        troubles.push(
          troubleAt(
            cell,
            `path ${name} passes this bar ${walked === 1 ? 'away from the connection side' : 'back'}, the ${index + 1}. of its bars, but its sense says the contrary.`,
          ),
        );
    });
  }
}

/** Poles, and what they were taken from where the table does not tell them. */
interface Poles {
  readonly count: number;
  readonly assumed: string | null;
}

function known(count: number): Poles {
  return { count, assumed: null };
}

/** Poles of the strongest wave, where no other number of poles may be meant; else a question for them. */
function likelyPoles(table: SlotTable, phases: PhaseSystem): Poles | string {
  const factors = Array.from({ length: table.slots - 1 }, (_, index) => {
    const winding: Winding = {
      slots: table.slots,
      poles: 2,
      polePairs: 1,
      phases,
      layers: table.layers,
      table,
      lean: new Array<number>(table.layers).fill(0),
      rotorSkew: { angle: 0, steps: null },
      parallelPaths: 1,
      origin: { kind: 'rows' },
    };
    return windingFactor(winding, index + 1);
  });
  const waves = factors.slice(0, Math.floor(table.slots / 2)).map((factor, index) => factor / (index + 1));
  const strongest = Math.max(...waves);
  const orders = waves.flatMap((wave, index) => (wave > 0.7 * strongest ? [index + 1] : []));
  const [pairs] = orders;
  // Tooth coils fit several numbers of poles.
  if (orders.length === 1 && table.slots / (2 * pairs!) >= 2)
    return { count: 2 * pairs!, assumed: `poles ${2 * pairs!} is that of the table's strongest wave` };
  const best = Math.max(...factors);
  const fitting = factors.flatMap((factor, index) => (factor > 0.9 * best ? [2 * (index + 1)] : []));
  return `the table does not tell the number of poles, and its waves fit ${fitting.slice(0, 6).join(', ')} poles.`;
}

function notesOf(
  { unread, merged = [], slots: named, layers, places, paths }: ReadTable,
  { firstLayer, slots: said }: TableWishes,
  { phases, slots, layers: count }: Placed,
  assumed: string | null,
): readonly string[] {
  const marks = [
    ...layers,
    ...places.map(({ layer }) => layer),
    ...paths.flatMap(({ bars }) => bars.map(({ layer }) => layer)),
  ];
  const numbered = count > 1 && marks.some(({ by }) => by === 'number');
  const outside = firstLayer === 'outside';
  const { system } = phases;
  return [
    ...(assumed === null ? [] : [assumed]),
    ...(said === undefined && named.length === 0 ? [`slots ${slots} is the highest slot of the table`] : []),
    ...(numbered
      ? [
          `layer 1 of the table is taken as the one ${outside ? 'farthest from' : 'nearest'} the axis, ${outside ? layerLetter(count - 1) : 'a'}`,
        ]
      : []),
    ...(phases.renamed
      ? [`the phases ${[...phases.indexOf.keys()].join(' ')} of the table are ${system.names.join(' ')}`]
      : []),
    ...(merged.length > 0
      ? [
          `rows without a phase (${listed(merged)}) are taken to be of the phase above them, as in merged cells`,
        ]
      : []),
    ...unread.map(({ text, column }) => `column ${columnName(column)} (${quoted(text)}) was not read`),
  ];
}

interface Writing {
  readonly placed: Placed;
  readonly table: SlotTable;
  readonly poles: Poles;
  readonly notes: readonly string[];
}

function textOf(
  { paths }: ReadTable,
  { title, connection, sets }: TableWishes,
  { placed, table, poles, notes }: Writing,
): string {
  const { system } = placed.phases;
  const count = system.sets === 2 ? `6 apart ${sets} edeg` : String(system.names.length);
  const name = visible(title ?? 'Imported winding').replace(/[\\"]/g, (sign) => `\\${sign}`);
  const rows = Array.from({ length: table.layers }, (_, layer) => rowStatement(table, layer, system));
  const layout = paths.length > 0 ? '' : `layout {\n  layers ${table.layers}\n${rows.join('\n')}\n}\n`;
  const phaseOf = ({ phase }: ReadPath) => placed.phases.indexOf.get(phase.toUpperCase())!;
  const ordered = [...paths].sort((a, b) => phaseOf(a) - phaseOf(b) || a.number - b.number);
  const statements = ordered.map((path) => pathStatement(path, placed, connection ?? 'star'));
  const connect =
    connection === undefined
      ? ''
      : `connect {\n  ${connection}\n${statements.map((each) => `  ${each}\n`).join('')}}\n`;
  const open =
    paths.length === 0 ? '\n# connect { star  route paths 1 } finds how the bars are joined.\n' : '';
  return `winding "${name}"

# From a table${notes.length === 0 ? '.' : ':'}
${notes.map((note) => `# ${note}\n`).join('')}
machine {
  slots ${table.slots}
  poles ${poles.count}
  phases ${count}
}

${layout}${connect}${connect === '' ? open : ''}`;
}

/** The row of a layer, by the shortest part that repeats itself as it is or negated. */
function rowStatement({ slots, layers, cells }: SlotTable, layer: number, system: PhaseSystem): string {
  const row = [...cells.subarray(layer * slots, (layer + 1) * slots)];
  const repeats = (length: number, sign: 1 | -1) =>
    row.every((cell, index) => index < length || cell === sign * row[index - length]!);
  const names = (length: number) =>
    row
      .slice(0, length)
      .map((cell) => placeName(cell, system, typedSigns))
      .join(' ');
  const head = `  layer ${layerLetter(layer)} `;
  for (let length = 1; length < slots; length++) {
    if (slots % length !== 0) continue;
    if (repeats(length, 1)) return `${head} ${names(length)} repeat ${slots / length}`;
    if (repeats(length, -1)) return `${head} ${names(length)} repeat ${slots / length} alternating`;
  }
  return layers > 0 ? `${head} ${names(slots)}` : '';
}

function pathStatement(path: ReadPath, { phases, layerOf }: Placed, connection: ConnectionWord): string {
  const index = phases.indexOf.get(path.phase.toUpperCase())!;
  const phase = phases.system.names[index]!;
  const startsFar = startSense(path) === -1;
  const endsFar = (path.bars.length % 2 === 1) !== startsFar;
  const bars = path.bars.map(
    ({ slot, layer, piece }) => `${piece ? '| ' : ''}${slot}${layerLetter(layerOf(layer))}`,
  );
  const from = `from ${lineTerminal(phase)}${startsFar ? ' far' : ''}`;
  const to = `to ${pathEnd(phases.system, index, connection)}${endsFar ? ' far' : ''}`;
  return `path ${phase} ${path.number} ${from} ${bars.join(' ')} ${to}`;
}
