import { type Figure, missing } from '../figures/figure.ts';
import { type BentBar, bentBars } from '../space/cad/bentBars.ts';
import type { Space } from '../space/space.ts';
import type { Facts } from './facts.ts';
import { pathsNeed } from './unjoined.ts';

/** The kinds of bars that the shop makes, and the space they stand in; or what they need. */
export function shopBars(facts: Facts): {
  readonly space: Figure<Space>;
  readonly bars: Figure<readonly BentBar[]>;
} {
  const { connection } = facts;
  const result = facts.space();
  if (connection.kind !== 'connected' || result === null) {
    const none = missing(connection.kind === 'connected' ? 'paths through every bar' : pathsNeed(connection));
    return { space: none, bars: none };
  }
  return { space: result.space, bars: bentBars(result.space, connection.facts.barShapes()) };
}
