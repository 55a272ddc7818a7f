import { lengthOf } from '../analysis/gap/magneticGap.ts';
import { currentAngle } from '../analysis/machineInputs.ts';
import { type Complex, scale } from '../balance/complex.ts';
import { type ConnectionFacts, joinedFacts } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import { allOf, derive, deriveFigure, type Figure, known, missing, orNull } from '../figures/figure.ts';
import { layerLetter } from '../language/layerLetters.ts';
import { barCorner, barSize } from '../sizes/barInputs.ts';
import { slotLength, slotMouths, slotRows } from '../sizes/slotRows.ts';
import { scaledShape } from '../sizes/slotShape/scaled.ts';
import { type BarPlace, millimeters, type SectionShape } from '../sizes/slotShape/shape.ts';
import { type Bar, barName, cellAt, phaseOfCell, slotNumbers } from '../winding/model.ts';
import { type BarUse, barUses } from './bars.ts';
import type { Column } from './column.ts';
import { whose } from './whose.ts';

/** A point of the section, m: seen from the connection side, y from the axis through the middle of slot 1. */
type Point = readonly [x: number, y: number];

/** One thing that a plane field computation is made of. */
export interface FieldRow {
  readonly kind: 'bar' | 'slot' | 'gap' | 'back';
  readonly name: string;
  /** From 1; null where it is not in one. */
  readonly slot: number | null;
  /** Of a bar. */
  readonly conductor: FieldBar | null;
  /** Of a circle about the axis, m. */
  readonly radius: number | null;
  /** At a gap, m; null where the text does not tell. */
  readonly airGap: number | null;
  /** The same of magnets, m. */
  readonly magnetHeight: number | null;
  /** Clockwise; none of a circle. */
  readonly points: readonly Point[];
}

/** What a bar carries. */
interface FieldBar {
  readonly layer: number;
  readonly phase: string;
  readonly sense: number;
  readonly path: number | null;
  readonly turnsShare: number;
  /** Of its path, A rms; null where it is not known. */
  readonly current: Complex | null;
  /** Radius of its edges, m. */
  readonly corner: number | null;
}

const plainColumns: readonly Column<FieldRow>[] = [
  {
    heading: 'kind',
    meaning:
      'bar: the copper of a bar. slot: the outline of a slot with its openings. gap: the surface of the stator at a gap. back: the back of the core.',
    value: ({ kind }) => kind,
  },
  {
    heading: 'name',
    meaning: 'Position of a bar, number of a slot, inner or outer.',
    value: ({ name }) => name,
  },
  { heading: 'slot', meaning: 'Number of its slot.', value: ({ slot }) => slot },
  {
    heading: 'layer',
    meaning: 'Letter of its layer; a is nearest the axis.',
    value: ({ conductor }) => conductor && layerLetter(conductor.layer),
  },
  { ...whose.phase, value: ({ conductor }) => conductor?.phase ?? null },
  {
    heading: 'sense',
    meaning:
      '1 where the current of its path, counted from the line terminal, flows away from the connection side (into the plane), -1 back.',
    unit: 'sense',
    value: ({ conductor }) => conductor?.sense ?? null,
  },
  {
    ...whose.path,
    value: ({ conductor }) => conductor?.path ?? null,
  },
  {
    heading: 'turns share',
    meaning: 'Share of the phase current in a path where all carry alike: one over the parallel paths.',
    unit: 'factor',
    value: ({ conductor }) => conductor?.turnsShare ?? null,
  },
  {
    heading: 'current real',
    meaning:
      'A rms, current of its path at the rated point as a motor, circulating currents counted: the part in phase with the EMF of the first phase.',
    value: ({ conductor }) => conductor?.current?.re ?? null,
  },
  {
    heading: 'current imaginary',
    meaning: 'The part that leads that EMF by 90 electrical degrees.',
    value: ({ conductor }) => conductor?.current?.im ?? null,
  },
  {
    heading: 'corner radius',
    meaning: 'Of the edges of a bar.',
    unit: 'meters',
    value: ({ conductor }) => conductor?.corner ?? null,
  },
  {
    heading: 'radius',
    meaning: 'Of a circle about the axis.',
    unit: 'meters',
    value: ({ radius }) => radius,
  },
  { heading: 'air gap', meaning: 'At a gap.', unit: 'meters', value: ({ airGap }) => airGap },
  {
    heading: 'magnet height',
    meaning: 'Of the magnets on the far side of that air gap.',
    unit: 'meters',
    value: ({ magnetHeight }) => magnetHeight,
  },
];

/** Corners of a bar, the fewest points there are columns for. */
const corners = 4;

/** The columns of the hand-off to field computation, with as many points as the outline with the most has. */
export function fieldColumns(rows: readonly FieldRow[]): readonly Column<FieldRow>[] {
  const points = Math.max(corners, ...rows.map((row) => row.points.length));
  return [...plainColumns, ...Array.from({ length: points }, (_, index) => pointColumns(index)).flat()];
}

function pointColumns(index: number): readonly Column<FieldRow>[] {
  const number = index + 1;
  return [
    {
      heading: `x${number}`,
      meaning: `Point ${number} of the outline, clockwise seen from the connection side, at mid-stack: across, from the axis.`,
      unit: 'meters',
      value: ({ points }) => points[index]?.[0] ?? null,
    },
    {
      heading: `y${number}`,
      meaning: `The same point, from the axis towards the middle of slot 1; slot numbers rise clockwise.`,
      unit: 'meters',
      value: ({ points }) => points[index]?.[1] ?? null,
    },
  ];
}

/** What the hand-off needs that the text does not give: for all of it, and for its currents. */
export function fieldNeeds(facts: Facts): {
  readonly shape: readonly string[];
  readonly current: readonly string[];
} {
  const needs = (figure: Figure<unknown>) => (figure.known ? [] : figure.needs);
  return { shape: needs(fieldShape(facts)), current: needs(pathCurrents(facts)) };
}

/** The stator's surfaces and back, every slot's outline, and every bar by slot and layer; none where sizes lack. */
export function fieldRows(facts: Facts): readonly FieldRow[] {
  const shape = fieldShape(facts);
  if (!shape.known) return [];
  return [
    ...circles(facts, shape.value),
    ...slotNumbers(facts.winding).map((slot) => slotRow(facts, shape.value, slot)),
    ...bars(facts, shape.value),
  ];
}

/** The section to scale, nothing in it drawn for want of a statement. */
function fieldShape({ specification, winding }: Facts): Figure<SectionShape> {
  return deriveFigure(
    {
      shape: scaledShape(specification, winding),
      openings: openings({ specification, winding }),
      sizes: allOf(Array.from({ length: winding.layers }, (_, layer) => barSize(specification, layer))),
    },
    ({ shape }) =>
      shape.rows.every(({ barsToScale }) => barsToScale) ? known(shape) : missing('bars that fit their slot'),
  );
}

function openings({ specification, winding }: Pick<Facts, 'specification' | 'winding'>): Figure<unknown> {
  return deriveFigure(
    { rows: slotRows(specification, winding), mouths: slotMouths(specification) },
    ({ rows, mouths }) => {
      const open = [...(mouths === 'outer' ? [] : [rows[0]!]), ...(mouths === 'inner' ? [] : [rows.at(-1)!])];
      return allOf(open.flatMap((row) => [slotLength(row, 'opening'), slotLength(row, 'openingHeight')]));
    },
  );
}

function circles({ specification }: Facts, shape: SectionShape): readonly FieldRow[] {
  const ends = [
    { name: 'inner', end: shape.innerEnd, radius: shape.inner },
    { name: 'outer', end: shape.outerEnd, radius: shape.outer },
  ] as const;
  const { machine } = specification;
  return ends.flatMap(({ name, end, radius }): readonly FieldRow[] => {
    if (end === 'break') return [];
    const at = (lengths: Parameters<typeof lengthOf>[1]) =>
      end === 'gap' ? (lengthOf(name, lengths) ?? null) : null;
    return [
      {
        kind: end,
        name,
        slot: null,
        conductor: null,
        radius: radius / millimeters,
        airGap: at(machine?.airGap?.value),
        magnetHeight: at(machine?.magnetHeight?.value),
        points: [],
      },
    ];
  });
}

const noCircle = { radius: null, airGap: null, magnetHeight: null };

function slotRow({ winding }: Facts, shape: SectionShape, slot: number): FieldRow {
  const left = wall(shape, -1);
  const outline = [...left, ...wall(shape, 1).reverse()];
  return {
    ...noCircle,
    kind: 'slot',
    name: String(slot),
    slot,
    conductor: null,
    points: outline.map((point) => placed(point, slot, winding.slots)),
  };
}

/** One wall of a slot from the axis outwards, across and outwards in millimeters; at a gap it ends on its surface. */
function wall(shape: SectionShape, side: 1 | -1): (readonly [number, number])[] {
  const points = shape.pieces.flatMap((piece, index): (readonly [number, number])[] => {
    const across = (side * piece.width) / 2;
    const opens = piece.kind === 'opening';
    const on = (radius: number) => Math.sqrt(radius ** 2 - across ** 2);
    return [
      [across, opens && index === 0 ? on(shape.inner) : piece.from],
      [across, opens && index > 0 ? on(shape.outer) : piece.to],
    ];
  });
  // Where a piece is as wide as the next, its end is no corner.
  return points.filter(
    ([across], index) => !(points[index - 1]?.[0] === across && points[index + 1]?.[0] === across),
  );
}

function bars(facts: Facts, shape: SectionShape): readonly FieldRow[] {
  const { specification, winding } = facts;
  const connection = joinedFacts(facts);
  const uses = connection ? barUses(connection) : null;
  const currents = orNull(pathCurrents(facts));
  const corner = orNull(barCorner(specification));
  return slotNumbers(winding).flatMap((slot) =>
    shape.rows
      .flatMap((row) => row.barsOf(slot))
      .map((place): FieldRow => {
        const bar = { slot, layer: place.layer };
        const carried = { ...carriedBy(facts, bar, uses, connection, currents), corner };
        return {
          ...noCircle,
          kind: 'bar',
          name: barName(bar),
          slot,
          conductor: { layer: place.layer, ...carried },
          points: cornersOf(place).map((point) => placed(point, slot, winding.slots)),
        };
      }),
  );
}

function carriedBy(
  { winding }: Facts,
  bar: Bar,
  uses: ReadonlyMap<string, BarUse> | null,
  connection: ConnectionFacts | null,
  currents: readonly Complex[] | null,
): Omit<FieldBar, 'layer' | 'corner'> {
  const cell = cellAt(winding.table, bar.slot, bar.layer);
  const phase = phaseOfCell(cell);
  const use = uses?.get(barName(bar)) ?? null;
  const index =
    connection?.paths.findIndex((path) => path.phase === phase && path.number === use?.path) ?? -1;
  return {
    phase: winding.phases.names[phase]!,
    sense: use?.sense ?? Math.sign(cell),
    path: use?.path ?? null,
    turnsShare: 1 / winding.parallelPaths,
    current: currents?.[index] ?? null,
  };
}

/** Rated currents of the paths, A rms, in their order. */
function pathCurrents(facts: Facts): Figure<readonly Complex[]> {
  const { specification, winding } = facts;
  return derive(
    {
      motoring: facts.motoringCurrents(),
      current: facts.phaseCurrent(),
      lead: currentAngle(specification, winding),
    },
    ({ motoring, current, lead }) =>
      motoring(lead).map((share) => scale(share, current / winding.parallelPaths)),
  );
}

function cornersOf({ from, to, width }: BarPlace): readonly (readonly [number, number])[] {
  const half = width / 2;
  return [
    [-half, from],
    [-half, to],
    [half, to],
    [half, from],
  ];
}

/** A place of a slot, millimeters across and outwards, as a point of the section. */
function placed([across, outwards]: readonly [number, number], slot: number, slots: number): Point {
  const angle = (2 * Math.PI * (slot - 1)) / slots;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  return [(outwards * sin + across * cos) / millimeters, (outwards * cos - across * sin) / millimeters];
}
