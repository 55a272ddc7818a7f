import { allOf, derive, deriveFigure, type Figure, orNull } from '../../figures/figure.ts';
import type { Specification } from '../../language/specification/specification.ts';
import { barStrands, barWidth } from '../../sizes/barInputs.ts';
import { roomForBars } from '../../sizes/fit.ts';
import { type SlotRow, slotRows } from '../../sizes/slotRows.ts';
import type { Winding } from '../../winding/model.ts';
import { type FieldWeights, reducedHeight, widthShare } from './acLoss.ts';
import { criticalHeight } from './criticalHeight.ts';

/** Bar height of least AC resistance for the layers of one slot row, at the stated frequency. */
export interface BestHeight {
  /** From 0, inner first. */
  readonly layers: readonly number[];
  /** m. */
  readonly height: number;
  /** AC over DC resistance at that height. */
  readonly ratio: number;
  /** Height that the slot leaves to each bar, m; null where it cannot be told. */
  readonly room: number | null;
}

interface Conditions {
  readonly weights: Figure<FieldWeights>;
  readonly frequency: Figure<number>;
  readonly resistivity: Figure<number>;
}

/** The best height of each slot row for its layer count; the bars of a row share one height. */
export function bestHeights(
  specification: Specification,
  winding: Winding,
  conditions: Conditions,
): Figure<readonly BestHeight[]> {
  return deriveFigure({ rows: slotRows(specification, winding) }, ({ rows }) =>
    allOf(rows.map((row) => bestHeight(specification, winding, row, conditions))),
  );
}

function bestHeight(
  specification: Specification,
  winding: Winding,
  row: SlotRow,
  conditions: Conditions,
): Figure<BestHeight> {
  const bars = row.layers.map((layer) =>
    derive(
      {
        width: barWidth(specification, layer),
        strands: barStrands(specification, layer),
        share: widthShare(specification, row, layer),
      },
      (bar) => ({ layer, ...bar }),
    ),
  );
  const room = orNull(roomForBars(specification, winding, row));
  return derive({ bars: allOf(bars), ...conditions }, ({ bars: sizes, weights, frequency, resistivity }) => {
    const terms = sizes.flatMap(({ layer, width, strands, share }) => {
      const weight = weights.layers[layer];
      if (weight == null) return [];
      const section = { strandHeight: 1 / strands, widthShare: share };
      const filled = weights.kinds.reduce(
        (count, kind) => count + (kind.weights[layer] === null ? 0 : kind.slots.length),
        0,
      );
      return [{ share: filled / width, weight, scale: reducedHeight(section, frequency, resistivity) }];
    });
    return { layers: row.layers, ...criticalHeight(terms), room };
  });
}
