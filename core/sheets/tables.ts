import type { ConnectionFacts } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import type { Specification } from '../language/specification/specification.ts';
import { fixedText } from '../picture/numberText.ts';
import { deltaJoins, joinedWith } from '../winding/joints/deltaJoins.ts';
import type { PathEnd, WindingJoint } from '../winding/joints/joints.ts';
import { barName, cellAt, layerLetter, placeName, printedSigns, type Winding } from '../winding/model.ts';
import { sectionWords } from './conductors.ts';
import { endsHeading, joinsWords } from './joining.ts';
import type { SheetTable, TableCell } from './page/table.ts';
import type { ShapeRow } from './sketches/shapeData.ts';

/** A signed whole number with a true minus sign. */
export function signed(value: number): string {
  return value > 0 ? `+${value}` : String(value).replace('-', '\u2212');
}

/** Metres as millimetres with one decimal. */
export function millimetreText(length: number): string {
  return fixedText(length * 1e3, 1);
}

/** Slot tables: every place with its phase and sense, layers side by side as far as the width goes. */
export function slotTables(winding: Winding, section: string, width: number): readonly SheetTable[] {
  const cell = 11;
  const perTable = Math.max(1, Math.floor((width - 14) / cell));
  const tables: SheetTable[] = [];
  for (let first = 0; first < winding.layers; first += perTable) {
    const layers = Array.from({ length: Math.min(perTable, winding.layers - first) }, (_, i) => first + i);
    tables.push({
      id: `slots-${layerLetter(first)}`,
      section,
      heading: 'Slot table',
      columns: [
        { name: 'slot', align: 'end' },
        ...layers.map((layer) => ({ name: layerLetter(layer), align: 'middle' as const })),
      ],
      rows: Array.from({ length: winding.slots }, (_, index): readonly TableCell[] => [
        { words: String(index + 1), subject: { slot: index + 1 } },
        ...layers.map((layer) =>
          placeName(cellAt(winding.table, index + 1, layer), winding.phases, printedSigns),
        ),
      ]),
    });
  }
  return tables;
}

/** The bars to be made, one row a shape; counts as in the report. */
export function barTable(
  specification: Specification,
  shapes: readonly ShapeRow[],
  needs: readonly string[],
  section: string,
): SheetTable {
  const total = shapes.reduce((sum, { shape }) => sum + shape.count, 0);
  return {
    id: 'bar-list',
    section,
    heading: 'Bar list',
    remarks: [
      'Ends: slots to the bar that an end is joined to; a free end, of a lead or under a connecting piece, has none.',
      'Section: width \u00d7 height of the bar without coating.',
      ...(needs.length > 0 ? [`Lengths need: ${needs.join(', ')}.`] : []),
    ],
    columns: [
      { name: 'shape', align: 'end' },
      { name: 'form' },
      { name: 'layers' },
      { name: 'section mm', align: 'end' },
      { name: 'crown', align: 'end' },
      { name: 'connection end' },
      { name: 'far end' },
      { name: 'length mm', align: 'end' },
      { name: 'quantity', align: 'end' },
      { name: 'first at', align: 'end' },
    ],
    rows: [
      ...shapes.map(({ shape, lengths }) => [
        String(shape.number),
        shape.form === 'single-bar' ? 'single bar' : shape.form,
        [...new Set(shape.ends.map(({ layer }) => layerLetter(layer)))].join(' '),
        [...new Set(shape.ends.map(({ layer }) => sectionWords(specification, layer)))].join(', '),
        shape.crown === null ? '' : signed(shape.crown),
        shape.form === 'hairpin' ? shape.ends.map(endWords).join(', ') : endWords(shape.ends[0]!),
        shape.form === 'hairpin' ? 'crown' : endWords(shape.ends[1]!),
        lengths === null ? '\u2013' : lengthRange(lengths),
        String(shape.count),
        shape.bars
          .slice(0, shape.form === 'hairpin' ? 2 : 1)
          .map(barName)
          .join('\u2013'),
      ]),
      ['', 'all', '', '', '', '', '', '', String(total), ''],
    ],
  };
}

function endWords({ layer, bend }: { readonly layer: number; readonly bend: number | null }): string {
  return `${layerLetter(layer)} ${bend === null ? 'free' : signed(bend)}`;
}

/** One length, or the shortest and the longest. */
export function lengthRange({ shortest, longest }: { shortest: number; longest: number }): string {
  const [low, high] = [millimetreText(shortest), millimetreText(longest)];
  return low === high ? low : `${low} \u2013 ${high}`;
}

const kindWords: Readonly<Record<WindingJoint['kind'], string>> = {
  regular: 'regular',
  'other-span': 'other span',
  'layer-step': 'layer step',
  jumper: 'piece',
};

/** The joints to be set, in an order in which none hides another, and the crowns, which are bent. */
export function jointTables(
  facts: Facts,
  connection: ConnectionFacts,
  section: string,
  crownSection: string,
): readonly SheetTable[] {
  const { joints } = connection.joints();
  const { order, ring } = connection.access();
  const byNumber = new Map(joints.map((joint) => [joint.number, joint]));
  const placed = new Set(order);
  const hidden = joints.filter(({ number }) => !placed.has(number));
  const crowns = new Set(connection.barShapes().flatMap((shape) => shape.crowns));
  const inOrder = [...order.map((number) => byNumber.get(number)!), ...hidden];
  const set = inOrder.filter(({ number }) => !crowns.has(number));
  const bent = inOrder.filter(({ number }) => crowns.has(number));
  const ringWords =
    ring === null ? [] : [`Joints ${ring.join(', ')} hide each other: no order sets all of them.`];
  const row = (joint: WindingJoint, step: number): readonly TableCell[] => [
    String(step + 1),
    { words: String(joint.number), subject: { joint: joint.number } },
    joint.side === 'far' ? 'far' : 'conn.',
    `${facts.winding.phases.names[joint.phase]} ${connection.paths[joint.path]!.number}`,
    barName(joint.from),
    barName(joint.to),
    signed(joint.span),
    kindWords[joint.kind],
    String(joint.shape),
  ];
  const columns: SheetTable['columns'] = [
    { name: 'step', align: 'end' },
    { name: 'joint', align: 'end' },
    { name: 'side' },
    { name: 'path' },
    { name: 'from', align: 'end' },
    { name: 'to', align: 'end' },
    { name: 'span', align: 'end' },
    { name: 'kind' },
    { name: 'shape', align: 'end' },
  ];
  return [
    ...(set.length > 0
      ? [
          {
            id: 'joints',
            section,
            heading: 'Joint list',
            remarks: ['In an order in which no joint is hidden by one set before.', ...ringWords].slice(0, 2),
            columns,
            rows: set.map(row),
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
            columns: columns.slice(1),
            rows: bent.map((joint) => row(joint, 0).slice(1)),
          },
        ]
      : []),
  ];
}

/** Where paths begin and end: leads to terminals, connections to star points, and what a delta joins. */
export function endsTable(facts: Facts, connection: ConnectionFacts, section: string): SheetTable {
  const { ends } = connection.joints();
  const { phases } = facts.winding;
  const delta = connection.connection === 'delta';
  const joins = deltaJoins(phases);
  return {
    id: 'ends',
    section,
    heading: endsHeading(connection.connection),
    remarks: delta ? [`Terminals to be joined: ${joinsWords(phases)}.`] : [],
    columns: [
      { name: 'number', align: 'end' },
      { name: 'to' },
      { name: 'kind' },
      { name: 'path' },
      { name: 'bar', align: 'end' },
      { name: 'side' },
      ...(delta ? [{ name: 'joined with' }] : []),
    ],
    rows: ends.map((end: PathEnd) => [
      { words: String(end.number), subject: { joint: end.number } },
      end.terminal,
      end.kind === 'lead' ? 'lead' : 'star point',
      `${phases.names[end.phase]} ${connection.paths[end.path]!.number}`,
      barName(end.bar),
      end.side,
      ...(delta ? [joinedWith(joins, end.terminal) ?? ''] : []),
    ]),
  };
}
