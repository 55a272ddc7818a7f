import { toldMessage } from '../../../core/findings/acceptance/acceptance.ts';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import {
  countedIn,
  isUnderWay,
  type LimitResult,
  limitName,
  limitValue,
  marginShare,
} from '../../../core/findings/limits.ts';
import { signedPercent } from '../../../core/language/numbers.ts';
import type { ShownFinding, ShownLimit } from '../../protocol/shownParts.ts';
import { findingWords } from '../../wording.ts';
import { findingPlaces } from '../places.ts';

const severities = ['error', 'warning', 'info'] as const;

/** Everything found in a text, errors first, in the order of the text. No lines: what is written above changes none of it. */
export function shownFindings({ findings }: CheckedText): readonly ShownFinding[] {
  const places = findingPlaces(findings);
  const shown = findings.map((finding, index) => ({
    severity: finding.severity,
    message: toldMessage(findingWords(finding), finding.accepted?.reason),
    place: places[index]!,
  }));
  return severities.flatMap((severity) => shown.filter((each) => each.severity === severity));
}

const states = ['fails', 'unknown', 'waits', 'holds'] as const;

/** A limit as it is shown, and what is in hand. */
interface LimitLine {
  readonly limit: LimitResult;
  readonly share: number | null;
  readonly line: ShownLimit;
}

/** The limits of a text: failed ones first, then what cannot be computed, what is being computed, then by what is in hand. */
export function shownLimits({ limits }: CheckedText): readonly ShownLimit[] {
  return inOrder(limits.map(limitLine));
}

/** The same for one text after another: what did not change stays itself. */
export function createShownLimits(): typeof shownLimits {
  let lines: readonly LimitLine[] = [];
  let shown: readonly ShownLimit[] = [];
  return ({ limits }) => {
    const next = limits.map((limit, index) => {
      const known = lines[index];
      return known && isShownAlike(known.limit, limit) ? known : limitLine(limit, index);
    });
    if (next.length !== lines.length || next.some((line, index) => line !== lines[index]))
      shown = inOrder(next);
    lines = next;
    return shown;
  };
}

function limitLine(limit: LimitResult, index: number): LimitLine {
  const share = marginShare(limit);
  return {
    limit,
    share,
    line: {
      name: limitName(limit),
      limit: `${limit.relation} ${limit.source.written}${countedIn(limit)}`,
      value: limit.actual === null ? '' : `${limitValue(limit, limit.actual)}${countedIn(limit)}`,
      margin: marginWords(share),
      state: stateOf(limit),
      place: `limit ${index + 1}`,
    },
  };
}

/** Whether two limits of the same place among others are told in the same words. */
function isShownAlike(before: LimitResult, limit: LimitResult): boolean {
  const [own, other] = [before.source, limit.source];
  return (
    before.actual === limit.actual &&
    before.limit === limit.limit &&
    before.met === limit.met &&
    before.reason === limit.reason &&
    before.relation === limit.relation &&
    own.entry === other.entry &&
    own.written === other.written &&
    own.point === other.point &&
    own.scope?.kind === other.scope?.kind &&
    own.scope?.number === other.scope?.number
  );
}

function inOrder(lines: readonly LimitLine[]): readonly ShownLimit[] {
  return states.flatMap((state) =>
    lines
      .filter(({ line }) => line.state === state)
      .sort((one, other) => (one.share ?? Infinity) - (other.share ?? Infinity) || 0)
      .map(({ line }) => line),
  );
}

function stateOf(limit: LimitResult): ShownLimit['state'] {
  if (limit.met === null) return isUnderWay(limit) ? 'waits' : 'unknown';
  return limit.met ? 'holds' : 'fails';
}

function marginWords(share: number | null): string {
  return share === null ? '' : signedPercent(share);
}
