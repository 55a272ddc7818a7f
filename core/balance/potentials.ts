import type { Bar, EndSide, Path, Winding } from '../winding/model.ts';
import type { Complex } from './complex.ts';
import { add, divide, multiply, size, subtract, unit, zero } from './complex.ts';
import { barVoltages } from './voltages.ts';

/** How the phases are connected, as far as potentials between them depend on it. */
export type PotentialReference = 'star' | 'delta' | 'open';

/** A voltage between two neighboring bars on one side, relative to the phase voltage. */
export interface BarGap {
  readonly value: number;
  readonly bars: readonly [Bar, Bar];
  readonly side: EndSide;
}

/** Largest voltages between neighboring bars; null where there are no such neighbors. */
export interface BarGaps {
  /** Bars one above the other in a slot. */
  readonly inSlot: BarGap | null;
  readonly inSlotSamePhase: BarGap | null;
  readonly inSlotTwoPhases: BarGap | null;
  /** Bars of one layer in neighboring slots, where their end bends pass each other. */
  readonly betweenSlots: BarGap | null;
}

/**
 * Voltages between radially and tangentially neighboring bars at the working harmonic, from the node
 * potentials along each path, relative to the phase voltage. Open phases float, so only bars of one
 * phase are compared then. Null where some path has no voltage.
 */
export function voltagesBetweenBars(
  winding: Winding,
  paths: readonly Path[],
  reference: PotentialReference,
): BarGaps | null {
  const potentials = barPotentials(winding, paths, reference);
  if (!potentials) return null;
  const { slots, layers } = winding;
  const best: Record<'inSlot' | 'inSlotSamePhase' | 'inSlotTwoPhases' | 'betweenSlots', BarGap | null> = {
    inSlot: null,
    inSlotSamePhase: null,
    inSlotTwoPhases: null,
    betweenSlots: null,
  };
  const consider = (kind: keyof typeof best, bars: readonly [Bar, Bar]) => {
    const a = potentials.get(keyOf(bars[0]));
    const b = potentials.get(keyOf(bars[1]));
    if (!a || !b || (reference === 'open' && a.phase !== b.phase)) return;
    if (kind === 'inSlotSamePhase' && a.phase !== b.phase) return;
    if (kind === 'inSlotTwoPhases' && a.phase === b.phase) return;
    for (const side of ['connection', 'far'] as const) {
      const value = size(subtract(a[side], b[side]));
      // A hair's breadth decides nothing: the first of equal gaps is kept.
      if (value > (best[kind]?.value ?? -1) + 1e-9) best[kind] = { value, bars, side };
    }
  };
  for (let slot = 1; slot <= slots; slot++) {
    for (let layer = 0; layer < layers; layer++) {
      const bar = { slot, layer };
      const above: readonly [Bar, Bar] = [bar, { slot, layer: layer + 1 }];
      consider('inSlot', above);
      consider('inSlotSamePhase', above);
      consider('inSlotTwoPhases', above);
      consider('betweenSlots', [bar, { slot: (slot % slots) + 1, layer }]);
    }
  }
  return best;
}

/** Potentials of a bar's two ends, relative to the phase voltage, star point (or delta's center) zero. */
export interface BarPotential {
  readonly phase: number;
  readonly connection: Complex;
  readonly far: Complex;
}

/** Potentials of all bars by `slot layer`; null where some path has no voltage. */
export function barPotentials(
  winding: Winding,
  paths: readonly Path[],
  reference: PotentialReference,
): Map<string, BarPotential> | null {
  const potentials = new Map<string, BarPotential>();
  for (const path of paths) {
    const voltages = barVoltages(winding, path, winding.polePairs);
    const total = voltages.reduce(add, zero);
    if (size(total) < 1e-9 * Math.max(1, path.bars.length)) return null;
    const own = unit(-(winding.phases.axes[path.phase] ?? 0));
    const start = startPotential(winding, path.phase, reference);
    let drop = zero;
    path.bars.forEach((bar, position) => {
      const before = subtract(start, multiply(own, divide(drop, total)));
      drop = add(drop, voltages[position]!);
      const after = subtract(start, multiply(own, divide(drop, total)));
      const enters = (position % 2 === 0) !== path.startsFar;
      potentials.set(keyOf(bar), {
        phase: path.phase,
        connection: enters ? before : after,
        far: enters ? after : before,
      });
    });
  }
  return potentials;
}

/**
 * Potential of a phase's line terminal. Star: the phase voltage. Delta: the corner from which the phase
 * voltage leads to the next corner, of phases 360/m apart.
 */
function startPotential(winding: Winding, phase: number, reference: PotentialReference): Complex {
  const own = unit(-(winding.phases.axes[phase] ?? 0));
  if (reference !== 'delta') return own;
  const perSet = winding.phases.names.length / winding.phases.sets;
  return divide(own, subtract({ re: 1, im: 0 }, unit(-360 / perSet)));
}

function keyOf(bar: Bar): string {
  return `${bar.slot} ${bar.layer}`;
}
