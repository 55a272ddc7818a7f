import { gapDiameter, gapSides, slotOfLayer } from '../analysis/machineInputs.ts';
import { allOf, derive, deriveFigure, type Figure, known, missing } from '../figures/figure.ts';
import { madeOnce } from '../figures/lazy.ts';
import { layerLetter, layerLetters } from '../language/layerLetters.ts';
import { stated } from '../language/specification/defaults.ts';
import type { SlotSpecification, Specification } from '../language/specification/specification.ts';
import type { SeparatorSpecification } from '../language/specification/statements.ts';
import { slotStatements } from '../language/vocabulary/blocks/copper.ts';
import type { Winding } from '../winding/model.ts';
import { barCoating, barHeight } from './barInputs.ts';

/** Layers that lie in one straight slot, from the axis outwards, and the slot's block. */
export interface SlotRow {
  /** From 0. */
  readonly layers: readonly number[];
  /** Absent where the text has no slot block. */
  readonly slot: SlotSpecification | undefined;
}

/** The slot rows from the axis outwards: one, or one for each slot block. */
export function slotRows(specification: Specification, winding: Winding): Figure<readonly SlotRow[]> {
  const rows: { layers: number[]; slot: SlotSpecification | undefined }[] = [];
  for (let layer = 0; layer < winding.layers; layer++) {
    const slot = slotOfLayer(specification, layer);
    if (!slot && specification.slots.length > 0) return missing(`slot block for layer ${layerLetter(layer)}`);
    const last = rows.at(-1);
    if (last && last.slot === slot) last.layers.push(layer);
    else if (rows.some((row) => row.slot === slot))
      return missing('slot blocks that hold neighboring layers');
    else rows.push({ layers: [layer], slot });
  }
  return known(rows);
}

type SlotWord = 'width' | 'depth' | 'opening' | 'openingHeight';

/** A length of a row's slot, m. */
export function slotLength(row: SlotRow, key: SlotWord): Figure<number> {
  const length = stated(slotStatements, row.slot, key);
  if (length.known || !row.slot || row.slot.layers.length === 0) return length;
  return missing(...length.needs.map((need) => `${need} (${rowName(row)})`));
}

/** Liner thickness, m. */
export function slotLiner(row: SlotRow): Figure<number> {
  return stated(slotStatements, row.slot, 'liner');
}

/** Radial height of the wedge, m. */
export function slotWedge(row: SlotRow): Figure<number> {
  return stated(slotStatements, row.slot, 'wedge');
}

/**
 * Thickness of the separators between some layers of a row, each and the next of the list, m; a separator
 * counts where both its layers are there.
 */
export function separatorsBetween(row: SlotRow, layers: readonly number[]): readonly number[] {
  const given = row.slot?.separators ?? [];
  return layers.slice(1).map((next, index) => {
    const layer = layers[index]!;
    if (next !== layer + 1) return 0;
    const between = given.filter(({ value }) => liesAbove(value, layer));
    return between.reduce((sum, { value }) => sum + value.thickness, 0);
  });
}

/** Whether a separator lies between a layer and the next one outwards. */
export function liesAbove({ layers: [lower, upper] }: SeparatorSpecification, layer: number): boolean {
  return lower === layer && upper === layer + 1;
}

/** Letters of the row's layers: `ab`. */
function rowName(row: SlotRow): string {
  return layerLetters(row.layers);
}

/** Where the slots open: at the inner end, the outer end, or both. */
export type Mouths = 'inner' | 'outer' | 'both';

/** The ends at which slots open follow from the gaps; rows of leaning layers open alike. */
export function slotMouths(specification: Specification): Figure<Mouths> {
  return derive({ sides: gapSides(specification) }, ({ sides }) => (sides.length === 2 ? 'both' : sides[0]!));
}

/** A bar's copper along the slot depth, m outwards from the inner end of its slot. */
export interface Stretch {
  readonly from: number;
  /** The outer end. */
  readonly to: number;
}

/** What decides where a row's bars lie in the slot depth. */
export interface Stacking {
  /** Of the slot, m. */
  readonly depth: number;
  /** Thickness, m. */
  readonly liner: number;
  /** Thickness on each side of a bar, m. */
  readonly coating: number;
  readonly mouths: Mouths;
  /** Copper heights of the row's bars, inner first; places without a bar are left out. */
  readonly heights: readonly number[];
  /** Insulation between each bar and the next; one fewer than there are bars. */
  readonly separators: readonly number[];
}

/** Bars stacked from the closed end, or centered between two mouths. */
export function stackBars(stacking: Stacking): readonly Stretch[] {
  const { depth, liner, coating, mouths, heights, separators } = stacking;
  const between = separators.reduce((sum, thickness) => sum + thickness, 0);
  const total = heights.reduce((sum, height) => sum + height + 2 * coating, between);
  let at = depth - liner - total;
  if (mouths === 'outer') at = liner;
  if (mouths === 'both') at = (depth - total) / 2;
  return heights.map((height, index) => {
    const from = at + coating;
    at += height + 2 * coating + (separators[index] ?? 0);
    return { from, to: from + height };
  });
}

/** Everything of `Stacking` but the heights, for a row. */
export function rowSpace(specification: Specification, row: SlotRow): Figure<Omit<Stacking, 'heights'>> {
  return deriveFigure({ mouths: slotMouths(specification) }, ({ mouths }) =>
    derive(
      {
        depth: slotLength(row, 'depth'),
        // Centered bars do not lie against the liner.
        liner: mouths === 'both' ? known(0) : slotLiner(row),
        coating: barCoating(specification),
      },
      (given) => ({ ...given, mouths, separators: separatorsBetween(row, row.layers) }),
    ),
  );
}

/** Mean radius of each layer's bars, m: from the gap, the slot opening and the stacking order. */
export function layerRadii(specification: Specification, winding: Winding): Figure<readonly number[]> {
  return radiiOf(specification)(winding);
}

/** Many ask for them. */
const radiiOf = madeOnce((specification: Specification) =>
  madeOnce((winding: Winding) => radiiFigure(specification, winding)),
);

function radiiFigure(specification: Specification, winding: Winding): Figure<readonly number[]> {
  return deriveFigure(
    { rows: slotRows(specification, winding), mouths: slotMouths(specification) },
    ({ rows, mouths }) => {
      const fromInside = mouths === 'inner' || (mouths === 'both' && !onlyOutside(specification));
      const order = fromInside ? rows : [...rows].reverse();
      const depths = order.map((row) => slotLength(row, 'depth'));
      return deriveFigure(
        {
          diameter: gapDiameter(specification, fromInside ? 'inner' : 'outer'),
          opening: slotLength(order[0]!, 'openingHeight'),
          depths: allOf(depths),
          stacks: allOf(order.map((row) => rowMiddles(specification, row))),
        },
        (given) => {
          const radii = radiiFrom(given, order, fromInside, winding.layers);
          return radii.every((radius) => radius > 0) ? known(radii) : missing(roomToTheAxis);
        },
      );
    },
  );
}

/** What is missing where slots or bars reach beyond the axis. */
export const roomToTheAxis = 'slots and bars that end short of the axis';

function onlyOutside(specification: Specification): boolean {
  return !gapDiameter(specification, 'inner').known && gapDiameter(specification, 'outer').known;
}

interface RadiusInputs {
  readonly diameter: number;
  readonly opening: number;
  readonly depths: readonly number[];
  readonly stacks: readonly (readonly number[])[];
}

function radiiFrom(
  given: RadiusInputs,
  order: readonly SlotRow[],
  fromInside: boolean,
  layers: number,
): readonly number[] {
  const radii = new Array<number>(layers).fill(0);
  const outwards = fromInside ? 1 : -1;
  let end = given.diameter / 2 + outwards * given.opening;
  order.forEach((row, index) => {
    const depth = given.depths[index]!;
    const inner = fromInside ? end : end - depth;
    row.layers.forEach((layer, place) => {
      radii[layer] = inner + given.stacks[index]![place]!;
    });
    end += outwards * depth;
  });
  return radii;
}

function rowMiddles(specification: Specification, row: SlotRow): Figure<readonly number[]> {
  return derive(
    {
      space: rowSpace(specification, row),
      heights: allOf(row.layers.map((layer) => barHeight(specification, layer))),
    },
    ({ space, heights }) => stackBars({ ...space, heights }).map(({ from, to }) => (from + to) / 2),
  );
}
