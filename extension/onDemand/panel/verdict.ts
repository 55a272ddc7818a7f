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

/** The limits of a text: failed ones first, then what cannot be computed, what is being computed, then by what is in hand. */
export function shownLimits({ limits }: CheckedText): readonly ShownLimit[] {
  const shown = limits.map((limit, index) => ({
    share: marginShare(limit),
    line: {
      name: limitName(limit),
      limit: `${limit.relation} ${limit.source.written}${countedIn(limit)}`,
      value: limit.actual === null ? '' : `${limitValue(limit, limit.actual)}${countedIn(limit)}`,
      margin: marginWords(marginShare(limit)),
      state: stateOf(limit),
      place: `limit ${index + 1}`,
    },
  }));
  return states.flatMap((state) =>
    shown
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
