import type { Facts } from '../../facts/facts.ts';
import { layerLetter, layerLetters } from '../../language/layerLetters.ts';
import { liesAbove } from '../../sizes/slotRows.ts';
import type { Space } from '../../space/space.ts';
import { modulo } from '../../winding/integers.ts';
import { cellAt, type EndSide, type Winding } from '../../winding/model.ts';
import { type PhaseBoundaries, phaseBoundaries } from '../../winding/phaseBoundaries.ts';
import { plainMillimeters, runsText } from '../numbers.ts';
import type { SheetTable } from '../page/table.ts';
import { wrapped } from '../page/text.ts';

/** Two layers, or two slots of one layer, between which bars of different phases lie next to each other. */
type Row = readonly [place: string, between: string, where: string, thickness: string];

const whereWidth = 92;
const sides = ['connection', 'far'] as const;

/**
 * Separators in the slots, and every boundary at which bars of different phases lie next to each other:
 * in the slots layer on layer, beyond the stack where the ends of neighboring bars of a layer pass.
 */
export function insulationTable(facts: Facts, space: Space | null, section: string): SheetTable {
  const { winding } = facts;
  const boundaries = phaseBoundaries(winding);
  const rows = [...slotRows(facts, boundaries), ...endBoundaries(winding, space, boundaries)];
  return {
    id: 'phase-insulation',
    section,
    heading: 'Separators and phase insulation',
    remarks: [
      'Separators, and boundaries at which bars of two phases lie next to each other. Beyond the stack, 3|4: between the ends of the bars in slots 3 and 4.',
      ...(winding.layers > 1
        ? [
            'Legs of neighboring layers that lean opposite ways cross those of other phases all round: insulate layer from layer there.',
          ]
        : []),
    ],
    columns: [
      { name: 'place' },
      { name: 'layers' },
      { name: 'where', most: whereWidth },
      { name: 'separator mm', align: 'end' },
    ],
    rows: rows.flatMap(([place, between, where, thickness]) =>
      wrapped(where, 2.5, whereWidth).map((part, index) =>
        index === 0 ? [place, between, part, thickness] : ['', '', part, ''],
      ),
    ),
  };
}

const none = 'none';

/** The thickness of the separator above a layer, m; null without one. */
function separatorAbove({ specification }: Facts, layer: number): number | null {
  for (const slot of specification.slots)
    for (const { value } of slot.separators) if (liesAbove(value, layer)) return value.thickness;
  return null;
}

/** In the slots, from the axis outwards: separators, and where two bars that lie on each other are of different phases. */
function slotRows(facts: Facts, { inSlots }: PhaseBoundaries): readonly Row[] {
  const { slots: count, layers } = facts.winding;
  const rows: Row[] = [];
  for (let lower = 0; lower < layers; lower++) {
    const above = separatorAbove(facts, lower);
    const boundaries = inSlots.filter((boundary) => boundary.lower === lower);
    const apart = above !== null && boundaries.every(({ upper }) => upper !== lower + 1);
    for (const { upper, slots } of apart ? [{ upper: lower + 1, slots: null }, ...boundaries] : boundaries) {
      const thickness = upper === lower + 1 ? above : null;
      const where = slots && (slots.length === count ? 'all slots' : `slots ${runsText(slots)}`);
      rows.push([
        'in the slots',
        `${layerLetter(lower)} | ${layerLetter(upper)}`,
        thickness === null ? where! : `separator in every slot${where ? `; two phases in ${where}` : ''}`,
        thickness === null ? none : plainMillimeters(thickness),
      ]);
    }
  }
  return rows;
}

/** Neighbors of a layer whose ends pass each other and are of different phases, alike layers together. */
function endBoundaries(winding: Winding, space: Space | null, { inEnds }: PhaseBoundaries): readonly Row[] {
  const rows = new Map<string, { readonly side: EndSide | 'both'; readonly layers: number[] }>();
  for (const boundary of inEnds) {
    const { layer } = boundary;
    const [connection, far] = sides.map((side) => boundariesOf(winding, space, side, boundary));
    const both = connection === far;
    for (const [side, where] of both
      ? ([['both', connection]] as const)
      : ([
          ['connection', connection],
          ['far', far],
        ] as const)) {
      if (where === '') continue;
      const key = `${side} ${where}`;
      const known = rows.get(key);
      if (known) known.layers.push(layer);
      else rows.set(key, { side, layers: [layer] });
    }
  }
  return [...rows].map(([key, { side, layers }]): Row => {
    const place = side === 'both' ? 'ends, both sides' : `ends, ${side} side`;
    return [place, layerLetters(layers), key.slice(side.length + 1), none];
  });
}

function boundariesOf(
  winding: Winding,
  space: Space | null,
  side: EndSide,
  { layer, slots }: PhaseBoundaries['inEnds'][number],
): string {
  const between = slots.flatMap((slot): string[] => {
    let next = (slot % winding.slots) + 1;
    while (cellAt(winding.table, next, layer) === 0) next = (next % winding.slots) + 1;
    return endsPass(winding, space, side, layer, slot, next) ? [`${slot}|${next}`] : [];
  });
  return between.length === winding.slots ? 'between all neighbors' : between.join(' ');
}

/** Whether the ends of two bars of a layer stand side by side somewhere: neighbors always do. */
function endsPass(
  { slots }: Winding,
  space: Space | null,
  side: EndSide,
  layer: number,
  slot: number,
  next: number,
): boolean {
  const apart = modulo(next - slot, slots);
  if (apart === 1 || space === null) return apart === 1;
  const reach = (at: number) =>
    ((space.bars[layer * slots + at - 1]?.[side].turn ?? 0) * slots) / (2 * Math.PI);
  return apart + Math.min(0, reach(next)) <= Math.max(0, reach(slot));
}
