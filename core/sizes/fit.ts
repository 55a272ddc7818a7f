import { allOf, derive, deriveFigure, type Figure } from '../figures/figure.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { Winding } from '../winding/model.ts';
import { barCoating, barHeight, barWidth } from './barInputs.ts';
import {
  type SlotRow,
  separatorsBetween,
  slotLength,
  slotLiner,
  slotMouths,
  slotRows,
  slotWedge,
} from './slotRows.ts';

/** Copper area over slot area of the fullest slot. */
export function slotFill(
  specification: Specification,
  winding: Winding,
  areas: Figure<readonly number[]>,
): Figure<number> {
  return deriveFigure({ rows: slotRows(specification, winding) }, ({ rows }) =>
    derive({ fills: allOf(rows.map((row) => rowFill(winding, row, areas))) }, ({ fills }) =>
      Math.max(...fills),
    ),
  );
}

/** Copper area over slot area of a row's fullest slot. */
export function rowFill(winding: Winding, row: SlotRow, areas: Figure<readonly number[]>): Figure<number> {
  return derive(
    { areas, width: slotLength(row, 'width'), depth: slotLength(row, 'depth') },
    (given) => largestStack(winding, row, given.areas) / (given.width * given.depth),
  );
}

/** Room for a row's bars and what they take, m: across the slot and along its depth. */
export interface RowFit {
  /** Across the slot. */
  readonly width: { readonly needed: number; readonly available: number };
  /** Along its depth. */
  readonly height: { readonly needed: number; readonly available: number };
}

/** Coated bars against the slot window: width less two liners, depth less wedges and liner. */
export function rowFit(specification: Specification, winding: Winding, row: SlotRow): Figure<RowFit> {
  return derive(
    {
      mouths: slotMouths(specification),
      width: slotLength(row, 'width'),
      depth: slotLength(row, 'depth'),
      liner: slotLiner(row),
      wedge: slotWedge(row),
      coating: barCoating(specification),
      widths: allOf(row.layers.map((layer) => barWidth(specification, layer))),
      heights: allOf(row.layers.map((layer) => barHeight(specification, layer))),
    },
    (given) => {
      const coated = new Array<number>(winding.layers).fill(0);
      row.layers.forEach((layer, index) => {
        coated[layer] = given.heights[index]! + 2 * given.coating;
      });
      const ends = given.mouths === 'both' ? 2 * given.wedge : given.wedge + given.liner;
      return {
        width: {
          needed: Math.max(...given.widths) + 2 * given.coating,
          available: given.width - 2 * given.liner,
        },
        height: {
          needed: largestStack(winding, row, coated, separatorsBetween(row, row.layers)),
          available: given.depth - ends,
        },
      };
    },
  );
}

/** Copper height that the fullest slot of a row leaves to each of its bars, m. */
export function roomForBars(specification: Specification, winding: Winding, row: SlotRow): Figure<number> {
  return derive(
    {
      mouths: slotMouths(specification),
      depth: slotLength(row, 'depth'),
      liner: slotLiner(row),
      wedge: slotWedge(row),
      coating: barCoating(specification),
    },
    ({ mouths, depth, liner, wedge, coating }) => {
      const none = new Array<number>(winding.layers).fill(0);
      const bars = largestStack(
        winding,
        row,
        none.map(() => 1),
      );
      const separators = largestStack(winding, row, none, separatorsBetween(row, row.layers));
      const ends = mouths === 'both' ? 2 * wedge : wedge + liner;
      return Math.max(0, (depth - ends - separators) / bars - 2 * coating);
    },
  );
}

/**
 * Largest sum over the bars of one slot of a row of what each layer's bar adds, and of what stands
 * between two neighboring layers of the row where both have one.
 */
function largestStack(
  winding: Winding,
  row: SlotRow,
  perLayer: readonly number[],
  between: readonly number[] = [],
): number {
  const { slots, cells } = winding.table;
  let most = 0;
  for (let slot = 0; slot < slots; slot++) {
    let sum = 0;
    let below = false;
    for (let index = 0; index < row.layers.length; index++) {
      const layer = row.layers[index]!;
      const held = cells[layer * slots + slot] !== 0;
      if (held) sum += perLayer[layer]! + (below ? (between[index - 1] ?? 0) : 0);
      below = held;
    }
    most = Math.max(most, sum);
  }
  return most;
}

/** Room left beside a row's bars, m; negative where they do not fit. */
export interface SpareRoom {
  /** From 0, inner first. */
  readonly layers: readonly number[];
  /** Across the slot. */
  readonly width: number;
  /** Along its depth. */
  readonly height: number;
}

/** The spare room of every slot row. */
export function spareRoom(specification: Specification, winding: Winding): Figure<readonly SpareRoom[]> {
  return deriveFigure({ rows: slotRows(specification, winding) }, ({ rows }) =>
    allOf(
      rows.map((row) =>
        derive({ fit: rowFit(specification, winding, row) }, ({ fit }) => ({
          layers: row.layers,
          width: fit.width.available - fit.width.needed,
          height: fit.height.available - fit.height.needed,
        })),
      ),
    ),
  );
}
