import type { Specification } from '../../language/specification/specification.ts';
import { type Mouths, slotMouths, slotRows } from '../../sizes/slotRows.ts';
import type { RoomPiece, RowShape, SectionShape } from '../../sizes/slotShape/shape.ts';
import { cellAt, type Winding } from '../../winding/model.ts';
import type { Room } from '../room.ts';

const plain = { pitch: 12, slot: 8.4, bar: 7.4, share: 5, highestShare: 11, gap: 3 };
/** Millimeters of a panel that are not the slots': numbers, core, names and legend. */
const besideSlots = 30;

/** A straight row of slots of no particular size, for a text that does not give sizes; higher where a panel has room. */
export function plainShape(
  specification: Specification,
  winding: Winding,
  needs: readonly string[],
  room?: Room,
): SectionShape {
  const most = room === undefined ? 0 : (room.height - besideSlots) / winding.layers;
  const share = Math.max(plain.share, Math.min(plain.highestShare, most));
  const mouths = slotMouths(specification);
  const open: Mouths = mouths.known ? mouths.value : 'inner';
  const grouped = slotRows(specification, winding);
  const allLayers = Array.from({ length: winding.layers }, (_, layer) => layer);
  const groups = grouped.known ? grouped.value.map(({ layers }) => layers) : [allLayers];
  const first = open === 'outer' ? 4 : 1.5;
  let at = first;
  const rows = groups.map((layers, index): RowShape => {
    const from = at;
    at += layers.length * share + 0.6;
    return {
      layers,
      from,
      to: at,
      width: plain.slot,
      liner: 0,
      wedge: 0,
      opensInside: open !== 'outer' && index === 0,
      opensOutside: open !== 'inner' && index === groups.length - 1,
      barsToScale: false,
      coating: 0,
      barsOf: (slot) =>
        layers.flatMap((layer, place) =>
          cellAt(winding.table, slot, layer) === 0
            ? []
            : [
                {
                  layer,
                  from: from + 0.6 + place * share,
                  to: from + (place + 1) * share,
                  width: plain.bar,
                },
              ],
        ),
    };
  });
  const outer = at + (open === 'inner' ? 4 : 1.5);
  const pieces: RoomPiece[] = rows.map(({ from, to, width }) => ({ kind: 'slot', from, to, width }));
  if (open !== 'outer') pieces.unshift({ kind: 'opening', from: 0, to: first, width: plain.gap });
  if (open !== 'inner') pieces.push({ kind: 'opening', from: at, to: outer, width: plain.gap });
  return {
    pitch: { length: plain.pitch },
    inner: 0,
    outer,
    innerEnd: open === 'outer' ? 'break' : 'gap',
    outerEnd: open === 'inner' ? 'break' : 'gap',
    pieces,
    rows,
    notes: [`Developed, not to scale. To scale it needs ${needs.join(', ')}.`],
  };
}
