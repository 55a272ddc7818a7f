import { gapDiameter } from '../../analysis/machineInputs.ts';
import { outsideDiameter, outsideWords } from '../../analysis/outsideDiameter.ts';
import { derive, deriveFigure, type Figure, known, missing, orNull } from '../../figures/figure.ts';
import type { Specification } from '../../language/specification/specification.ts';
import type { Winding } from '../../winding/model.ts';
import {
  type Mouths,
  type SlotRow,
  slotLength,
  slotLiner,
  slotMouths,
  slotRows,
  slotWedge,
} from '../slotRows.ts';
import { barPlaces } from './barPlaces.ts';
import { millimeters, type RoomPiece, type RowShape, type RowSize, type SectionShape } from './shape.ts';

/** The shape to scale, or what the text would have to say for it. */
export function scaledShape(specification: Specification, winding: Winding): Figure<SectionShape> {
  return deriveFigure(
    { rows: slotRows(specification, winding), mouths: slotMouths(specification) },
    ({ rows, mouths }) => {
      const side = mouths === 'outer' ? 'outer' : 'inner';
      return deriveFigure(
        {
          diameter: gapDiameter(specification, side),
          sizes: rowSizes(rows),
        },
        ({ diameter, sizes }) => {
          const radius = (millimeters * diameter) / 2;
          const shape = arrange(specification, winding, { rows, mouths, sizes, radius });
          return checked(winding, shape);
        },
      );
    },
  );
}

function rowSizes(rows: readonly SlotRow[]): Figure<readonly RowSize[]> {
  const figures = rows.map((row) =>
    derive(
      {
        width: slotLength(row, 'width'),
        depth: slotLength(row, 'depth'),
        liner: slotLiner(row),
        wedge: slotWedge(row),
      },
      ({ width, depth, liner, wedge }): RowSize => ({
        row,
        width: millimeters * width,
        depth: millimeters * depth,
        liner: millimeters * liner,
        wedge: millimeters * wedge,
      }),
    ),
  );
  const needs = figures.flatMap((figure) => (figure.known ? [] : figure.needs));
  if (needs.length > 0) return missing(...new Set(needs));
  return known(figures.flatMap((figure) => (figure.known ? [figure.value] : [])));
}

interface Arrangement {
  readonly rows: readonly SlotRow[];
  readonly mouths: Mouths;
  readonly sizes: readonly RowSize[];
  /** Of the inner gap, or of the outer one where it is the only one. */
  readonly radius: number;
}

function arrange(specification: Specification, winding: Winding, given: Arrangement): SectionShape {
  const { mouths, sizes, radius } = given;
  const notes = new Set<string>();
  const total = sizes.reduce((sum, { depth }) => sum + depth, 0);
  const outside = lengthOf(orNull(outsideDiameter(specification)));
  if (mouths === 'both' && outside !== null && !specification.machine?.outside)
    notes.add(`Outside diameter ${outsideWords(outside / millimeters)}.`);
  const bore = lengthOf(specification.machine?.bore?.value);
  const height = openingHeight(specification, given, notes, outside);
  const first = mouths === 'outer' ? radius - height - total : radius + height;
  const last = first + total;
  const rows: RowShape[] = [];
  let at = first;
  sizes.forEach((size, index) => {
    const opensInside = mouths !== 'outer' && index === 0;
    const opensOutside = mouths !== 'inner' && index === sizes.length - 1;
    const to = at + size.depth;
    const room = { from: at, to, size, mouths, opensInside, opensOutside };
    rows.push({
      layers: size.row.layers,
      from: at,
      to,
      width: size.width,
      liner: size.liner,
      wedge: size.wedge,
      opensInside,
      opensOutside,
      ...barPlaces(specification, winding, room, notes),
    });
    at = to;
  });
  const ends = coreEnds(mouths, { radius, first, last, total, height, bore, outside }, notes);
  return {
    pitch: { angle: (2 * Math.PI) / winding.slots },
    ...ends,
    pieces: roomPieces(sizes, rows, ends, notes),
    rows,
    notes: [...notes],
  };
}

function lengthOf(value: number | null | undefined): number | null {
  return value == null ? null : millimeters * value;
}

/** Radial height of the opening at a gap; without a statement none, or half of what two gaps leave. */
function openingHeight(
  specification: Specification,
  { rows, mouths, sizes, radius }: Arrangement,
  notes: Set<string>,
  outside: number | null,
): number {
  const row = mouths === 'outer' ? rows.at(-1) : rows[0];
  const given = row?.slot?.openingHeight?.value;
  if (given !== undefined) return millimeters * given;
  const total = sizes.reduce((sum, { depth }) => sum + depth, 0);
  if (mouths === 'both' && outside !== null && specification.machine?.bore !== undefined) {
    const rest = outside / 2 - radius - total;
    if (rest >= 0) {
      notes.add('Without slot opening-height the slots are drawn midway between the gaps.');
      return rest / 2;
    }
  }
  notes.add('Without slot opening-height the opening is drawn 0 mm high.');
  return 0;
}

interface Radii {
  readonly radius: number;
  readonly first: number;
  readonly last: number;
  readonly total: number;
  readonly height: number;
  /** Diameters. */
  readonly bore: number | null;
  readonly outside: number | null;
}

type Ends = Pick<SectionShape, 'inner' | 'outer' | 'innerEnd' | 'outerEnd'>;

function coreEnds(mouths: Mouths, at: Radii, notes: Set<string>): Ends {
  const { radius, first, last, total, height, bore, outside } = at;
  if (mouths === 'inner') {
    const back = outside !== null && outside / 2 > last ? outside / 2 : null;
    if (back === null && outside !== null)
      notes.add('The slots reach beyond the outside: its back is not drawn.');
    return {
      inner: radius,
      innerEnd: 'gap',
      outer: back ?? last + 0.4 * total,
      outerEnd: back === null ? 'break' : 'back',
    };
  }
  if (mouths === 'outer') {
    const back = bore !== null && bore / 2 < first ? bore / 2 : null;
    return {
      outer: radius,
      outerEnd: 'gap',
      inner: back ?? Math.max(first - 0.4 * total, 0.5 * first),
      innerEnd: back === null ? 'break' : 'back',
    };
  }
  return {
    inner: radius,
    innerEnd: 'gap',
    outer: outside !== null && outside / 2 >= last ? outside / 2 : last + height,
    outerEnd: 'gap',
  };
}

function roomPieces(
  sizes: readonly RowSize[],
  rows: readonly RowShape[],
  ends: Ends,
  notes: Set<string>,
): readonly RoomPiece[] {
  const openingOf = ({ row, width }: RowSize): number => {
    const given = row.slot?.opening?.value;
    if (given !== undefined) return Math.min(width, millimeters * given);
    notes.add('Without slot opening it is drawn as wide as the slot.');
    return width;
  };
  const pieces: RoomPiece[] = [];
  if (ends.innerEnd === 'gap')
    pieces.push({ kind: 'opening', from: ends.inner, to: rows[0]!.from, width: openingOf(sizes[0]!) });
  for (const { from, to, width } of rows) pieces.push({ kind: 'slot', from, to, width });
  if (ends.outerEnd === 'gap')
    pieces.push({
      kind: 'opening',
      from: rows.at(-1)!.to,
      to: ends.outer,
      width: openingOf(sizes.at(-1)!),
    });
  return pieces;
}

/** Refuses shapes that cannot exist: slots that run into each other, into the axis, or leave no room for bars. */
function checked(winding: Winding, shape: SectionShape): Figure<SectionShape> {
  for (const { from, width, liner, wedge, to } of shape.rows) {
    if (!(from > 0)) return missing('a slot depth less than the radius of the gap');
    if (winding.slots > 2 && width >= 2 * from * Math.tan(Math.PI / winding.slots))
      return missing('a slot width less than the slot pitch');
    if (2 * liner >= width || liner + 2 * wedge >= to - from)
      return missing('a liner and wedge that leave room in the slot');
  }
  if (shape.outer <= shape.inner) return missing('an outside larger than the bore');
  return known(shape);
}
