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

/**
 * The candidate most like the written word, or undefined where none is near enough to be meant. `taken` are
 * words that cannot stand there any more: where one of them is nearer, it was meant, and nothing is offered.
 */
export function nearestWord(
  written: string,
  candidates: Iterable<string>,
  taken: Iterable<string> = [],
): string | undefined {
  if (written.length > 40) return undefined;
  const limit = Math.max(1, Math.floor(written.length / 3));
  const nearest = nearestWithin(written, candidates, limit);
  const meant = nearestWithin(written, taken, (nearest?.distance ?? limit + 1) - 1);
  return meant === null ? nearest?.word : undefined;
}

interface Near {
  readonly word: string;
  readonly distance: number;
}

function nearestWithin(written: string, candidates: Iterable<string>, limit: number): Near | null {
  let best: Near | null = null;
  for (const word of candidates) {
    // The word itself, where it cannot stand, is no advice.
    if (word === written) continue;
    const most = best === null ? limit : best.distance - 1;
    if (most < 0) break;
    const distance = editDistance(written.toLowerCase(), word.toLowerCase(), most);
    if (distance <= most) best = { word, distance };
  }
  return best;
}
