import { type Finding, finding } from '../finding.ts';
import { anyNumber } from '../specification/rules.ts';
import {
  itemAmount,
  itemText,
  mostValues,
  negatedItem,
  type Series,
  seriesItems,
  seriesSteps,
} from '../specification/series.ts';
import { outOfRange } from '../textFindingKinds.ts';
import {
  holdTwofold,
  varyCountsDiffer,
  varyEndMissed,
  varyOppositeImpossible,
  varyStepWrong,
} from '../varyFindingKinds.ts';
import { dimensionOf } from '../vocabulary/patternWords.ts';
import { heldPairs, variedPart } from '../vocabulary/varied.ts';
import type { VocabularyEntry } from '../vocabulary/vocabulary.ts';
import type { SeriesItem, Statement, Value } from './document.ts';

type Target = Extract<Value, { kind: 'target' }>;

/** Findings about the values of a statement of `vary`, after the rules of the words that vary. */
export function varyStatementFindings(statement: Statement): readonly Finding[] {
  if (statement.entry.block !== 'vary') return [];
  return statement.entry.word === 'hold' ? holdFindings(statement) : rowFindings(statement);
}

function holdFindings({ values }: Statement): readonly Finding[] {
  return values.flatMap((value, index) => {
    if (value.kind !== 'keyword') return [];
    const pair = heldPairs.find((words) => words.includes(value.text))!;
    const earlier = values
      .slice(0, index)
      .find((other) => other.kind === 'keyword' && other.text !== value.text && pair.includes(other.text));
    if (earlier?.kind !== 'keyword') return [];
    const related = [{ message: 'the other one', range: earlier.range }];
    return [finding(holdTwofold, value.range, { word: value.text, other: earlier.text }, { related })];
  });
}

/** Whether the values of a word are counts, which step by 1. */
export function countsWhole(entry: VocabularyEntry): boolean {
  const { value } = variedPart(entry)!;
  return (
    value.kind === 'number' && dimensionOf[value.placeholder] === 'none' && value.placeholder !== 'number'
  );
}

function rowFindings({ values }: Statement): readonly Finding[] {
  const findings: Finding[] = [];
  let first: { readonly target: Target; readonly series: Series } | null = null;
  values.forEach((value, index) => {
    if (value.kind !== 'target') return;
    const next = values[index + 1];
    const series = next?.kind === 'series' ? next : null;
    if (series) {
      findings.push(...seriesFindings(value.entry, series));
      if (first === null) first = { target: value, series };
      else findings.push(...countFindings(first, value, series));
    } else if (first !== null) findings.push(...oppositeFindings(first, value));
  });
  return findings;
}

function seriesFindings(entry: VocabularyEntry, series: Series): readonly Finding[] {
  const whole = countsWhole(entry);
  const steps = seriesSteps(series, whole);
  if (typeof steps === 'string')
    return [finding(varyStepWrong, series.range, { problem: steps, word: entry.word, most: mostValues })];
  if (steps === null) {
    if (series.items.length > mostValues) {
      const data = { problem: 'too-many', word: entry.word, most: mostValues } as const;
      return [finding(varyStepWrong, series.range, data)];
    }
    return series.items.flatMap((item) => ruleFindings(entry, item));
  }
  // Two neighbors and the last one obey the rules of the word where all between them do.
  const tried = [...new Set([0, Math.min(1, steps.count - 1), steps.count - 1])].map(steps.at);
  const [bad] = tried.flatMap((item) => ruleFindings(entry, item));
  if (bad) return [bad];
  if (steps.meets) return [];
  const data = { last: itemText(steps.at(steps.count - 1)), end: itemText(series.to!) };
  return [finding(varyEndMissed, series.to!.range, data)];
}

/** What the rule of a word says against a value. */
function ruleFindings(entry: VocabularyEntry, item: SeriesItem): readonly Finding[] {
  const { value } = variedPart(entry)!;
  if (item.kind === 'nominal' && !Number.isInteger(item.offset))
    return [finding(varyStepWrong, item.range, { problem: 'not-whole', word: entry.word, most: mostValues })];
  if (item.kind !== 'number' || value.kind !== 'number') return [];
  const { schema, words: expected, name, advice } = entry.rules[value.placeholder] ?? anyNumber;
  if (schema.safeParse(itemAmount(item)).success) return [];
  return [
    finding(outOfRange, item.range, { word: entry.word, name, written: itemText(item), expected, advice }),
  ];
}

function countFindings(
  first: { readonly target: Target; readonly series: Series },
  { entry }: Target,
  series: Series,
): readonly Finding[] {
  const other = seriesItems(first.series, countsWhole(first.target.entry)).length;
  const count = seriesItems(series, countsWhole(entry)).length;
  if (count === other || count === 0 || other === 0) return [];
  return [finding(varyCountsDiffer, series.range, { word: entry.word, count, other })];
}

function oppositeFindings(
  { target, series }: { readonly target: Target; readonly series: Series },
  { entry, range }: Target,
): readonly Finding[] {
  const [one, other] = [variedPart(target.entry)!.value, variedPart(entry)!.value];
  const alike =
    one.kind === 'number' &&
    other.kind === 'number' &&
    dimensionOf[one.placeholder] === dimensionOf[other.placeholder];
  const items = seriesItems(series, countsWhole(target.entry));
  const negated = items.map(negatedItem);
  const fit = negated.every((item) => item !== null && ruleFindings(entry, item).length === 0);
  if (alike && fit) return [];
  return [finding(varyOppositeImpossible, range, { word: entry.word, first: target.entry.word })];
}
