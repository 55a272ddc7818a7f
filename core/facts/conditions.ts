import { outsideDiameter } from '../analysis/outsideDiameter.ts';
import { orNull } from '../figures/figure.ts';
import type { SlotSpecification, Specification } from '../language/specification/specification.ts';
import type { Winding } from '../winding/model.ts';

/** Width of a slot opening and diameter of its gap, m. */
export interface GapOpening {
  readonly width: number;
  readonly diameter: number;
}

/** Phases of one set: the set's delta or star is within it. */
export function phasesOfSet(winding: Winding): number {
  return winding.phases.names.length / winding.phases.sets;
}

/**
 * Rms current of a phase, A: the terminal current in star and open windings, the terminal current
 * / (2 sin(pi/m)) in delta. Null where the current or the way the phases are joined is not given.
 */
export function phaseCurrent(specification: Specification, winding: Winding): number | null {
  const current = specification.machine?.current?.value;
  const connection = specification.connect?.connections[0]?.value;
  if (current === undefined || connection === undefined) return null;
  return connection === 'delta' ? current / (2 * Math.sin(Math.PI / phasesOfSet(winding))) : current;
}

/** The statement that is missing so that the bars are joined; null where none is. */
export function jointNeed({ connect }: Specification): string | null {
  if (!connect?.connections[0]) return 'connect star, delta or open';
  return null;
}

/** The slot block that describes a layer's slots, if one does. `layer` counts from 0. */
export function slotOfLayer(specification: Specification, layer: number): SlotSpecification | undefined {
  return specification.slots.find(
    ({ layers }) => layers.length === 0 || layers.some((named) => named.layer === layer),
  );
}

/**
 * The slot openings at the gap, or at the inner and the outer one; null where the text does not give
 * the opening or the diameter.
 */
export function gapOpenings(specification: Specification): {
  readonly first: GapOpening | null;
  readonly second: GapOpening | null;
} {
  const { machine } = specification;
  const gap = machine?.gap?.value ?? 'inner';
  const inner = opening(slotOfLayer(specification, 0)?.opening?.value, machine?.bore?.value);
  const highest = (slot: SlotSpecification) => Math.max(...slot.layers.map(({ layer }) => layer));
  const outermost = [...specification.slots].sort((a, b) => highest(b) - highest(a))[0];
  const outer = opening(outermost?.opening?.value, orNull(outsideDiameter(specification)));
  return gap === 'outer'
    ? { first: outer, second: null }
    : { first: inner, second: gap === 'both' ? outer : null };
}

function opening(width: number | undefined, diameter: number | null | undefined): GapOpening | null {
  return width === undefined || diameter == null ? null : { width, diameter };
}
