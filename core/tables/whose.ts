import type { EndSide } from '../winding/model.ts';
import type { Column } from './column.ts';

/** Whose a row is, and where: columns that several tables have. */
export const whose = {
  phase: { heading: 'phase', meaning: 'Name of the phase.', value: ({ phase }) => phase },
  path: { heading: 'path', meaning: 'Number of its path within the phase.', value: ({ path }) => path },
  side: { heading: 'side', meaning: 'Side of the stack: connection or far.', value: ({ side }) => side },
} as const satisfies {
  readonly phase: Column<{ readonly phase: string }>;
  readonly path: Column<{ readonly path: number }>;
  readonly side: Column<{ readonly side: EndSide }>;
};
