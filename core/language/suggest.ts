import type { FindingExtras, Range } from './finding.ts';

/** The quick fix that puts a suggestion in the place of what was written; none without a suggestion. */
export function replacement(range: Range, suggestion: string | undefined): FindingExtras {
  if (suggestion === undefined) return {};
  return { fix: { title: `Replace by '${suggestion}'`, edits: [{ range, text: suggestion }] } };
}

/** Steps (insert, drop, replace, exchange neighbors) from one word to another, counted up to `limit`. */
function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let d = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        d = Math.min(d, beforeLast[j - 2]! + 1);
      row.push(d);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length]!;
}

/** The candidate most like the written word, or undefined where none is near enough to be meant. */
export function nearestWord(written: string, candidates: Iterable<string>): string | undefined {
  const limit = Math.max(1, Math.floor(written.length / 3));
  let best: string | undefined;
  let bestDistance = limit + 1;
  if (written.length > 40) return undefined;
  for (const candidate of candidates) {
    const distance = editDistance(written.toLowerCase(), candidate.toLowerCase(), limit);
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}
