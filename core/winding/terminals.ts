import type { PhaseConnection } from '../language/specification/statements.ts';
import type { PhaseSystem } from './model.ts';

/** Name of a phase's line terminal: U1. */
export function lineTerminal(phase: string): string {
  return `${phase}1`;
}

/** Name of a phase's other terminal: U2. */
export function otherTerminal(phase: string): string {
  return `${phase}2`;
}

/** In which order the phases of each set follow each other: `U-V-W`. */
export function phaseOrder({ names, sets }: PhaseSystem): string {
  return names.slice(0, names.length / sets).join('-');
}

/** Name of the star point a phase ends in: N; 1N or 2N for two sets with a star point each. */
export function starPoint(phases: PhaseSystem, phase: number, joined: boolean): string {
  if (phases.sets === 1 || joined) return 'N';
  return phase < phases.names.length / phases.sets ? '1N' : '2N';
}

/** Where the paths of a phase end: the star point, or the other terminal in delta and open windings. */
export function pathEnd(phases: PhaseSystem, phase: number, connection: PhaseConnection): string {
  return connection === 'star' || connection === 'star-joined'
    ? starPoint(phases, phase, connection === 'star-joined')
    : otherTerminal(phases.names[phase]!);
}
