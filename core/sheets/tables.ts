import type { ConnectionFacts } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import { shopNames } from '../facts/shop.ts';
import { orNull } from '../figures/figure.ts';
import { layerLetter } from '../language/layerLetters.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { BarEnd, Space, SpaceBar } from '../space/space.ts';
import type { Column } from '../tables/column.ts';
import { type JointRow, jointColumn, jointRow } from '../tables/joints.ts';
import { type LeadRow, leadColumn, leadRows } from '../tables/leads.ts';
import { barShapeColumn, bentEndWords, type ShapeOf } from '../tables/shapes.ts';
import { placeColumns } from '../tables/slots.ts';
import type { BarShape } from '../winding/joints/bars.ts';
import { barName, printedSigns, slotNumbers } from '../winding/model.ts';
import { columnsAndRows } from './columns.ts';
import { sectionWords } from './conductors.ts';
import { degreesText } from './ends/degrees.ts';
import { endsHeading, joinsWords } from './joining.ts';
import { lengthRange } from './numbers.ts';
import type { SheetTable } from './page/table.ts';
import { settingOrder } from './settingOrder.ts';
import type { PieceKind, ShapeRow } from './sketches/shapeData.ts';

/**
 * Slot tables: every place with its phase and sense, and with the bar that is put in there, layers side by side as
 * far as the width goes.
 */
export function slotTables(facts: Facts, section: string, width: number): readonly SheetTable[] {
  const { winding } = facts;
  const names = shopNames(facts);
  const cell = names.size > 0 ? 19 : 11;
  const perTable = Math.max(1, Math.floor((width - 14) / cell));
  const tables: SheetTable[] = [];
  for (let first = 0; first < winding.layers; first += perTable) {
    const [slot, ...places] = placeColumns(
      winding,
      printedSigns,
      first,
      Math.min(first + perTable, winding.layers),
    );
    const columns = [slot!, ...places.map((column, index) => withBar(column, first + index, names))];
    tables.push({
      id: `slots-${layerLetter(first)}`,
      section,
      heading: 'Slot table',
      remarks: [
        ...(names.size > 0
          ? [
              'Phase and sense of each bar; in parentheses its shape, by its number in bar list and bend list.',
            ]
          : []),
        ...insertionWords(facts),
      ],
      ...columnsAndRows(columns, slotNumbers(winding)),
    });
  }
  return tables;
}

/** What to know before the first bar goes in; nothing in a text ties a slot to the stack. */
function insertionWords({ connection }: Facts): readonly string[] {
  const mark = 'Mark slot 1 and the connection side on the stack first.';
  if (connection.kind !== 'connected') return [mark];
  return [
    mark,
    connection.facts.form === 'hairpin'
      ? 'Hairpins go in along the axis from the far side; where crowns overlap, all of their layers together.'
      : 'Straight bars go in along their slots, before an end is bent.',
  ];
}

/** A column of places with what the shop calls the bar in each. */
function withBar(column: Column<number>, layer: number, names: ReadonlyMap<string, string>): Column<number> {
  return {
    ...column,
    value: (slot) => {
      const place = column.value(slot);
      const name = names.get(barName({ slot, layer }));
      return name === undefined ? place : `${place} (${name})`;
    },
  };
}

/** A line of the bar list: pieces of a shape that are bent alike. */
interface BarListRow extends ShapeRow {
  readonly kind: PieceKind;
}

/** The bars to be made, one row for each kind of a shape; counts as in the report. */
export function barTable(
  specification: Specification,
  shapes: readonly ShapeRow[],
  needs: readonly string[],
  section: string,
): SheetTable {
  const total = shapes.reduce((sum, { shape }) => sum + shape.count, 0);
  const kinds = shapes.flatMap((row) => row.kinds.map((kind): BarListRow => ({ ...row, kind })));
  const { columns, rows } = columnsAndRows(barListColumns(specification), kinds);
  const all = columns.map(({ name }) => (name === 'form' ? 'all' : name === 'quantity' ? String(total) : ''));
  return {
    id: 'bar-list',
    section,
    heading: 'Bar list',
    remarks: [
      'Ends: slots to the bar that an end is joined to; a free end, of a lead or under a connecting piece, has none.',
      'Section: width \u00d7 height of the bar without coating.',
      ...(needs.length > 0 ? [`Lengths need: ${needs.join(', ')}.`] : []),
    ],
    columns,
    rows: [...rows, all],
  };
}

function barListColumns(specification: Specification): readonly Column<BarListRow>[] {
  const { number, form, crown, count } = barShapeColumn;
  const layersOf = (words: (layer: number) => string, { shape }: ShapeOf<BarShape>) => [
    ...new Set(shape.ends.map(({ layer }) => words(layer))),
  ];
  const ends = (some: BarShape['ends']) =>
    some.map((end) => bentEndWords(end, printedSigns, 'free')).join(', ');
  const isHairpin = ({ form: each }: BarShape) => each === 'hairpin';
  return [
    {
      ...number,
      heading: 'shape',
      meaning: 'Number of the shape, with a letter where not all of its bars are bent alike.',
      value: ({ kind }) => kind.name,
    },
    { ...form, value: ({ shape }) => shape.form.replace('-', ' ') },
    {
      heading: 'layers',
      meaning: 'The layers of its bars.',
      value: (row) => layersOf(layerLetter, row).join(' '),
    },
    {
      heading: 'section mm',
      meaning: 'Width and height without coating.',
      align: 'right',
      value: (row) => layersOf((layer) => sectionWords(specification, layer), row).join(', '),
    },
    crown,
    {
      heading: 'connection end',
      meaning: 'How the ends on the connection side are bent.',
      value: ({ shape }) => ends(isHairpin(shape) ? shape.ends : shape.ends.slice(0, 1)),
    },
    {
      heading: 'far end',
      meaning: 'How the end on the far side is bent.',
      value: ({ shape }) => (isHairpin(shape) ? 'crown' : ends(shape.ends.slice(1))),
    },
    {
      heading: 'length mm',
      meaning: 'Developed length, or the shortest and the longest.',
      align: 'right',
      value: ({ kind: { lengths } }) => (lengths === null ? '\u2013' : lengthRange(lengths)),
    },
    { ...count, heading: 'quantity', value: ({ kind }) => kind.count },
    {
      heading: 'first at',
      meaning: 'Bars of the first piece.',
      align: 'right',
      value: ({ kind }) => kind.first.map(barName).join('\u2013'),
    },
  ];
}

const kindWords: Readonly<Record<JointRow['kind'], string>> = {
  regular: 'regular',
  'other-span': 'other span',
  'layer-step': 'layer step',
  jumper: 'piece',
  lead: 'lead',
  star: 'star point',
};

/** `U 1`: a path with its phase, in one column. */
const pathColumn: Column<{ readonly phase: string; readonly path: number }> = {
  heading: 'path',
  meaning: 'Phase, and number of the path within it.',
  value: ({ phase, path }) => `${phase} ${path}`,
};

const jointListColumns: readonly Column<JointRow>[] = [
  { ...jointColumn.number, heading: 'joint' },
  { ...jointColumn.side, value: ({ side }) => (side === 'far' ? 'far' : 'conn.') },
  pathColumn,
  jointColumn.from,
  jointColumn.to,
  jointColumn.span,
  { ...jointColumn.kind, value: ({ kind }) => kindWords[kind] },
];

/** The kind of a joint, and where a piece makes it all the same. */
const setKindColumn: Column<JointRow & { readonly byPiece: boolean }> = {
  ...jointColumn.kind,
  value: ({ kind, byPiece }) =>
    byPiece && kind !== 'jumper' ? `${kindWords[kind]}, ${kindWords.jumper}` : kindWords[kind],
};

/** A shape of joints is sketched where separate pieces make them. */
const jointShapeColumn: Column<JointRow> = { ...jointColumn.shape, heading: 'joint shape' };

/** The bar that a crown is bent with. */
function crownBarColumn(names: ReadonlyMap<string, string>): Column<JointRow> {
  return {
    heading: 'bar shape',
    meaning: 'Number in bar list and bend list of the bar that it is a part of.',
    align: 'right',
    value: ({ from }) => names.get(from) ?? null,
  };
}

const stepColumn: Column<{ readonly step: number }> = {
  heading: 'step',
  meaning: 'Place in the order of setting.',
  align: 'right',
  value: ({ step }) => step,
};

/** The joints to be set, in an order in which none hides another, and the crowns, which are bent. */
export function jointTables(
  facts: Facts,
  connection: ConnectionFacts,
  section: string,
  crownSection: string,
): readonly SheetTable[] {
  const { joints } = connection.joints();
  const order = settingOrder(facts, connection);
  const byNumber = new Map(joints.map((joint) => [joint.number, joint]));
  const crowns = new Set(connection.barShapes().flatMap((shape) => shape.crowns));
  const pieces = new Set((orNull(facts.copper().length.pieces) ?? []).map(({ joint }) => joint));
  const inOrder = order.numbers.map((number) => jointRow(facts, connection, byNumber.get(number)!));
  const set = inOrder
    .filter(({ number }) => !crowns.has(number))
    .map((row, index) => ({ ...row, step: index + 1, byPiece: pieces.has(row.number) }));
  const bent = inOrder.filter(({ number }) => crowns.has(number));
  // Where joints are numbered in this order their numbers say it.
  const steps = set.every(({ number, step }) => number === step) ? [] : [stepColumn];
  return [
    ...(set.length > 0
      ? [
          {
            id: 'joints',
            section,
            heading: 'Joint list',
            remarks: [
              ...order.remarks,
              'Joint shape: joints of one number are alike in side, layers and span; shapes made by pieces are sketched.',
              ...(set.some(({ side }) => side === 'far')
                ? ['Seen from the far side, slot numbers run counterclockwise.']
                : []),
            ],
            ...columnsAndRows(
              [...steps, ...jointListColumns.slice(0, -1), setKindColumn, jointShapeColumn],
              set,
            ),
          },
        ]
      : []),
    ...(bent.length > 0
      ? [
          {
            id: 'crowns',
            section: crownSection,
            heading: 'Crowns',
            remarks: ['Bent with their bars, not joined; numbered with the joints.'],
            ...columnsAndRows([...jointListColumns, crownBarColumn(shopNames(facts))], bent),
          },
        ]
      : []),
  ];
}

/** Where paths begin and end: leads to terminals, connections to star points, and what a delta joins. */
export function endsTable(facts: Facts, connection: ConnectionFacts, section: string): SheetTable {
  const rows = leadRows(facts, connection);
  const delta = connection.connection === 'delta';
  const figure = facts.space().space;
  const space = figure.known ? figure.value : null;
  const bent = space?.ends.some(({ reach }) => reach !== null) ?? false;
  const columns: readonly Column<LeadRow>[] = [
    leadColumn.number,
    { ...leadColumn.terminal, heading: 'to' },
    { ...leadColumn.kind, value: ({ kind }) => kindWords[kind] },
    pathColumn,
    leadColumn.bar,
    leadColumn.side,
    ...(delta ? [leadColumn.joinedWith] : []),
    ...(space ? placeColumnsOf(space) : []),
  ];
  return {
    id: 'ends',
    section,
    heading: endsHeading(connection.connection),
    remarks: [
      ...(delta ? [`Terminals to be joined: ${joinsWords(facts.winding.phases)}.`] : []),
      ...joinedRemark(rows, space),
      ...(space
        ? [
            'Where each end stands: angle round the axis from the middle of slot 1 at mid-stack towards higher slots, mean radius, height above the stack; straight: its part above the bends.',
            ...(bent
              ? [
                  'Bent to their rings, center lines to sharp corners: aside, round the axis, positive towards higher slots; to ring, along the radius to its side, positive away from the axis.',
                ]
              : []),
          ]
        : []),
    ],
    ...columnsAndRows(columns, rows),
  };
}

/** Where several ends meet and no ring is given to join them. */
function joinedRemark(rows: readonly LeadRow[], space: Space | null): readonly string[] {
  const ringed = new Set(space?.rings.map(({ name }) => name));
  const names = rows.map(({ terminal }) => terminal).filter((name) => !ringed.has(name));
  const several = [...new Set(names.filter((name, index) => names.indexOf(name) < index))];
  return several.length === 0
    ? []
    : [`What joins the ends of ${several.join(', ')} is not given (connect rings): it is left to the shop.`];
}

/** Where a path's end stands: angle round the axis, mean radius, height above the stack, and its straight part. */
function placeColumnsOf({ bars, slots, ends }: Space): readonly Column<LeadRow>[] {
  const standing = ({ bar }: LeadRow) => bars[bar.layer * slots + bar.slot - 1] ?? null;
  const column = (
    heading: string,
    meaning: string,
    value: (bar: SpaceBar, end: BarEnd) => string | number,
  ) => ({
    heading,
    meaning,
    align: 'right' as const,
    value: (row: LeadRow) => {
      const bar = standing(row);
      return bar && value(bar, bar[row.side]);
    },
  });
  const length = { unit: 'length' as const };
  return [
    column('at \u00b0', 'Angle of its tip round the axis.', (bar, { tip }) =>
      degreesText(tip.angle + bar.turn),
    ),
    { ...column('radius', 'Mean radius of its tip.', (_, { tip }) => tip.radius), ...length },
    { ...column('ends at', 'Height of its tip above the stack.', (_, { top }) => top), ...length },
    { ...column('straight', 'Its part above the bends.', (_, end) => straightOf(end)), ...length },
    ...(ends.some(({ reach }) => reach !== null)
      ? [
          {
            ...column('aside', 'How far it steps aside, at its radius.', (_, { reach, tip }) =>
              reach ? reach.round * tip.radius : '',
            ),
            ...length,
          },
          {
            ...column('to ring', 'How far it runs along the radius.', (_, { reach }) => reach?.along ?? ''),
            ...length,
          },
        ]
      : []),
  ];
}

/** Between its last bend and its end, or the bend by which it turns to its ring, m. */
function straightOf({ pieces, lead }: BarEnd): number {
  return pieces.reduce((sum, { kind, length }) => sum + (kind === 'joint' ? length : 0), lead);
}
