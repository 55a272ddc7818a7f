import { coveringArc } from '../winding/coveringArc.ts';
import { greatestCommonDivisor, modulo } from '../winding/integers.ts';
import type { Bends } from '../winding/joints/bends.ts';
import type { Path, SlotTable, Winding } from '../winding/model.ts';
import { routedKind } from './jointKind.ts';
import type { Strand } from './units/units.ts';

/** How the paths of a phase end: at a star point or at the phase's second terminal. */
export type PhaseConnection = 'star' | 'star-joined' | 'delta' | 'open';

/**
 * The slots by which a phase's bars lie on from the first phase's, one for each place where its axis
 * agrees: the solutions x in 0..Q-1 of p x = axis Q/360 (mod Q) that move the first phase's cells onto
 * its own, rising; with `sense` -1 for phases that follow each other against the slot numbers. Empty
 * where the table does not repeat from phase to phase.
 */
export function phaseShifts(winding: Winding, phase: number, sense: 1 | -1 = 1): number[] {
  const { slots, polePairs, phases, table } = winding;
  const target = (sense * phases.axes[phase]! * slots) / 360;
  // Solutions lie so many slots apart; where the table repeats with them, all move it alike.
  const step = slots / greatestCommonDivisor(slots, polePairs);
  const repeats = repeatsAfter(table, step);
  const shifts: number[] = [];
  let moves: boolean | null = null;
  for (let shift = 0; shift < slots; shift++) {
    const missed = modulo(polePairs * shift - target + slots / 2, slots) - slots / 2;
    if (Math.abs(missed) >= 1e-6) continue;
    if (moves === null || !repeats) moves = movesOnto(table, phase, shift);
    if (moves) shifts.push(shift);
  }
  return shifts;
}

/** Whether a table turned by `step` slots, 0 < step <= slots, is the same table. */
function repeatsAfter({ cells, slots, layers }: SlotTable, step: number): boolean {
  for (let layer = 0; layer < layers; layer++) {
    const base = layer * slots;
    for (let place = 0; place < slots; place++) {
      const turned = place + step < slots ? place + step : place + step - slots;
      if (cells[base + place] !== cells[base + turned]) return false;
    }
  }
  return true;
}

/** Whether the first phase's cells, turned by `shift` slots, are another phase's. */
function movesOnto({ cells, slots, layers }: SlotTable, phase: number, shift: number): boolean {
  for (let layer = 0; layer < layers; layer++) {
    const base = layer * slots;
    for (let place = 0; place < slots; place++) {
      const turned = place + shift < slots ? place + shift : place + shift - slots;
      const first = cells[base + place]!;
      const cell = cells[base + turned]!;
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
  const optionsIn = (sense: 1 | -1) =>
    winding.phases.names.map((_, phase) => (phase === 0 ? [0] : phaseShifts(winding, phase, sense)));
  const forward = optionsIn(1);
  const backward = optionsIn(-1);
  const known = (options: readonly number[][]) => options.filter((shifts) => shifts.length > 0).length;
  const options = known(forward) >= known(backward) ? forward : backward;
  let best = options.map((shifts) => shifts[0] ?? null);
  let smallest = Number.POSITIVE_INFINITY;
  for (const begin of new Set(options.flat())) {
    const chosen = options.map((shifts) => nextFrom(shifts, begin));
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

/** The first of some rising shifts that one comes to from `begin` on, round the bore; null of none. */
function nextFrom(shifts: readonly number[], begin: number): number | null {
  let low = 0;
  let high = shifts.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (shifts[middle]! < begin) low = middle + 1;
    else high = middle;
  }
  return shifts[low] ?? shifts[0] ?? null;
}

/** The smallest arc, in slots, that holds the first bars of all these paths. */
export function terminalWindow({ slots }: Winding, paths: readonly Path[]): number {
  return coveringArc(
    paths.map(({ bars }) => bars[0]!.slot),
    slots,
  );
}

/** Strands as the paths of a phase, turned by `shift` slots (0 <= shift < slots), with their terminals. */
export function pathsOfPhase(
  winding: Winding,
  bends: Bends,
  phase: number,
  strands: readonly Strand[],
  shift: number,
  connection: PhaseConnection,
): Path[] {
  const { slots } = winding;
  return strands.map(({ bars, spans }, index) => ({
    phase,
    number: index + 1,
    bars: bars.map(({ slot, layer }) => ({
      slot: slot + shift > slots ? slot + shift - slots : slot + shift,
      layer,
    })),
    spans,
    pieces: spans.map((span, joint) => {
      const side = joint % 2 === 0 ? 'far' : 'connection';
      return (
        routedKind(winding, bends, { side, from: bars[joint]!, to: bars[joint + 1]!, span }) === 'jumper'
      );
    }),
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
