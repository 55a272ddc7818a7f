import type { Facts } from '../facts/facts.ts';
import { limitMargin } from '../facts/limitMargin.ts';
import { type NotSteered, whyNotSteered } from '../facts/limitSteering.ts';
import { type Figure, orNull } from '../figures/figure.ts';
import { finished, type Steps } from '../figures/steps.ts';
import { underWay } from '../figures/work.ts';
import { type Finding, finding, findingKind, type Range } from '../language/finding.ts';
import { fixed, percent, significant } from '../language/numbers.ts';
import type { RequiredLimit, Specification } from '../language/specification/specification.ts';
import { visible } from '../language/text/visible.ts';
import { unitNamed, unitNames } from '../language/vocabulary/units.ts';
import { needsInWords } from './needWords.ts';
import { limitOrder, quantityValue } from './quantities.ts';

/** One acceptance limit and how the winding stands to it. */
export interface LimitResult {
  readonly quantity: string;
  /** Of a quantity that has a value at every order; null for others. */
  readonly harmonic: number | null;
  /** Mechanical, likewise. */
  readonly order: number | null;
  readonly relation: '<=' | '>=';
  /** SI unit, ratios as fractions. */
  readonly limit: number;
  /** In the same unit; null where it cannot be computed. */
  readonly actual: number | null;
  /** Null where the quantity cannot be computed. */
  readonly met: boolean | null;
  /** Why it cannot be computed, where it cannot. */
  readonly reason: string | null;
  readonly source: RequiredLimit;
  readonly range: Range;
}

export const limitFailed = findingKind<{
  what: string;
  actual: string;
  relation: '<=' | '>=';
  limit: string;
  /** Where paths are found: why no others were taken. */
  route: NotSteered | null;
}>({
  code: 'limit-failed',
  severity: 'error',
  help: 'A limit of the require block does not hold. Where paths are found, it is said why no others were taken.',
  message: ({ what, actual, relation, limit, route }) =>
    `${what} is ${actual}; required is ${relationWords(relation)} ${limit}.${route ? ` ${routeWords[route]}` : ''}`,
});

const routeWords: Readonly<Record<NotSteered, string>> = {
  'none-met': 'route met no connection that holds all limits.',
  same: 'Every connection has the same: layout, sizes and load decide it.',
  little:
    'route does not choose by it: connections differ little in it, and layout, sizes and load decide it.',
  more: 'route looks for connections that have little of it, not for those that have much.',
  point: 'route does not choose by points of the duty.',
};

export const limitNotComputable = findingKind<{ what: string; reason: string }>({
  code: 'limit-not-computable',
  severity: 'error',
  help: 'A limit whose quantity cannot be computed from the file fails: a gate never passes by silence.',
  message: ({ what, reason }) => `${what} cannot be computed: ${reason}.`,
});

/** How each limit of the text stands; `facts` is null where the text yields no winding. */
export function evaluateLimits(specification: Specification, facts: Facts | null): readonly LimitResult[] {
  return finished(limitSteps(specification, facts));
}

/** The same, a limit a step. What throws is thrown at who asks, unless `safely` makes a value of it. */
export function* limitSteps(
  specification: Specification,
  facts: Facts | null,
  safely: (compute: () => readonly LimitResult[]) => readonly LimitResult[] = (compute) => compute(),
): Steps<readonly LimitResult[]> {
  const results: LimitResult[] = [];
  for (const limit of specification.limits) {
    results.push(...safely(() => [evaluateLimit(limit, specification, facts)]));
    yield;
  }
  return results;
}

function evaluateLimit(
  { value: limit, statement }: Specification['limits'][number],
  specification: Specification,
  facts: Facts | null,
): LimitResult {
  const found = facts ? quantityValue(limit, facts) : null;
  const actual = found && orNull(found);
  return {
    quantity: limit.entry.word,
    harmonic:
      limit.scope?.kind === 'harmonic' ? limit.scope.number : limit.entry.perOrder && !limit.scope ? 1 : null,
    order:
      facts && limit.entry.perOrder
        ? limitOrder(limit, facts.winding.polePairs)
        : limit.scope?.kind === 'order'
          ? limit.scope.number
          : null,
    relation: limit.relation,
    limit: limit.limit,
    actual,
    met: actual === null ? null : limitMargin(limit, actual) >= 0,
    reason: found ? reasonOf(found) : reasonForNoWinding(specification),
    source: limit,
    range: statement,
  };
}

/** The margin against the size of the limit, as a fraction; null where the limit is 0 or there is no value. */
export function marginShare({ relation, limit, actual }: LimitResult): number | null {
  if (actual === null || limit === 0) return null;
  return limitMargin({ relation, limit }, actual) / Math.abs(limit);
}

function reasonOf(found: Figure<number>): string | null {
  if (found.known) return null;
  return found.needs.length > 0 ? `it needs ${needsInWords(found.needs)}` : (found.reason ?? null);
}

/** What a text lacks that yields no slot table. */
function reasonForNoWinding({ machine, layout, connect, broken }: Specification): string {
  const needs = [
    ...(['slots', 'poles', 'phases'] as const).flatMap((word) =>
      machine?.[word] ? [] : [`machine ${word}`],
    ),
    ...(layout || (connect?.paths.length ?? 0) > 0 ? [] : ['layout or written paths']),
  ];
  // What is written with an error is not missing.
  return needs.length > 0 && !broken.some(({ block }) => block !== 'require' && block !== 'sheet')
    ? `it needs ${needsInWords(needs)}`
    : 'there is no slot table; the other errors say why';
}

/** Findings for limits that fail or cannot be computed; `facts` is null where the text yields no winding. */
export function limitFindings(results: readonly LimitResult[], facts: Facts | null): readonly Finding[] {
  const isFound = facts?.connection.kind === 'connected' && facts.connection.facts.explanation !== null;
  return results.flatMap((result) => {
    const what = limitName(result);
    // What is under way is told once it is there.
    if (isUnderWay(result)) return [];
    if (result.met === null)
      return [finding(limitNotComputable, result.range, { what, reason: result.reason ?? '' })];
    if (result.met) return [];
    const data = {
      what,
      actual: `${limitValue(result, result.actual!)}${countedIn(result)}`,
      relation: result.relation,
      limit: `${result.source.written}${countedIn(result)}`,
      route: isFound ? whyNotSteered(result.source) : null,
    };
    return [finding(limitFailed, result.range, data)];
  });
}

/** Whether what a limit is about is being computed, so that nothing is to be said of it yet. */
export function isUnderWay({ met, reason }: Pick<LimitResult, 'met' | 'reason'>): boolean {
  return met === null && reason === underWay;
}

/** `winding-factor harmonic 5`. */
export function limitName({ source }: LimitResult): string {
  if (source.point !== null) return `${source.entry.word} at "${visible(source.point)}"`;
  return source.scope
    ? `${source.entry.word} ${source.scope.kind} ${significant(source.scope.number, 15)}`
    : source.entry.word;
}

/** What a limit requires, as written: `at most 5 %`. */
export function requiredText({ relation, source }: LimitResult): string {
  return `${relationWords(relation)} ${source.written}`;
}

function relationWords(relation: LimitResult['relation']): string {
  return relation === '<=' ? 'at most' : 'at least';
}

// Counts of the phase that has most of them; findings tell those of all phases.
const aPhase: ReadonlySet<string> = new Set(['special-joints', 'jumpers', 'joint-shapes']);

/** What a limit counts in, behind its value: ` a phase`, or nothing. */
export function countedIn({ quantity }: LimitResult): string {
  return aPhase.has(quantity) ? ' a phase' : '';
}

/** A value of the limit's quantity in the unit the limit is written in, with digits that tell it apart from the limit. */
export function limitValue({ source }: Pick<LimitResult, 'source'>, value: number): string {
  if (value === Number.POSITIVE_INFINITY) return 'no limit';
  const dimension = source.entry.dimension ?? 'none';
  const { limit } = source;
  if (dimension === 'none')
    return Number(fixed(value, 4)) === limit
      ? significant(value, 5, limit)
      : fixed(value, Number.isInteger(value) ? 0 : 4);
  if (dimension === 'ratio')
    return source.written.endsWith('%') ? percent(value, 4, limit) : significant(value, 5, limit);
  const written = source.written.split(' ').slice(1).join(' ') || unitNames(dimension)[0]!;
  const factor = unitNamed(written)?.factor ?? 1;
  return `${significant(value / factor, dimension === 'temperature' ? 4 : 5, limit / factor)} ${written}`;
}
