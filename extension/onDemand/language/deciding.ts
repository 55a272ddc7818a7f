import type { CheckedText } from '../../../core/findings/checkedText.ts';
import type { Range } from '../../../core/language/finding.ts';
import type { Statement } from '../../../core/language/text/document.ts';
import { keepingPaths, measuredFrom, trial } from './tries.ts';

/** For every statement that decides a limit: the limits, by their index, that are another without it. */
export type Deciding = ReadonlyMap<Statement, readonly number[]>;

const known = new WeakMap<CheckedText, Promise<Deciding>>();

/**
 * Which statements decide which limits: each statement is left out once, and the limits are computed without it. Done
 * once for each text, in steps; `pause` comes between them, and ends it where it throws.
 */
export function decidingStatements(study: CheckedText, pause: () => Promise<void>): Promise<Deciding> {
  const earlier = known.get(study);
  if (earlier) return earlier;
  const finding = findDeciding(study, pause);
  known.set(study, finding);
  // What was given up is begun anew when it is asked for again.
  finding.catch(() => known.delete(study));
  return finding;
}

const deciding: ReadonlySet<string> = new Set([
  'machine',
  'slot',
  'bar',
  'insulation',
  'layout',
  'connect',
  'duty',
]);

async function findDeciding(study: CheckedText, pause: () => Promise<void>): Promise<Deciding> {
  const { document, limits } = study;
  const connector = keepingPaths(study);
  const before = limits.map(({ actual }) => actual);
  const tried = trial(document.text, connector).limits;
  // What a try leaves out because it takes too long.
  const missing = [...limits.keys()].filter((index) => tried[index]?.actual === null);
  const needed = measuredFrom(document.text, connector, missing);
  const measured = missing.filter((_, at) => needed[at] !== '');
  const from = needed.filter((asked) => asked !== '');
  const found = new Map<Statement, readonly number[]>();
  if (limits.length === 0) return found;
  for (const block of document.blocks) {
    if (!deciding.has(block.name)) continue;
    for (const statement of block.statements) {
      await pause();
      const text = without(document.text, statement.range);
      const after = trial(text, connector).limits;
      const others = measured.length === 0 ? [] : measuredFrom(text, connector, measured);
      const moved = before.flatMap((value, index) => {
        const at = measured.indexOf(index);
        const moves = at < 0 ? differs(value, after[index]?.actual ?? null) : from[at] !== others[at];
        return moves ? [index] : [];
      });
      if (moved.length > 0) found.set(statement, moved);
    }
  }
  return found;
}

function without(text: string, { start, end }: Range): string {
  return `${text.slice(0, start)}${text.slice(end)}`;
}

/** Whether a value moved; one that cannot be computed now decides nothing. */
function differs(before: number | null, after: number | null): boolean {
  if (before === null || after === null) return before !== null;
  return Math.abs(before - after) > 1e-9 * Math.max(Math.abs(before), Math.abs(after));
}
