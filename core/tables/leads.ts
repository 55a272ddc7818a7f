import type { ConnectionFacts } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import { layerLetter } from '../language/layerLetters.ts';
import { deltaJoins, joinedWith } from '../winding/joints/deltaJoins.ts';
import type { PathEnd } from '../winding/joints/joints.ts';
import { barName } from '../winding/model.ts';
import type { Column } from './column.ts';
import { whose } from './whose.ts';

/** Where a path begins or ends. */
export interface LeadRow extends Omit<PathEnd, 'phase' | 'path'> {
  readonly phase: string;
  /** Number of its path within the phase. */
  readonly path: number;
  /** The terminal that a delta joins it with. */
  readonly joinedWith: string | null;
}

/** The columns of leads, by what they hold. */
export const leadColumn = {
  number: {
    heading: 'number',
    meaning: 'Number of the lead among the joints.',
    align: 'right',
    value: ({ number }) => number,
    subject: ({ number }) => ({ joint: number }),
  },
  terminal: { heading: 'terminal', meaning: 'Terminal or star point.', value: ({ terminal }) => terminal },
  kind: { heading: 'kind', meaning: 'lead or star.', value: ({ kind }) => kind },
  phase: whose.phase,
  path: whose.path,
  end: { heading: 'end', meaning: 'Which end of the path: start or finish.', value: ({ end }) => end },
  bar: { heading: 'bar', meaning: 'Its bar.', align: 'right', value: ({ bar }) => barName(bar) },
  slot: { heading: 'slot', meaning: 'Slot of that bar.', value: ({ bar }) => bar.slot },
  layer: { heading: 'layer', meaning: 'Layer of that bar.', value: ({ bar }) => layerLetter(bar.layer) },
  side: whose.side,
  joinedWith: {
    heading: 'joined with',
    meaning: 'In a delta, the terminal it is to be joined with.',
    value: (row) => row.joinedWith,
  },
} as const satisfies Readonly<Record<string, Column<LeadRow>>>;

export const leadColumns: readonly Column<LeadRow>[] = Object.values(leadColumn);

/** Both ends of every path, by number. */
export function leadRows({ winding }: Facts, connection: ConnectionFacts): readonly LeadRow[] {
  const joins = connection.connection === 'delta' ? deltaJoins(winding.phases) : [];
  return connection.joints().ends.map((end) => ({
    ...end,
    phase: winding.phases.names[end.phase]!,
    path: connection.paths[end.path]!.number,
    joinedWith: joinedWith(joins, end.terminal),
  }));
}
