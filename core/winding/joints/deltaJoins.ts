import type { PhaseSystem } from '../model.ts';
import { lineTerminal, otherTerminal } from '../terminals.ts';

/** Two terminals that a delta joins. */
export interface TerminalJoin {
  /** Where one phase ends: U2. */
  readonly from: string;
  /** The line terminal of the next phase of its set: V1. */
  readonly to: string;
}

/** What a delta joins, one a phase in their order: U2 with V1, V2 with W1, W2 with U1; each set for itself. */
export function deltaJoins({ names, sets }: PhaseSystem): readonly TerminalJoin[] {
  const ofSet = names.length / sets;
  return names.map((name, phase) => {
    const first = phase - (phase % ofSet);
    const next = names[first + ((phase - first + 1) % ofSet)]!;
    return { from: otherTerminal(name), to: lineTerminal(next) };
  });
}

/** The terminal that one is joined with; null where it is joined with none. */
export function joinedWith(joins: readonly TerminalJoin[], terminal: string): string | null {
  for (const { from, to } of joins) {
    if (from === terminal) return to;
    if (to === terminal) return from;
  }
  return null;
}
