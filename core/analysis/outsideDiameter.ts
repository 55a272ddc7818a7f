import { allOf, assuming, derive, deriveFigure, type Figure, known, missing } from '../figures/figure.ts';
import { listed } from '../language/lists.ts';
import { significant } from '../language/numbers.ts';
import { stated, valueOrDefault } from '../language/specification/defaults.ts';
import type { SlotSpecification, Specification } from '../language/specification/specification.ts';
import { slotStatements } from '../language/vocabulary/blocks/copper.ts';
import { machineStatements } from '../language/vocabulary/blocks/machine.ts';

/**
 * Stator diameter at the outer gap, m: as written; with a gap on both sides else from bore and slots,
 * with that told as an assumption.
 */
export function outsideDiameter(specification: Specification): Figure<number> {
  const { machine } = specification;
  if (machine?.outside || valueOrDefault(machineStatements, machine, 'gap') !== 'both')
    return stated(machineStatements, machine, 'outside');
  const derived = outsideFromSlots(specification);
  return derived.known
    ? assuming(derived, `machine outside: ${outsideWords(derived.value)}`)
    : missing(`machine outside or ${listed(derived.needs)}`);
}

/** A derived outside diameter in words. */
export function outsideWords(outside: number): string {
  return `${significant(outside * 1e3, 6)} mm (from bore, slot depth and opening-height)`;
}

/**
 * What bore and slots make of the outside diameter between two gaps, m: bore + 2 (slot depths + both
 * opening heights); the slot rows of leaning layers lie one above another.
 */
export function outsideFromSlots(specification: Specification): Figure<number> {
  const bore = stated(machineStatements, specification.machine, 'bore');
  return deriveFigure({ bore, build: radialBuild(specification) }, ({ bore: inner, build }) =>
    known(inner + 2 * build),
  );
}

/** Radial height from gap to gap: all slot rows, and the opening at either end. */
function radialBuild(specification: Specification): Figure<number> {
  const blocks = specification.slots;
  if (blocks.length === 0) return missing('slot depth', 'slot opening-height');
  const rows = [...blocks].sort((a, b) => lowestLayer(a) - lowestLayer(b));
  const named = rows.flatMap(({ layers }) => layers.map(({ layer }) => layer).sort((a, b) => a - b));
  if (rows.length > 1 && named.some((layer, index) => layer !== index))
    return missing('slot blocks that hold neighboring layers');
  return derive(
    {
      depths: allOf(rows.map((row) => stated(slotStatements, row, 'depth'))),
      inner: stated(slotStatements, rows[0], 'openingHeight'),
      outer: stated(slotStatements, rows.at(-1), 'openingHeight'),
    },
    ({ depths, inner, outer }) => depths.reduce((sum, depth) => sum + depth, inner + outer),
  );
}

function lowestLayer({ layers }: SlotSpecification): number {
  return Math.min(...layers.map(({ layer }) => layer));
}
