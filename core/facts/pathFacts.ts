import { type AccessOrder, accessOrder } from '../balance/accessOrder.ts';
import {
  layerCounts,
  type OccupationProblem,
  occupationProblems,
  type PathOccupation,
} from '../balance/occupation.ts';
import { type JumperLevels, jumperLevels } from '../balance/pieceLevels.ts';
import { type BarGaps, voltagesBetweenBars } from '../balance/potentials.ts';
import { type CurrentSplit, plainSlot, slotLeakageSplit } from '../balance/slotLeakage.ts';
import { type TerminalPlaces, terminalPlaces } from '../balance/terminals.ts';
import { type JointProblem, jointProblems } from '../balance/validity.ts';
import {
  type HarmonicSpread,
  harmonicSpreads,
  type PhaseBalance,
  type PhasePattern,
  phaseBalances,
  phasePatterns,
} from '../balance/voltages.ts';
import { lazy, madeOnce } from '../figures/lazy.ts';
import type { PhaseConnection } from '../language/specification/statements.ts';
import { type BarForm, type BarShape, barShapes, legsBentApart } from '../winding/joints/bars.ts';
import { regularBends } from '../winding/joints/bends.ts';
import { joinedBars } from '../winding/joints/crossingJoints.ts';
import { type Connections, countJoints, type JointCounts } from '../winding/joints/joints.ts';
import { type TipSpacing, tipSpacing } from '../winding/joints/tips.ts';
import type { EndSide, Path, Winding } from '../winding/model.ts';
import { pathsHash } from '../winding/paths/hash.ts';

/** What a text says of paths beside their bars. */
export interface PathWays {
  readonly connection: PhaseConnection;
  readonly form: BarForm;
  readonly gap: 'inner' | 'outer' | 'both';
}

/** What follows from the paths of a winding, however large its bars are: each part when first asked for. */
export interface PathFacts {
  /** Eight characters that tell these paths from others. */
  readonly hash: () => string;
  readonly joints: () => Connections;
  /** The same where the slot table alone says what is regular. */
  readonly jointsByTable: () => Connections;
  /** Joint counts of the phase that has most special joints. */
  readonly counts: () => JointCounts;
  readonly barShapes: () => readonly BarShape[];
  /** Legs that are bent by another amount than their ring. */
  readonly legsBentApart: () => number;
  readonly jointProblems: () => readonly JointProblem[];
  readonly balances: () => readonly PhaseBalance[];
  readonly spreads: () => readonly HarmonicSpread[];
  readonly patterns: () => readonly PhasePattern[];
  readonly layerCounts: () => readonly PathOccupation[];
  readonly occupation: () => readonly OccupationProblem[];
  /** Current split by slot leakage alone, an upper estimate without the slot's sizes. */
  readonly split: () => CurrentSplit | null;
  readonly gaps: () => BarGaps | null;
  readonly terminals: () => TerminalPlaces;
  readonly levels: () => JumperLevels;
  readonly access: () => AccessOrder;
  readonly tips: (side: EndSide) => TipSpacing | null;
}

/** The facts of paths: the same ones for the same paths of a winding, whatever sizes they are tried with. */
export function pathFacts(winding: Winding, paths: readonly Path[], ways: PathWays): PathFacts {
  const { connection, form, gap } = ways;
  const known = factsOf(winding)(paths);
  const key = `${connection} ${form} ${gap}`;
  const facts = known.get(key) ?? madeFacts(winding, paths, ways);
  known.set(key, facts);
  return facts;
}

const factsOf = madeOnce((_: Winding) => madeOnce((_: readonly Path[]) => new Map<string, PathFacts>()));
const bendsByTable = madeOnce((winding: Winding) => regularBends(winding));

function madeFacts(winding: Winding, paths: readonly Path[], { connection, form, gap }: PathWays): PathFacts {
  const joints = lazy(() => joinedBars(winding, paths, form));
  const tips = {
    connection: lazy(() => tipSpacing(winding, joints(), 'connection')),
    far: lazy(() => tipSpacing(winding, joints(), 'far')),
  };
  const reference = connection === 'delta' || connection === 'open' ? connection : 'star';
  return {
    hash: lazy(() => pathsHash(paths)),
    joints,
    jointsByTable: lazy(() => {
      const bends = bendsByTable(winding);
      const same = JSON.stringify(bends) === JSON.stringify(joints().bends);
      return same ? joints() : joinedBars(winding, paths, form, bends);
    }),
    counts: lazy(() => worstCounts(winding, joints())),
    barShapes: lazy(() => barShapes(paths, joints(), form)),
    legsBentApart: lazy(() => (form === 'hairpin' ? legsBentApart(joints()) : 0)),
    jointProblems: lazy(() => jointProblems(winding, joints())),
    balances: lazy(() => phaseBalances(winding, paths)),
    spreads: lazy(() => harmonicSpreads(winding, paths)),
    patterns: lazy(() => phasePatterns(winding, paths)),
    layerCounts: lazy(() => layerCounts(winding, paths)),
    occupation: lazy(() => occupationProblems(winding, paths)),
    split: lazy(() => slotLeakageSplit(winding, paths, plainSlot(winding, gap))),
    gaps: lazy(() => voltagesBetweenBars(winding, paths, reference)),
    terminals: lazy(() => terminalPlaces(winding, paths)),
    levels: lazy(() => jumperLevels(winding, joints())),
    access: lazy(() => accessOrder(winding, joints())),
    tips: (side) => tips[side](),
  };
}

/** The counts of the phase with most jumpers, then special joints. */
function worstCounts(winding: Winding, { joints }: Connections): JointCounts {
  const counts = winding.phases.names.map((_, phase) =>
    countJoints(joints.filter((joint) => joint.phase === phase)),
  );
  return counts.reduce((a, b) =>
    b.jumpers > a.jumpers || (b.jumpers === a.jumpers && b.special > a.special) ? b : a,
  );
}
