import type { Candidate, ConnectionFacts } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import { orNull } from '../figures/figure.ts';
import { finished, type Steps } from '../figures/steps.ts';
import { writtenStatements } from '../winding/paths/writeOut.ts';
import type { Report } from './schema.ts';

/** A connection that may be chosen, with what it costs. */
export type ReportedCandidate = NonNullable<Report['routing']>['candidates'][number];

/** The chosen connection and others to choose from, with what each costs; empty for written paths. */
export function reportedCandidates(facts: Facts): readonly ReportedCandidate[] {
  return finished(reportedCandidateSteps(facts));
}

/** The same, yielding to give way. */
export function* reportedCandidateSteps(facts: Facts): Steps<readonly ReportedCandidate[]> {
  const { connection } = facts;
  if (connection.kind !== 'connected' || !connection.facts.candidates) return [];
  const candidates = yield* connection.facts.candidates();
  const reported: ReportedCandidate[] = [];
  for (const candidate of candidates) {
    reported.push(reportedCandidate(facts, connection.facts, candidate));
    yield;
  }
  return reported;
}

function reportedCandidate(
  facts: Facts,
  chosen: ConnectionFacts,
  { facts: own }: Candidate,
): ReportedCandidate {
  const { winding } = facts;
  const counts = own.counts();
  const known = own === chosen ? facts : facts.connectedBy(own);
  return {
    pieces: counts.jumpers,
    levels: own.levels().highest,
    jointShapes: counts.specialShapes,
    barShapes: own.barShapes().length,
    legsBentApart: own.legsBentApart(),
    specialJoints: counts.special,
    voltageInSlot: own.gaps()?.inSlot?.value ?? null,
    copperLength: orNull(known.copper().length.total),
    terminalWindow: own.terminals().startWindow.angle,
    paths: [...writtenStatements(own.paths, winding.phases, winding.slots)],
  };
}
