import { limitMargin } from '../../../core/facts/limitMargin.ts';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import type { LimitResult } from '../../../core/findings/limits.ts';
import type { Statement, Value } from '../../../core/language/text/document.ts';
import { decidingStatements } from './deciding.ts';
import { stepped } from './oneStep.ts';
import { describesWinding, fullTrial, type Trial } from './tries.ts';

type Quantity = Extract<Value, { readonly kind: 'quantity' }>;

/** A change of one value that meets a limit. */
export interface Answer {
  readonly statement: Statement;
  readonly value: Quantity;
  /** What is written in place of the value. */
  readonly written: string;
  /** All limits of the text with it. */
  readonly limits: readonly LimitResult[];
  /** Whether the paths that are asked for cannot be found with it. */
  readonly unjoined: boolean;
  /** How far the value goes, relative to what it is. */
  readonly change: number;
}

/** Steps of a value's last digit that are tried at most, and whole numbers. */
const mostSteps = 64;
const mostCounts = 6;

/**
 * Which single values of the text, changed, would meet one of its limits: those of the statements that decide it, by
 * as few steps of their last digit as it takes, and by whole numbers as far as they describe a winding. Those that
 * can be connected come first, of these those that fail no other limit, then those that change least. `pause` comes
 * between tries, and ends it where it throws.
 */
export async function meetingChanges(
  study: CheckedText,
  index: number,
  pause: () => Promise<void>,
): Promise<readonly Answer[]> {
  const deciding = await decidingStatements(study, pause);
  const now = await fullTrial(study, study.text, pause);
  const answers: Answer[] = [];
  for (const [statement, moved] of deciding) {
    if (!moved.includes(index)) continue;
    for (const value of statement.values)
      if (value.kind === 'quantity')
        for (const by of [1, -1] as const) {
          const answer = await along({ study, index, now, pause }, statement, value, by);
          if (answer) answers.push(answer);
        }
  }
  const failing = ({ limits }: Answer) => limits.filter(({ met }) => met !== true).length;
  return answers.sort(
    (a, b) => Number(a.unjoined) - Number(b.unjoined) || failing(a) - failing(b) || a.change - b.change,
  );
}

interface Search {
  readonly study: CheckedText;
  readonly index: number;
  readonly now: Trial;
  readonly pause: () => Promise<void>;
}

/** The fewest steps of a value one way that meet the limit; null where it moves away from it, or none meets it. */
async function along(
  { study, index, now, pause }: Search,
  statement: Statement,
  value: Quantity,
  by: 1 | -1,
): Promise<Answer | null> {
  const isCount = value.dimension === 'none' && /^[+-]?\d+$/.test(value.written);
  const tries = new Map<number, Pick<Answer, 'written' | 'limits' | 'unjoined'> | null>();
  const tryAt = async (steps: number) => {
    const known = tries.get(steps);
    if (known !== undefined) return known;
    await pause();
    const written = writtenAfter(value.written, isCount, by, steps);
    const text =
      written === null
        ? null
        : study.text.slice(0, value.range.start) + written + study.text.slice(value.range.end);
    if (text === null || !describesWinding(text)) {
      tries.set(steps, null);
      return null;
    }
    const { limits, facts } = await fullTrial(study, text, pause);
    const made = { written: written!, limits, unjoined: facts?.connection.kind === 'refused' };
    tries.set(steps, made);
    return made;
  };
  const met = (found: { readonly limits: readonly LimitResult[] } | null) =>
    found?.limits[index]?.met === true;
  const margin = (limits: readonly LimitResult[]) => marginOf(limits[index]);
  const answer = async (steps: number): Promise<Answer> => {
    const { written, limits, unjoined } = (await tryAt(steps))!;
    const [from, to] = [Number.parseFloat(value.written), Number.parseFloat(written)];
    return {
      statement,
      value,
      written,
      limits,
      unjoined,
      change: Math.abs(to - from) / Math.max(Math.abs(from), 1e-12),
    };
  };
  if (isCount) {
    // Neighbors of a whole number need not be windings, and need not come nearer one by one.
    for (let steps = 1; steps <= mostCounts; steps++) if (met(await tryAt(steps))) return answer(steps);
    return null;
  }
  let before = margin(now.limits);
  let failed = 0;
  for (let steps = 1; steps <= mostSteps; steps *= 2) {
    const found = await tryAt(steps);
    if (met(found)) {
      let least = steps;
      while (least - failed > 1) {
        const middle = (failed + least) >> 1;
        if (met(await tryAt(middle))) least = middle;
        else failed = middle;
      }
      return answer(least);
    }
    const next = found && margin(found.limits);
    // What does not come nearer is given up.
    if (next === null || before === null || next <= before) return null;
    before = next;
    failed = steps;
  }
  return null;
}

/** A value so many steps up or down; null where there is none. */
function writtenAfter(written: string, isCount: boolean, by: 1 | -1, steps: number): string | null {
  let next: string | null = written;
  for (let step = 0; step < steps && next !== null; step++) next = stepped(next, isCount, by);
  return next;
}

/** What is left to a limit, negative where it fails; null where it is not known. */
function marginOf(limit: LimitResult | undefined): number | null {
  return limit === undefined || limit.actual === null ? null : limitMargin(limit, limit.actual);
}
