import { modulo } from './integers.ts';
import type { Path, Winding } from './model.ts';
import { cellAt } from './model.ts';
import { coveringArc } from './routeMeasure.ts';
import type { Strand } from './routeUnits.ts';
import { foldSlot } from './routeUnits.ts';

/** How the paths of a phase end: at a star point or at the phase's second terminal. */
export type PhaseConnection = 'star' | 'star-joined' | 'delta' | 'open';

/**
 * The slots by which a phase's bars lie on from the first phase's, one for each place where its axis
 * agrees: the solutions x in 0..Q-1 of p x = axis Q/360 (mod Q) that move the first phase's cells onto
 * its own. Empty where the table does not repeat from phase to phase.
 */
export function phaseShifts(winding: Winding, phase: number): number[] {
  const { slots, polePairs, phases } = winding;
  const target = (phases.axes[phase]! * slots) / 360;
  const shifts: number[] = [];
  for (let shift = 0; shift < slots; shift++) {
    const missed = modulo(polePairs * shift - target + slots / 2, slots) - slots / 2;
    if (Math.abs(missed) < 1e-6 && movesOnto(winding, phase, shift)) shifts.push(shift);
  }
  return shifts;
}

function movesOnto(winding: Winding, phase: number, shift: number): boolean {
  const { table, slots, layers } = winding;
  for (let layer = 0; layer < layers; layer++) {
    for (let slot = 1; slot <= slots; slot++) {
      const first = cellAt(table, slot, layer);
      const cell = cellAt(table, foldSlot(slot + shift, slots), layer);
      const expected = Math.abs(first) === 1 ? first * (phase + 1) : 0;
      if ((Math.abs(cell) === phase + 1 ? cell : 0) !== expected) return false;
    }
  }
  return true;
}

/**
 * One shift for each phase, chosen so that the phases' terminals lie within the smallest arc. The
 * first phase stays where it is. Phases without a shift are left out (null).
 */
export function closestShifts(winding: Winding): (number | null)[] {
  const { slots } = winding;
  const options = winding.phases.names.map((_, phase) => (phase === 0 ? [0] : phaseShifts(winding, phase)));
  let best = options.map((shifts) => shifts[0] ?? null);
  let smallest = Number.POSITIVE_INFINITY;
  for (const begin of new Set(options.flat())) {
    const chosen = options.map((shifts) => nearestFrom(shifts, begin, slots));
    const arc = coveringArc(
      chosen.filter((shift) => shift !== null),
      slots,
    );
    if (arc < smallest) {
      smallest = arc;
      best = chosen;
    }
  }
  return best;
}

function nearestFrom(shifts: readonly number[], begin: number, slots: number): number | null {
  let best: number | null = null;
  for (const shift of shifts) {
    if (best === null || modulo(shift - begin, slots) < modulo(best - begin, slots)) best = shift;
  }
  return best;
}

/** Strands of one phase as paths with their terminals; `jumper` says which joints are separate pieces. */
export function pathsOfPhase(
  winding: Winding,
  phase: number,
  strands: readonly Strand[],
  shift: number,
  connection: PhaseConnection,
  jumper: (strand: Strand, index: number) => boolean,
): Path[] {
  return strands.map((strand, index) => ({
    phase,
    number: index + 1,
    bars: strand.bars.map((bar) => ({ slot: foldSlot(bar.slot + shift, winding.slots), layer: bar.layer })),
    spans: strand.spans,
    pieces: strand.spans.map((_, joint) => jumper(strand, joint)),
    from: `${winding.phases.names[phase]}1`,
    to: endTerminal(winding, phase, connection),
    startsFar: false,
    endsFar: false,
  }));
}

function endTerminal(winding: Winding, phase: number, connection: PhaseConnection): string {
  const name = winding.phases.names[phase]!;
  if (connection === 'delta' || connection === 'open') return `${name}2`;
  if (connection === 'star-joined' || winding.phases.sets === 1) return 'N';
  return `${name.slice(0, 1)}N`;
}
