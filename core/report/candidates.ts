import type { Candidate } from '../facts/connection.ts';
import { type Facts, gatherFacts } from '../facts/facts.ts';
import { writtenStatements } from '../winding/paths/writeOut.ts';
import type { Report } from './schema.ts';

type ReportedCandidate = NonNullable<Report['routing']>['candidates'][number];

/** The chosen connection and others to choose from, with what each costs; empty for written paths. */
export function reportedCandidates(facts: Facts): readonly ReportedCandidate[] {
  const { connection } = facts;
  if (connection.kind !== 'connected') return [];
  return connection.facts.candidates().map((candidate) => reportedCandidate(facts, candidate));
}

function reportedCandidate(facts: Facts, candidate: Candidate): ReportedCandidate {
  const { specification, winding } = facts;
  const own = candidate.facts;
  const counts = own.counts();
  const chosen = facts.connection.kind === 'connected' && facts.connection.facts === own;
  const known = chosen ? facts : gatherFacts(specification, winding, { kind: 'connected', facts: own });
  return {
    pieces: counts.jumpers,
    levels: own.levels().highest,
    jointShapes: counts.specialShapes,
    barShapes: own.barShapes().length,
    legsBentApart: own.legsBentApart(),
    specialJoints: counts.special,
    voltageInSlot: own.gaps()?.inSlot?.value ?? null,
    copperLength: known.copper().length.total,
    terminalWindow: own.terminals().startWindow.angle,
    paths: [...writtenStatements(own.paths, winding.phases, winding.slots)],
  };
}
