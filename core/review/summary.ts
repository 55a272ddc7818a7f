import { isOne, listed, plural } from '../language/lists.ts';
import { limitChanges } from './limits.ts';
import { isTelling } from './scales.ts';
import type { ComparedLimit, Comparison, FileStatus } from './schema.ts';

/** What changed, in a few sentences of our own words; no user text is in them. */
export function summaryText(comparison: Comparison, status: FileStatus = 'changed'): string {
  return [headline(comparison, status), ...details(comparison, status)].join(' ');
}

/** The first of these sentences. */
export function headline(comparison: Comparison, status: FileStatus): string {
  if (status === 'added') return 'New winding.';
  if (status === 'deleted') return 'Winding deleted.';
  const { equal, rotation, rewritten, statements, notes } = comparison;
  const written = rewritten.length === 0 ? '' : `, with ${listed(rewritten)} written differently`;
  if (rotation !== null) {
    const same = equal ? 'The same winding' : 'The same bars';
    return `${same}, renumbered: slot 1 is now slot ${rotation + 1}, and so on round the bore${written}.`;
  }
  const unwound = notes.some((note) => note.includes('yields no winding'));
  if (unwound) return equal ? 'The same statements, which yield no winding.' : 'Not comparable as windings.';
  if (equal && statements.length === 0) return `The same winding${written}.`;
  if (equal) return `The same bars, paths and joints${written}.`;
  return 'The winding changed.';
}

/** The others. */
export function details(comparison: Comparison, status: FileStatus): readonly string[] {
  const { bars, joints, shapes, numbers, findings, accepted, limits, errors, warnings } = comparison;
  const sentences: string[] = [];
  if (status === 'changed' || status === 'renamed') {
    const parts = [
      count(comparison.statements.length, 'statement'),
      count(bars.length, 'bar place'),
      count(joints.added.length, 'joint', 'added'),
      count(joints.removed.length, 'joint', 'removed'),
      count(shapes.joints.added.length + shapes.bars.added.length, 'new shape'),
    ].filter((part) => part !== '');
    if (parts.length > 0) sentences.push(`${sentenceCase(listed(parts))}.`);
    const better = numbers.filter((number) => number.better === true).length;
    const worse = numbers.filter((number) => number.better === false).length;
    const telling = numbers.filter(isTelling).length;
    if (telling > 0) sentences.push(`${plural(telling, 'number')} moved: ${better} better, ${worse} worse.`);
    else if (numbers.length > 0) sentences.push(`${plural(numbers.length, 'number')} hardly moved.`);
  }
  const changes = limitChangesText(limits);
  if (changes !== '') sentences.push(changes);
  const failing = limits.filter(({ limit, holds }) => limit !== null && holds !== true);
  const lost = failing.filter(({ heldBefore }) => heldBefore === true).length;
  const asked = limits.filter(({ limit }) => limit !== null).length;
  if (asked > 0 && status !== 'deleted')
    sentences.push(
      failing.length === 0
        ? `${asked === 1 ? 'The limit holds' : asked === 2 ? 'Both limits hold' : `All ${asked} limits hold`}.`
        : `${failing.length} of ${plural(asked, 'limit')} ${failing.length === 1 ? 'fails' : 'fail'}${lost > 0 ? ` (${lost} held before)` : ''}.`,
    );
  const fresh = findings.new.length;
  if (status === 'added' && fresh > 0) sentences.push(`${plural(fresh, 'finding')}.`);
  else if (status !== 'deleted' && fresh + findings.gone.length > 0)
    sentences.push(`${plural(fresh, 'new finding')}, ${findings.gone.length} gone.`);
  if (status !== 'deleted' && accepted.new.length + accepted.gone.length > 0)
    sentences.push(acceptedText(accepted));
  if (errors.new > 0)
    sentences.push(`${plural(errors.new, 'error')} now${errors.new === errors.old ? ', as before' : ''}.`);
  else if (errors.old > 0 && status !== 'deleted') sentences.push('No errors any more.');
  if (warnings.new > warnings.old && status === 'added')
    sentences.push(`${plural(warnings.new, 'warning')}.`);
  return sentences;
}

/** `1 limit loosened and 2 limits dropped.`; what asks for less stands first. Empty where all ask for the same. */
export function limitChangesText(limits: readonly ComparedLimit[]): string {
  const counts = limitChanges(limits);
  const parts = [
    count(counts.loosened, 'limit', 'loosened'),
    count(counts.dropped, 'limit', 'dropped'),
    count(counts.tightened, 'limit', 'tightened'),
    counts.new === 0 ? '' : plural(counts.new, 'new limit'),
  ].filter((part) => part !== '');
  return parts.length === 0 ? '' : `${listed(parts)}.`;
}

/** `2 codes of warnings are newly accepted, 1 no more.` */
export function acceptedText({ new: fresh, gone }: Comparison['accepted']): string {
  const newly =
    fresh.length === 0
      ? ''
      : `${plural(fresh.length, 'kind')} of warning ${isOne(fresh.length) ? 'is' : 'are'} newly accepted`;
  const left =
    gone.length === 0
      ? ''
      : newly === ''
        ? `${plural(gone.length, 'kind')} of warning ${isOne(gone.length) ? 'is' : 'are'} accepted no more`
        : `, ${gone.length} no more`;
  return `${newly}${left}.`;
}

function count(number: number, word: string, what = 'changed'): string {
  if (number === 0) return '';
  return word === 'new shape' ? plural(number, word) : `${plural(number, word)} ${what}`;
}

function sentenceCase(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
