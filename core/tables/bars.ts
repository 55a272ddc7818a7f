import { senseInPath } from '../balance/validity.ts';
import { type ConnectionFacts, joinedFacts } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import { shopNames } from '../facts/shop.ts';
import { layerLetter } from '../language/layerLetters.ts';
import { emfAngle } from '../winding/angles.ts';
import { type Bar, barName, cellAt, phaseOfCell, slotNumbers } from '../winding/model.ts';
import type { Column } from './column.ts';
import { pieceLengths } from './shapeLength.ts';
import { whose } from './whose.ts';

/** A bar in its place, and how it is used; null while bars are not joined. */
export interface BarRow {
  readonly bar: Bar;
  readonly phase: string;
  /** 1 away from the connection side, -1 back. */
  readonly sense: number;
  readonly use: BarUse | null;
  /** What bend list and sheets call it; null while bars are not joined. */
  readonly bentBar: string | null;
  /** Of the whole piece, m; null where it is not known. */
  readonly length: number | null;
  /** Electrical degrees, its sense counted. */
  readonly emfAngle: number;
}

/** How a path uses a bar. */
export interface BarUse {
  /** Number within its phase. */
  readonly path: number;
  /** Place in the path, from 1. */
  readonly place: number;
  readonly sense: 1 | -1;
  /** Number of its bar shape; null where it has none. */
  readonly shape: number | null;
}

export const barColumns: readonly Column<BarRow>[] = [
  { heading: 'position', meaning: 'Name of the place.', value: ({ bar }) => barName(bar) },
  { heading: 'slot', meaning: 'Number of its slot.', value: ({ bar }) => bar.slot },
  {
    heading: 'layer',
    meaning: 'Letter of its layer; a is nearest the axis.',
    value: ({ bar }) => layerLetter(bar.layer),
  },
  whose.phase,
  {
    heading: 'sense',
    meaning:
      '1 where its path passes it away from the connection side, -1 back; by the slot table while bars are not joined.',
    unit: 'sense',
    value: ({ sense }) => sense,
  },
  { ...whose.path, value: ({ use }) => use?.path ?? null },
  {
    heading: 'place in path',
    meaning: 'Place in the path, counted from 1 at its start.',
    value: ({ use }) => use?.place ?? null,
  },
  {
    heading: 'shape',
    meaning: 'Number of its bar shape in the report.',
    value: ({ use }) => use?.shape ?? null,
  },
  {
    heading: 'bent bar',
    meaning:
      'What the bend list calls it: its shape, with a letter where not all of its bars are bent alike.',
    value: ({ bentBar }) => bentBar,
  },
  {
    heading: 'length',
    meaning: 'Developed length of the whole piece: of a hairpin both legs and the crown.',
    unit: 'length',
    value: ({ length }) => length,
  },
  {
    heading: 'EMF angle',
    meaning: 'Angle of its EMF, its sense counted: 0 for a bar of sense 1 in slot 1, 0 <= angle < 360.',
    unit: 'edeg',
    value: (row) => row.emfAngle,
  },
];

/** Every bar, by slot and layer. */
export function barRows(facts: Facts): readonly BarRow[] {
  const { winding } = facts;
  const connection = joinedFacts(facts);
  const uses = connection ? barUses(connection) : null;
  const names = shopNames(facts);
  const lengths = new Map((connection?.barShapes() ?? []).flatMap((shape) => pieceLengths(facts, shape)));
  return slotNumbers(winding).flatMap((slot) =>
    Array.from({ length: winding.layers }, (_, layer) => ({ slot, layer })).flatMap(
      (bar): readonly BarRow[] => {
        const cell = cellAt(winding.table, slot, bar.layer);
        if (cell === 0) return [];
        const use = uses?.get(barName(bar)) ?? null;
        const sense = use?.sense ?? Math.sign(cell);
        return [
          {
            bar,
            phase: winding.phases.names[phaseOfCell(cell)]!,
            sense,
            use,
            bentBar: names.get(barName(bar)) ?? null,
            length: lengths.get(barName(bar)) ?? null,
            emfAngle: emfAngle(winding, bar, sense),
          },
        ];
      },
    ),
  );
}

/** Where each bar is used (first), by its name. */
export function barUses(connection: ConnectionFacts): ReadonlyMap<string, BarUse> {
  const shapes = new Map(
    connection.barShapes().flatMap(({ number, bars }) => bars.map((bar) => [barName(bar), number] as const)),
  );
  const uses = new Map<string, BarUse>();
  for (const path of connection.paths)
    for (const [position, bar] of path.bars.entries()) {
      const name = barName(bar);
      if (uses.has(name)) continue;
      const sense = senseInPath(path, position);
      uses.set(name, { path: path.number, place: position + 1, sense, shape: shapes.get(name) ?? null });
    }
  return uses;
}
