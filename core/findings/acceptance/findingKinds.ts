import { findingKind } from '../../language/finding.ts';
import { quoted } from '../../language/text/quoted.ts';

export const acceptCodeUnknown = findingKind<{ code: string; suggestion: string | undefined }>({
  code: 'accept-code-unknown',
  severity: 'error',
  help: 'accept names the code of a warning, which stands in brackets behind it; the list of findings has all codes.',
  message: ({ code, suggestion }) =>
    `There is no finding ${quoted(code)}${suggestion === undefined ? '; the code of a warning stands in brackets behind it.' : `; did you mean '${suggestion}'?`}`,
});

export const acceptOfError = findingKind<{
  code: string;
  /** It never is a warning. */
  always: boolean;
}>({
  code: 'accept-of-error',
  severity: 'error',
  help: 'Warnings can be accepted; an error has to be mended.',
  message: ({ code, always }) =>
    `${quoted(code)} ${always ? 'is an error' : 'is an error here, not a warning'}: it has to be mended and cannot be accepted.`,
});

export const acceptUnused = findingKind<{
  code: string;
  /** There are findings of the code, which are told as infos only. */
  info: boolean;
}>({
  code: 'accept-unused',
  severity: 'warning',
  help: 'An accept whose warning does not occur any more would hide the next one; it is taken out.',
  message: ({ code, info }) =>
    info
      ? `${quoted(code)} is told as an info only: there is nothing to accept.`
      : `There is no warning ${quoted(code)} to accept.`,
});

export const acceptRepeated = findingKind<{ code: string }>({
  code: 'accept-repeated',
  severity: 'error',
  help: 'The warnings of a code are accepted once, with one reason.',
  message: ({ code }) => `${quoted(code)} is accepted a second time; the first reason counts.`,
});

/** Every kind that the accepting of warnings reports. */
export const acceptanceKinds = [acceptCodeUnknown, acceptOfError, acceptUnused, acceptRepeated];
