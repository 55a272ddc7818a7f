import { derive, deriveFigure, type Figure, known, knownIf, missing, stated } from '../figures/figure.ts';
import type {
  Given,
  MachineSpecification,
  PhaseConnection,
  SlotSpecification,
  Specification,
} from '../language/specification/specification.ts';
import type { Winding } from '../winding/model.ts';
import { carterFactor } from './emf/carter.ts';

export type GapSide = 'inner' | 'outer';

/** Which sides of the stator have a gap, inner first; one rotor inside unless the text says otherwise. */
export function gapSides(specification: Specification): Figure<readonly GapSide[]> {
  const gap = specification.machine?.gap?.value;
  if (gap === undefined) return known<readonly GapSide[]>(['inner'], 'machine gap: inner (default)');
  return known<readonly GapSide[]>(gap === 'both' ? ['inner', 'outer'] : [gap]);
}

/** Stator diameter at a gap, m. */
export function gapDiameter(specification: Specification, side: GapSide): Figure<number> {
  return side === 'inner' ? machineValue(specification, 'bore') : machineValue(specification, 'outside');
}

type PlainWord = 'bore' | 'outside' | 'stack' | 'flux' | 'current' | 'windingTemperature' | 'endTemperature';

/** A plain number of the machine block: meters, webers, amperes, degrees Celsius. */
export function machineValue(specification: Specification, key: PlainWord): Figure<number> {
  const statement = specification.machine?.[key as keyof MachineSpecification] as Given<number> | undefined;
  return stated(statement?.value, 'machine', key);
}

/** Electrical frequency in Hz: as written, else from the speed. */
export function electricalFrequency(specification: Specification, winding: Winding): Figure<number> {
  const machine = specification.machine;
  if (machine?.frequency) return known(machine.frequency.value);
  return machine?.speed
    ? known(machine.speed.value * winding.polePairs)
    : missing('machine speed or frequency');
}

/** How the phases are joined. */
export function phaseConnection(specification: Specification): Figure<PhaseConnection> {
  return knownIf(specification.connect?.connections[0]?.value, 'connect star, delta or open');
}

/** Phases that form one star or one ring. */
export function phasesPerSet(winding: Winding): number {
  return winding.phases.names.length / winding.phases.sets;
}

/** Phase current as a share of the terminal current. */
export function phaseCurrentShare(specification: Specification, winding: Winding): Figure<number> {
  return derive({ connection: phaseConnection(specification) }, ({ connection }) =>
    connection === 'delta' ? 1 / (2 * Math.sin(Math.PI / phasesPerSet(winding))) : 1,
  );
}

/** Rms current of one phase (all its paths), A. */
export function phaseCurrent(specification: Specification, winding: Winding): Figure<number> {
  return derive(
    { current: machineValue(specification, 'current'), share: phaseCurrentShare(specification, winding) },
    ({ current, share }) => current * share,
  );
}

/** Parallel paths of a phase; one where the text neither routes nor writes any. */
export function parallelPaths(specification: Specification, winding: Winding): Figure<number> {
  const connect = specification.connect;
  const said = connect?.route !== undefined || (connect?.paths.length ?? 0) > 0;
  return said
    ? known(winding.parallelPaths)
    : known(winding.parallelPaths, 'connect route: paths 1 (default)');
}

/** Series turns of a phase, N = z/(2a), z bars of one phase in a paths (mean over the phases). */
export function seriesTurns(specification: Specification, winding: Winding): Figure<number> {
  let bars = 0;
  for (const cell of winding.table.cells) if (cell !== 0) bars++;
  return derive({ paths: parallelPaths(specification, winding) }, ({ paths }) => {
    return bars / winding.phases.names.length / (2 * paths);
  });
}

/** One air gap: stator diameter at the gap, radial air length and magnet height in m, relative permeability. */
export interface AirGap {
  readonly side: GapSide;
  readonly diameter: number;
  readonly length: number;
  readonly magnetHeight: number;
  readonly permeability: number;
}

/** Everything about one gap but its slot openings. */
export function airGap(specification: Specification, side: GapSide): Figure<AirGap> {
  const machine = specification.machine;
  const pick = (lengths: { readonly first: number; readonly second: number | null } | undefined) =>
    lengths === undefined ? undefined : side === 'outer' ? (lengths.second ?? lengths.first) : lengths.first;
  const height = knownIf(
    pick(machine?.magnetHeight?.value),
    'machine magnet-height (0 mm where there are no magnets)',
  );
  return deriveFigure(
    {
      diameter: gapDiameter(specification, side),
      length: knownIf(pick(machine?.airGap?.value), 'machine air-gap'),
      magnetHeight: height,
      permeability: height.known && height.value === 0 ? known(1) : magnetPermeability(specification),
    },
    (gap) => known({ side, ...gap }),
  );
}

function magnetPermeability(specification: Specification): Figure<number> {
  const written = specification.machine?.magnetPermeability?.value;
  return written === undefined ? known(1.05, 'machine magnet-permeability: 1.05 (default)') : known(written);
}

/** Carter's factor of a gap; 1 where `carter off` is written or no slot opening is given. */
export function gapCarterFactor(specification: Specification, winding: Winding, gap: AirGap): Figure<number> {
  const carter = specification.machine?.carter?.value;
  if (carter === false) return known(1);
  const opening = gapSlot(specification, winding, gap.side)?.opening?.value;
  if (opening === undefined) return known(1, "Carter's factor 1: no slot opening is given");
  const pitch = (Math.PI * gap.diameter) / winding.slots;
  if (opening >= pitch) return missing('slot opening narrower than the slot pitch at the gap');
  const factor = carterFactor(pitch, opening, gap.length);
  return carter === undefined ? known(factor, 'machine carter: on (default)') : known(factor);
}

/** The slot block whose layers lie next to a gap. */
function gapSlot(
  specification: Specification,
  winding: Winding,
  side: GapSide,
): SlotSpecification | undefined {
  return slotOfLayer(specification, side === 'inner' ? 0 : winding.layers - 1);
}

/** The slot block that holds a layer (from 0). */
export function slotOfLayer(specification: Specification, layer: number): SlotSpecification | undefined {
  return specification.slots.find(
    (slot) => slot.layers.length === 0 || slot.layers.some((named) => named.layer === layer),
  );
}

/**
 * Share of a slot's ampere-conductors that drives flux over the inner gap: 1 for a closed outer end,
 * 0 for a closed inner one; between two gaps their reluctances decide, R_i/(R_i + R_o) with
 * R = (air gap + magnet height/permeability)/radius.
 */
export function innerGapShare(specification: Specification): Figure<number> {
  return deriveFigure({ sides: gapSides(specification) }, ({ sides }) => {
    if (sides.length === 1) return known(sides[0] === 'inner' ? 1 : 0);
    return deriveFigure(
      { inner: airGap(specification, 'inner'), outer: airGap(specification, 'outer') },
      ({ inner, outer }) => {
        const share = reluctance(inner) / (reluctance(inner) + reluctance(outer));
        return known(
          share,
          `two gaps: ${(100 * share).toFixed(1)} % of the slot current acts on the inner gap, the rest on the outer, by (air gap + magnet height/permeability)/radius`,
        );
      },
    );
  });
}

/** Reluctance of a gap for the same pole number and length, up to a common factor. */
function reluctance(gap: AirGap): number {
  return (gap.length + gap.magnetHeight / gap.permeability) / (gap.diameter / 2);
}
