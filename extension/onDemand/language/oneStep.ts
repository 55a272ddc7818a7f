import type { Facts } from '../../../core/facts/facts.ts';
import { orNull } from '../../../core/figures/figure.ts';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { countedIn, type LimitResult, limitName, limitValue } from '../../../core/findings/limits.ts';
import { quantityValue } from '../../../core/findings/quantities.ts';
import { fixed } from '../../../core/language/numbers.ts';
import type { Statement, Value } from '../../../core/language/text/document.ts';
import { requireWords } from '../../../core/language/vocabulary/blocks/limits.ts';
import type { VocabularyEntry } from '../../../core/language/vocabulary/vocabulary.ts';
import { valueText } from '../../../core/review/words.ts';
import { l10n } from '../../wording.ts';
import { describesWinding, fullTrial, type Trial } from './tries.ts';

type Quantity = Extract<Value, { readonly kind: 'quantity' }>;

/** Counts are tried this far, for the next that describes a winding. */
const mostCounts = 24;
/** Figures told; limits come first. */
const mostRows = 8;

/** The number of a value as written, one step up or down; null where there is none. */
export function stepped(written: string, isCount: boolean, by: 1 | -1): string | null {
  const parts = /^([+-]?)(\d+)(?:\.(\d+))?(?![\d.eE])/.exec(written);
  if (!parts) return null;
  const [number, sign = '', whole = '', fraction = ''] = parts;
  const value = Number(number);
  const step = isCount ? 1 : lastDigit(whole, fraction, Math.abs(value));
  const next = value + by * step;
  const digits = fraction.length;
  const text = fixed(next, Math.max(digits, step < 1 ? Math.round(-Math.log10(step)) : 0));
  if (Number(text) === 0 || (sign === '' && next < 0)) return null;
  return `${sign === '+' && next > 0 ? '+' : ''}${text}${written.slice(number.length)}`;
}

/** One of the last digit that counts; of round numbers one of the largest digit that is at most a tenth. */
function lastDigit(whole: string, fraction: string, value: number): number {
  if (fraction !== '') return 10 ** -fraction.length;
  const zeros = /0*$/.exec(whole)?.[0].length ?? 0;
  let step = 10 ** zeros;
  while (step > 1 && step > value / 10) step /= 10;
  return step;
}

/** A text with the value one step up or down that still describes a winding, and how the value reads then. */
function steppedText(
  text: string,
  value: Quantity,
  by: 1 | -1,
): { readonly text: string; readonly written: string } | null {
  const isCount = value.dimension === 'none' && /^[+-]?\d+$/.test(value.written);
  let written: string | null = value.written;
  for (let count = 0; count < (isCount ? mostCounts : 1); count++) {
    written = stepped(written, isCount, by);
    if (written === null) return null;
    const next = `${text.slice(0, value.range.start)}${written}${text.slice(value.range.end)}`;
    if (describesWinding(next)) return { text: next, written };
  }
  return null;
}

/** A figure before and after a step, as text; null where it cannot be computed. */
interface Row {
  readonly name: string;
  readonly values: readonly (string | null)[];
}

/**
 * What one step less and one step more of a statement's number would give, as lines of Markdown: all limits and figures
 * that move, each from a study of the changed text. Empty where nothing moves. `pause` comes between the steps of it.
 */
export async function oneStepLines(
  study: CheckedText,
  statement: Statement,
  value: Quantity,
  pause: () => Promise<void>,
): Promise<readonly string[]> {
  if (study.facts === null || study.broken || study.pending || statement.entry.role === 'quantity') return [];
  const tries: { readonly head: string; readonly trial: Trial }[] = [];
  for (const by of [-1, 1] as const) {
    const next = steppedText(study.text, value, by);
    await pause();
    if (next)
      tries.push({ head: next.written, trial: await fullTrial(study, next.text, pause, endWindings) });
    else tries.push({ head: '–', trial: { facts: null, limits: [] } });
  }
  const [less, more] = tries as [(typeof tries)[0], (typeof tries)[0]];
  if (less.trial.facts === null && more.trial.facts === null) return [];
  // As the tries are: without clearances.
  const now = await fullTrial(study, study.text, pause, endWindings);
  const columns = [less.trial, now, more.trial];
  const rows: Row[] = [...limitRows(columns)];
  for (const entry of requireWords) {
    if (rows.length >= mostRows) break;
    await pause();
    rows.push(...figureRows(entry, columns, now.limits));
  }
  if (rows.length === 0) return [];
  const heads = [l10n.t('one step'), less.head, `**${value.written}**`, more.head];
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [
    [
      line(heads),
      line(['---', '--:', '--:', '--:']),
      ...rows.map(({ name, values }) => line([name, ...values.map((each) => unbroken(each ?? '–'))])),
    ].join('\n'),
  ];
}

/** Figures of the machine under load hold the leakage of the end windings. */
const endWindings = (facts: Facts) => facts.spaceFigures().endInductance();

/** Lines of a narrow cell end neither before a unit nor before the mark of a limit that fails. */
const unbroken = (value: string) => value.replaceAll(' ', '\u00a0');

function limitRows(columns: readonly Trial[]): readonly Row[] {
  const now = columns[1]!.limits;
  return now.flatMap((limit, index) => {
    const all = columns.map(({ limits }) => limits[index] ?? null);
    if (!moves(all.map((each) => each?.actual ?? null))) return [];
    return [
      {
        name: `\`${limitName(limit)}\` ${limit.relation} ${limit.source.written}`,
        values: all.map(limitText),
      },
    ];
  });
}

function limitText(limit: LimitResult | null): string | null {
  if (limit === null || limit.actual === null) return null;
  return `${limitValue(limit, limit.actual)}${countedIn(limit)}${limit.met ? '' : ' ✗'}`;
}

/** A figure that a limit could be set on, where none is. */
function figureRows(
  entry: VocabularyEntry,
  columns: readonly Trial[],
  limits: readonly LimitResult[],
): readonly Row[] {
  if (entry.role !== 'quantity' || limits.some(({ source }) => source.entry === entry)) return [];
  const source = {
    entry,
    scope: null,
    point: null,
    relation: '<=',
    limit: 0,
    written: '',
    limitRange: { start: 0, end: 0 },
  } as const;
  const numbers = columns.map(({ facts }) => (facts ? figureOf(facts, source) : null));
  if (!moves(numbers)) return [];
  return [
    {
      name: entry.word,
      values: numbers.map((number) => (number === null ? null : valueText(entry.word, number))),
    },
  ];
}

function figureOf(facts: Facts, source: Parameters<typeof quantityValue>[0]): number | null {
  return orNull(quantityValue(source, facts));
}

/** Whether a step moves the figure of the present text. */
function moves([less = null, now = null, more = null]: readonly (number | null)[]): boolean {
  if (now === null) return false;
  const differs = (other: number | null) =>
    other !== null && Math.abs(other - now) > 1e-7 * Math.max(Math.abs(other), Math.abs(now));
  return differs(less) || differs(more);
}
