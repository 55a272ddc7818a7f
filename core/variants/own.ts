import { type Evaluator, evaluator } from './evaluate.ts';
import type { Question } from './question.ts';

/**
 * An evaluator of the text as it stands: its one candidate, number 1, has no values of rows and is measured by
 * what the question measures, whatever is kept.
 */
export function ownEvaluator(question: Question): Evaluator {
  return evaluator({ ...question, rows: [], candidates: 1, keeps: [] });
}

/** The verdict on a candidate, by its layout where that decides. */
export function* judged(judge: Evaluator, number: number): ReturnType<Evaluator['byWhole']> {
  return judge.byLayout(number) ?? (yield* judge.byWhole(number));
}
