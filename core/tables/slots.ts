import { layerLetter } from '../language/layerLetters.ts';
import { cellAt, type PlaceSigns, phaseOfCell, placeName, type Winding } from '../winding/model.ts';
import type { Column } from './column.ts';

/** The slots of a winding by number. */
const slotColumn: Column<number> = {
  heading: 'slot',
  meaning: 'Number of the slot.',
  align: 'right',
  value: (slot) => slot,
  subject: (slot) => ({ slot }),
};

/**
 * The slot table for programs: phase and sense of every place in columns of their own. (In one cell, `+U` would be
 * taken for a formula.)
 */
export function slotColumns({ table, phases, layers }: Winding): readonly Column<number>[] {
  return [
    slotColumn,
    ...Array.from({ length: layers }, (_, layer) => layer).flatMap((layer): readonly Column<number>[] => [
      {
        heading: layerLetter(layer),
        meaning: `Phase of the bar in layer ${layerLetter(layer)}; empty where there is none.`,
        value: (slot) => phases.names[phaseOfCell(cellAt(table, slot, layer))] ?? null,
      },
      {
        heading: `${layerLetter(layer)} sense`,
        meaning: '1 where that bar carries current away from the connection side, -1 back.',
        unit: 'sense',
        value: (slot) => Math.sign(cellAt(table, slot, layer)) || null,
      },
    ]),
  ];
}

/** The slot table for people: the name of what each place holds, for layers `first` to below `end`. */
export function placeColumns(
  { table, phases }: Winding,
  signs: PlaceSigns,
  first: number,
  end: number,
): readonly Column<number>[] {
  return [
    slotColumn,
    ...Array.from(
      { length: end - first },
      (_, index): Column<number> => ({
        heading: layerLetter(first + index),
        meaning: 'What the layer holds: phase and sense.',
        align: 'middle',
        value: (slot) => placeName(cellAt(table, slot, first + index), phases, signs),
      }),
    ),
  ];
}
