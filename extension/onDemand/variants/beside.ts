import { symmetryFigures } from '../../../core/analysis/symmetry.ts';
import type { Steps } from '../../../core/figures/steps.ts';
import type { Evaluator } from '../../../core/variants/evaluate.ts';
import { judged } from '../../../core/variants/own.ts';
import type { BesideVariant } from '../../protocol/shownVariants.ts';
import type { Listed } from './listed.ts';
import { missingWords, shownLayout, shownVariant, shownWaves } from './shown.ts';

/** Candidates that the reader has set side by side. */
export interface Beside {
  readonly set: (numbers: readonly number[]) => void;
  /** In the order in which they were set. */
  readonly shown: () => readonly BesideVariant[];
}

export interface BesideHooks {
  /** Does work while the editor goes on; null where it was given up. */
  readonly work: <Result>(steps: Steps<Result>) => Promise<Result | null>;
  /** There is more to show. */
  readonly changed: () => void;
  readonly failed: (problem: unknown) => void;
}

/** None are side by side yet; each that is set is looked at whole. */
export function createBeside(
  judge: Evaluator,
  listed: Listed,
  { work, changed, failed }: BesideHooks,
): Beside {
  const known = new Map<number, BesideVariant>();
  let chosen: readonly number[] = [];

  const look = async (number: number) => {
    const first = atFirst(judge, listed, number);
    known.set(number, first);
    changed();
    const verdict = await work(judged(judge, number));
    const found = verdict === null ? null : await work(judge.look(number));
    if (found === null || !known.has(number)) return;
    listed.limits.set(number, found.limits);
    const figures = verdict?.kind === 'kept' ? verdict.figures : null;
    known.set(number, {
      ...first,
      row:
        figures === null
          ? first.row
          : shownVariant(judge, { number, figures }, first.row?.front ?? false, listed.limitWords(number)),
      limits: found.limits.map((met) => (met === null ? 'unknown' : met ? 'met' : 'failed')),
      missing: missingWords(found),
      waiting: false,
    });
    changed();
  };
  return {
    set: (numbers) => {
      chosen = [...new Set(numbers)].filter((number) => number >= 1 && number <= judge.question.candidates);
      for (const number of known.keys()) if (!chosen.includes(number)) known.delete(number);
      for (const number of chosen) if (!known.has(number)) void look(number).catch(failed);
      changed();
    },
    shown: () => chosen.flatMap((number) => known.get(number) ?? []),
  };
}

/** What is known of a candidate before it is looked at whole. */
function atFirst(judge: Evaluator, listed: Listed, number: number): BesideVariant {
  const facts = judge.layoutFacts(number);
  return {
    number,
    row: listed.row(number),
    layout: facts ? shownLayout(facts.winding, symmetryFigures(facts.winding).rotationSlots) : [],
    waves: facts ? shownWaves(facts) : [],
    limits: [],
    missing: [],
    waiting: true,
  };
}
