import { lazy, madeOnce } from '../figures/lazy.ts';
import { kept, type Measurer, measureNow } from '../figures/work.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { Winding } from '../winding/model.ts';
import type { ConnectionFacts, ConnectionState } from './connection.ts';
import { figuresKey, joiningKey, keptOnceMeasured, tableKey } from './kept.ts';
import { type MachineFacts, type MachineProblems, machineFacts } from './machineFacts.ts';
import { type WaveFacts, waveFacts } from './waveFacts.ts';
import { type WindingFacts, windingFacts } from './windingFacts.ts';

/** All that is computed about one winding, each part when first asked for. */
export interface Facts extends Figures, MachineProblems {
  readonly specification: Specification;
  readonly winding: Winding;
  readonly connection: ConnectionState;
  /** The facts of the same winding with its bars joined so. */
  readonly connectedBy: (connection: ConnectionFacts) => Facts;
  /** A drawing of slot table and paths, kept while both stay; `key` is all else that it depends on. */
  readonly drawn: <T>(key: string, draw: () => T) => T;
}

/** What follows from what a text says, wherever it says it. */
interface Figures extends WindingFacts, WaveFacts, MachineFacts {}

/** Facts about a winding; `specification` is what its text says, `connection` how its bars are joined. */
export function gatherFacts(
  specification: Specification,
  winding: Winding,
  connection: ConnectionState,
  measurer: Measurer = measureNow,
): Facts {
  const make = (by: Measurer) => figuresOf(specification, winding, connection, by);
  const joined = lazy(() => joiningKey(winding, connection));
  const figures = keptOnceMeasured(measurer, () => joined() + figuresKey(specification), make);
  return {
    ...figures,
    ...figures.problemsOf(specification),
    specification,
    winding,
    connection,
    connectedBy: (others) =>
      gatherFacts(specification, winding, { kind: 'connected', facts: others }, measurer),
    drawn: (key, draw) => kept(measurer, { kind: 'layout', key: () => `${key} ${joined()}` }, draw),
  };
}

/** The same for all candidates and connections of one winding, whatever their sizes. */
const factsOfWinding = madeOnce((winding: Winding): WindingFacts => windingFacts(winding));

function figuresOf(
  specification: Specification,
  winding: Winding,
  connection: ConnectionState,
  measurer: Measurer,
): Figures {
  const key = () => tableKey(winding);
  const own = kept(measurer, { kind: 'slot-table', key }, () => factsOfWinding(winding));
  const machine = machineFacts({
    specification,
    winding: connection.kind === 'refused' ? { ...winding, parallelPathsRefused: true } : winding,
    connection,
    windingFactor: (order) => own.factorRow(order).winding,
    meanSquareFactor: own.meanSquareFactor,
    differentialLeakage: own.differentialLeakage,
    measurer,
  });
  return { ...own, ...waveFacts(specification, winding, own), ...machine };
}
