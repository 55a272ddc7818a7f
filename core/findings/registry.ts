import type { Facts } from '../facts/facts.ts';
import type { Steps } from '../figures/steps.ts';
import { type Finding, type FindingKind, finding, findingKind, type Range } from '../language/finding.ts';
import { languageKinds } from '../language/textFindingKinds.ts';
import { varyKinds } from '../language/varyFindingKinds.ts';
import { windingKinds } from '../winding/layoutFindingKinds.ts';
import { pathKinds } from '../winding/paths/pathFindingKinds.ts';
import { acceptanceKinds } from './acceptance/findingKinds.ts';
import { connectionKinds } from './connection/findingKinds.ts';
import { copperKinds } from './copper/findingKinds.ts';
import { limitFailed, limitNotComputable } from './limits.ts';
import { operationKinds } from './operation/findingKinds.ts';
import {
  leanDiffersInSlot,
  phaseSidesUnequal,
  phasesUnbalanced,
  type Rule,
  rules,
  slotLayersMissing,
  unbalancedPull,
} from './rules.ts';
import { notesLong, releasedUnwritten } from './sheetRules.ts';
import { spaceKinds } from './space/findingKinds.ts';

export const checkCrashed = findingKind<{ check: string; problem: string }>({
  code: 'check-crashed',
  severity: 'error',
  help: 'A fault in Slotwright itself; the other findings stand. Please report it with the file.',
  message: ({ check, problem }) => `The check '${check}' failed (${problem}). The other findings stand.`,
});

/** Every kind of finding there is; codes are unique. */
export const findingKinds: readonly Pick<FindingKind<unknown>, 'code' | 'severity' | 'help' | 'graded'>[] = [
  ...languageKinds,
  ...varyKinds,
  ...windingKinds,
  ...pathKinds,
  ...connectionKinds,
  ...copperKinds,
  ...spaceKinds,
  ...operationKinds,
  phasesUnbalanced,
  phaseSidesUnequal,
  unbalancedPull,
  leanDiffersInSlot,
  slotLayersMissing,
  limitFailed,
  limitNotComputable,
  ...acceptanceKinds,
  checkCrashed,
  notesLong,
  releasedUnwritten,
];

const warned = new Set(
  findingKinds
    .filter(({ severity, graded = [] }) => severity === 'warning' || graded.includes('warning'))
    .map(({ code }) => code),
);

/** What findings of a code mean; empty for a code that there is none of. */
export function helpOf(code: string): string {
  return findingKinds.find((kind) => kind.code === code)?.help ?? '';
}

/** Whether findings of this code can be warnings. */
export function maybeWarning(code: string): boolean {
  return warned.has(code);
}

/** Runs all checks, one a step; one that throws becomes a finding and does not stop the others. */
export function* ruleSteps(facts: Facts, checks: readonly Rule[] = rules): Steps<readonly Finding[]> {
  const found: Finding[] = [];
  for (const { name, check } of checks) {
    found.push(...guarded(name, facts.specification.machine!.range, () => check(facts)));
    yield;
  }
  return found;
}

/** What `compute` finds, or the finding that it failed. */
function guarded(name: string, range: Range, compute: () => readonly Finding[]): readonly Finding[] {
  try {
    return compute();
  } catch (problem) {
    return [crashFinding(name, range, problem)];
  }
}

/** The finding that a check failed. */
export function crashFinding(check: string, range: Range, problem: unknown): Finding {
  return finding(checkCrashed, range, {
    check,
    problem: problem instanceof Error ? problem.message : String(problem),
  });
}
