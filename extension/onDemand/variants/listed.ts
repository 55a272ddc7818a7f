import type { Collection, Kept } from '../../../core/variants/collect.ts';
import type { Evaluator } from '../../../core/variants/evaluate.ts';
import type { Question } from '../../../core/variants/question.ts';
import type { ShownQuestion, ShownVariant } from '../../protocol/shownVariants.ts';
import { l10n } from '../../wording.ts';
import { shownVariant } from './shown.ts';

/** Rows beside the front, and most rows in all. */
export const mostBest = 200;
const mostRows = 400;

/** The best of the candidates and the front, as rows. */
export interface Listed {
  /** As they stand by now; what is not listed any more is forgotten. */
  readonly rows: () => readonly ShownVariant[];
  /** The row of a candidate; null where it is not listed. */
  readonly row: (number: number) => ShownVariant | null;
  /** The listed candidate that has the values of this row; 0 for none. */
  readonly numberWith: (row: ShownVariant) => number;
  /** How many limits a candidate meets, in words; empty where that is not known. */
  readonly limitWords: (number: number) => string;
  /** Which limits of the question each candidate meets, as far as they were looked at. */
  readonly limits: Map<number, readonly (boolean | null)[]>;
}

/** The rows of what is collected for a question. */
export function createListed(
  question: Question,
  asked: ShownQuestion,
  judge: Evaluator,
  collected: Collection,
): Listed {
  const limits = new Map<number, readonly (boolean | null)[]>();
  const rows = new Map<number, ShownVariant>();
  // Where limits are kept, all that is kept meets all of them.
  const keptLimits = question.keeps.includes(null) ? asked.limits.map(() => true) : undefined;
  const valueCount = asked.columns.filter(({ kind }) => kind === 'value').length;

  const limitWords = (number: number): string => {
    const found = keptLimits ?? limits.get(number);
    return found === undefined || asked.limits.length === 0 ? '' : metWords(found);
  };
  const rowOf = (candidate: Kept, front: boolean): ShownVariant => {
    const words = limitWords(candidate.number);
    const known = rows.get(candidate.number);
    if (known && known.front === front && known.limits === words) return known;
    const made = known ? { ...known, front, limits: words } : shownVariant(judge, candidate, front, words);
    rows.set(candidate.number, made);
    return made;
  };
  return {
    rows: () => {
      const front = collected.front() ?? [];
      const inFront = new Set(front.map(({ number }) => number));
      const best = collected.best();
      const has = new Set(best.map(({ number }) => number));
      const behind = front.filter(({ number }) => !has.has(number));
      const all = [...best, ...behind].slice(0, mostRows);
      const kept = new Set(all.map(({ number }) => number));
      for (const number of rows.keys()) if (!kept.has(number)) rows.delete(number);
      return all.map((candidate) => rowOf(candidate, inFront.has(candidate.number)));
    },
    row: (number) => rows.get(number) ?? null,
    numberWith: ({ amounts, texts }) => {
      const isSame = (row: ShownVariant) =>
        Array.from({ length: valueCount }, (_, at) => at).every((at) =>
          amounts[at] == null ? texts[at] === row.texts[at] : amounts[at] === row.amounts[at],
        );
      return [...rows.values()].find(isSame)?.number ?? 0;
    },
    limitWords,
    limits,
  };
}

/** How many limits are met, in words. */
export function metWords(limits: readonly (boolean | null)[]): string {
  return l10n.t('{0} of {1}', limits.filter((met) => met === true).length, limits.length);
}
