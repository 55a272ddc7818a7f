import type { Specification } from '../../language/specification/specification.ts';
import { cellAt, type Winding } from '../../winding/model.ts';
import { barCoating, barSize } from '../barInputs.ts';
import { type Mouths, separatorsBetween, stackBars } from '../slotRows.ts';
import { type BarPlace, millimeters, type RowShape, type RowSize } from './shape.ts';

/** The slot of a row, between `from` and `to`, in millimeters. */
export interface BarRoom {
  readonly from: number;
  readonly to: number;
  readonly size: RowSize;
  readonly mouths: Mouths;
  readonly opensInside: boolean;
  readonly opensOutside: boolean;
}

/** Where the bars of a row lie: to scale where their sizes are given and fit, else shared evenly. */
export function barPlaces(
  specification: Specification,
  winding: Winding,
  room: BarRoom,
  notes: Set<string>,
): Pick<RowShape, 'barsOf' | 'barsToScale' | 'coating'> {
  const { row, width, depth, liner, wedge } = room.size;
  const coating = barCoating(specification);
  const sizes = row.layers.map((layer) => barSize(specification, layer));
  const even = { barsOf: evenPlaces(room), barsToScale: false, coating: 0 };
  if (!coating.known || sizes.some((size) => !size.known)) {
    notes.add('Without bar width and height the bars are drawn to fill the slot, not to scale.');
    return even;
  }
  const bars = sizes.map((size) => (size.known ? size.value : { width: 0, height: 0 }));
  const coat = millimeters * coating.value;
  const between = (layers: readonly number[]) =>
    separatorsBetween(row, layers).map((thickness) => millimeters * thickness);
  const separators = between(row.layers).reduce((sum, thickness) => sum + thickness, 0);
  const needed = bars.reduce((sum, { height }) => sum + millimeters * height + 2 * coat, separators);
  const closed = room.mouths === 'both' ? 2 * wedge : wedge + liner;
  const widest = Math.max(...bars.map((bar) => millimeters * bar.width));
  if (needed > depth - closed + 1e-6 || widest + 2 * coat > width - 2 * liner + 1e-6) {
    notes.add('The bars do not fit the slot: they are drawn smaller, not to scale.');
    return even;
  }
  const barsOf = (slot: number) => {
    const held = row.layers
      .map((layer, index) => ({ layer, bar: bars[index]! }))
      .filter(({ layer }) => cellAt(winding.table, slot, layer) !== 0);
    const stretches = stackBars({
      depth,
      liner: room.mouths === 'both' ? 0 : liner,
      coating: coat,
      mouths: room.mouths,
      heights: held.map(({ bar }) => millimeters * bar.height),
      separators: between(held.map(({ layer }) => layer)),
    });
    return held.map(({ layer, bar }, index) => ({
      layer,
      from: room.from + stretches[index]!.from,
      to: room.from + stretches[index]!.to,
      width: millimeters * bar.width,
    }));
  };
  return { barsOf, barsToScale: true, coating: coat };
}

/** Every layer has the same share of the room between liner and wedge. */
function evenPlaces({ from, to, size, opensInside, opensOutside }: BarRoom): () => readonly BarPlace[] {
  const { row, width, liner, wedge } = size;
  const low = from + (opensInside ? wedge : liner);
  const high = to - (opensOutside ? wedge : liner);
  const share = (high - low) / row.layers.length;
  const places = row.layers.map((layer, index) => ({
    layer,
    from: low + (index + 0.06) * share,
    to: low + (index + 0.94) * share,
    width: 0.88 * (width - 2 * liner),
  }));
  return () => places;
}
