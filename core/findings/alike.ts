import { isOne } from '../language/lists.ts';
import { runsOf } from '../language/runs.ts';

/** What is looked at of findings to tell which are alike. */
interface Told {
  readonly code: string;
  readonly severity: string;
  readonly message: string;
}

/** Findings of one kind whose messages differ by positions, numbers and names alone, in one message. */
export interface Alike<Finding> {
  readonly message: string;
  /** In the order of the text; at least one. */
  readonly findings: readonly Finding[];
}

/** Two that are alike are told one by one. */
const fewest = 3;
/** Places that one message lists. */
const mostPlaces = 24;

/**
 * Findings for readers away from the text, where many alike would hide others: each once with its count and what tells
 * them apart, at the place of the first. `reasonOf` is with what a finding is accepted, which keeps it apart.
 */
export function alikeFindings<Finding extends Told>(
  findings: readonly Finding[],
  reasonOf: (finding: Finding) => string | undefined,
): readonly Alike<Finding>[] {
  const groups = new Map<string, Finding[]>();
  for (const finding of findings) {
    const { code, severity, message } = finding;
    const key = JSON.stringify([code, severity, reasonOf(finding), masked(message)]);
    const group = groups.get(key);
    if (group) group.push(finding);
    else groups.set(key, [finding]);
  }
  return [...groups.values()].flatMap((group) =>
    group.length < fewest
      ? group.map((finding) => ({ message: finding.message, findings: [finding] }))
      : [{ message: inOne(group.map(({ message }) => message)), findings: group }],
  );
}

/** A message without what tells it from those alike: numbers, bars as `14a`, phases and other names of one capital. */
function masked(message: string): string {
  return message.replace(/\d+(?:\.\d+)?[a-z]?\b/g, '#').replace(/\b[A-Z]\b/g, '#');
}

/** `4 times: ... 1a–7b; 2a–8b; 3a–9b; 4a–10b.`: what all have at both ends once, between them what each has. */
function inOne(messages: readonly string[]): string {
  const all = messages.map((message) => message.replace(/\.$/, '').split(' '));
  const [first] = all as [string[]];
  const shortest = Math.min(...all.map(({ length }) => length));
  const same = (at: (words: readonly string[]) => string | undefined) =>
    all.every((words) => at(words) === at(first));
  let start = 0;
  while (start < shortest && same((words) => words[start])) start++;
  let end = 0;
  while (start + end < shortest && same((words) => words.at(-1 - end))) end++;
  const between = all.map((words) => words.slice(start, words.length - end).join(' '));
  const places = [...new Set(between)].filter((place) => place !== '');
  const left = places.length - mostPlaces;
  const told = `${places.slice(0, mostPlaces).join('; ')}${left > 0 ? `; and ${left} more` : ''}`;
  const words = [...first.slice(0, start), told, ...first.slice(first.length - end)].filter(
    (word) => word !== '',
  );
  return `${messages.length} times: ${words.join(' ')}.`;
}

/** The lines that findings stand in, in words: `line 7`, `lines 7 to 18`, `lines 7 to 9, 12`. */
export function linesInWords(lines: readonly number[]): string {
  const sorted = [...new Set(lines)].sort((one, other) => one - other);
  const words = runsOf(sorted).map(({ from, to }) => (from === to ? String(from) : `${from} to ${to}`));
  return `${isOne(sorted.length) ? 'line' : 'lines'} ${words.join(', ')}`;
}
