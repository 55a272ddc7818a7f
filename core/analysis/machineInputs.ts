import { derive, deriveFigure, type Figure, known, knownIf, missing } from '../figures/figure.ts';
import { defaultLine, stated } from '../language/specification/defaults.ts';
import type { SlotSpecification, Specification } from '../language/specification/specification.ts';
import type { PhaseConnection } from '../language/specification/statements.ts';
import { machineStatements } from '../language/vocabulary/blocks/machine.ts';
import { connectStatements } from '../language/vocabulary/blocks/winding.ts';
import type { SaidBy } from '../language/vocabulary/word.ts';
import { electricalDegrees } from '../winding/angles.ts';
import type { Winding } from '../winding/model.ts';
import { outsideDiameter } from './outsideDiameter.ts';

export type GapSide = 'inner' | 'outer';

/** Which sides of the stator have a gap, inner first. */
export function gapSides({ machine }: Specification): Figure<readonly GapSide[]> {
  return derive({ gap: stated(machineStatements, machine, 'gap') }, ({ gap }): readonly GapSide[] =>
    gap === 'both' ? ['inner', 'outer'] : [gap],
  );
}

/** Stator diameter at a gap, m; the outer of two gaps lies where bore and slots put it unless the text says where. */
export function gapDiameter(specification: Specification, side: GapSide): Figure<number> {
  return side === 'inner' ? machineValue(specification, 'bore') : outsideDiameter(specification);
}

type MachineWords = typeof machineStatements;
/** The words of the machine block that give a plain number. */
type NumberKey = {
  [K in keyof MachineWords]: SaidBy<MachineWords[K]> extends number ? K : never;
}[keyof MachineWords];

/** A plain number of the machine block, SI units or degrees Celsius, or its default. */
export function machineValue({ machine }: Specification, key: NumberKey): Figure<number> {
  return stated(machineStatements, machine, key);
}

/** Electrical frequency in Hz: as written, else from the speed. */
export function electricalFrequency(specification: Specification, winding: Winding): Figure<number> {
  const machine = specification.machine;
  if (machine?.frequency) return known(machine.frequency.value);
  return machine?.speed
    ? known(machine.speed.value * winding.polePairs)
    : missing('machine speed or frequency');
}

/** Electrical angle by which the phase current leads the EMF, rad; positive weakens the field. */
export function currentAngle(specification: Specification, winding: Winding): Figure<number> {
  return deriveFigure(
    { written: stated(machineStatements, specification.machine, 'currentAngle') },
    ({ written }) => {
      const degrees = electricalDegrees(written, winding.slots, winding.polePairs);
      return Math.abs(degrees) <= 90
        ? known((degrees * Math.PI) / 180)
        : missing('machine current-angle from -90 to 90 edeg');
    },
  );
}

/** How much the d axis' inductance is above that of the q axis, H: none unless both are given. */
export function saliency(specification: Specification): Figure<number> {
  const { dInductance: d, qInductance: q } = specification.machine ?? {};
  if (!d && !q) return known(0);
  return derive(
    { d: machineValue(specification, 'dInductance'), q: machineValue(specification, 'qInductance') },
    (given) => given.d - given.q,
  );
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

/** Parallel paths of a phase; one where the text neither routes nor writes any. Refused ones count as asked for, which is told. */
export function parallelPaths(specification: Specification, winding: Winding): Figure<number> {
  if (winding.parallelPathsRefused)
    return known(
      winding.parallelPaths,
      `connect route: paths ${winding.parallelPaths}, as asked for, though no connection of these bars was found that has them`,
    );
  const connect = specification.connect;
  const said = connect?.route !== undefined || (connect?.paths.length ?? 0) > 0;
  return said
    ? known(winding.parallelPaths)
    : known(winding.parallelPaths, defaultLine(connectStatements.route));
}

/** Series turns of a phase, N = z/(2a), z bars of one phase in a paths (mean over the phases). */
export function seriesTurns(specification: Specification, winding: Winding): Figure<number> {
  let bars = 0;
  for (const cell of winding.table.cells) if (cell !== 0) bars++;
  return derive({ paths: parallelPaths(specification, winding) }, ({ paths }) => {
    return bars / winding.phases.names.length / (2 * paths);
  });
}

/** Heat conductance from the bars of a layer to the core, W/(m K); 0 where the text gives none. */
export function coreConductance(specification: Specification, layer: number): number {
  return slotOfLayer(specification, layer)?.sideConductance?.value ?? 0;
}

/** The slot block that holds a layer (from 0). */
export function slotOfLayer(specification: Specification, layer: number): SlotSpecification | undefined {
  return specification.slots.find(
    (slot) => slot.layers.length === 0 || slot.layers.some((named) => named.layer === layer),
  );
}
