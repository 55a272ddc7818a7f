import type { Facts } from '../facts/facts.ts';
import type { PhaseConnection } from '../language/specification/statements.ts';
import { deltaJoins } from '../winding/joints/deltaJoins.ts';
import type { PhaseSystem } from '../winding/model.ts';
import { lineTerminal, otherTerminal } from '../winding/terminals.ts';

/** How the phases are joined: by their paths, else as the text says; null where it does not. */
export function phaseConnectionOf({ connection, specification }: Facts): PhaseConnection | null {
  if (connection.kind === 'connected') return connection.facts.connection;
  return specification.connect?.connections[0]?.value ?? null;
}

/** Two terminals joined, or a pair to measure between: `U2–V1`. */
export function pairWords(from: string, to: string): string {
  return `${from}\u2013${to}`;
}

/** The joins of a delta in words: `U2–V1, V2–W1, W2–U1`. */
export function joinsWords(phases: PhaseSystem): string {
  return deltaJoins(phases)
    .map(({ from, to }) => pairWords(from, to))
    .join(', ');
}

/** Which ends are what, for the conventions; N only where there is a star point. */
export function terminalWords(phases: PhaseSystem, connection: PhaseConnection | null): string {
  const phase = phases.names[0]!;
  const sets = phases.sets > 1 ? ' The number before the letter tells the separate sets apart.' : '';
  const ends = `${lineTerminal(phase)} begins and ${otherTerminal(phase)} ends phase ${phase}`;
  const rest: Readonly<Record<PhaseConnection, string>> = {
    star:
      phases.sets > 1
        ? `${lineTerminal(phase)} begins phase ${phase}, 1N and 2N are the star points of the two sets`
        : `${lineTerminal(phase)} begins phase ${phase}, N is the star point`,
    'star-joined': `${lineTerminal(phase)} begins phase ${phase}, N is the star point of both sets`,
    delta: `${ends}; the delta joins ${joinsWords(phases)}`,
    open: `${ends}; both ends of every phase are led out`,
  };
  return `Terminals after IEC 60034-8: ${connection === null ? ends : rest[connection]}.${sets}`;
}

/** Heading of the list of path ends. */
export function endsHeading(connection: PhaseConnection): string {
  const words: Readonly<Record<PhaseConnection, string>> = {
    star: 'Leads and star point',
    'star-joined': 'Leads and star point',
    delta: 'Leads and delta joins',
    open: 'Leads',
  };
  return words[connection];
}
