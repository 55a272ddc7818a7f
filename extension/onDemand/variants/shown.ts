import type { Facts } from '../../../core/facts/facts.ts';
import { layerLetter } from '../../../core/language/layerLetters.ts';
import { significant } from '../../../core/language/numbers.ts';
import type { Value } from '../../../core/language/text/document.ts';
import { unitNamed } from '../../../core/language/vocabulary/units.ts';
import { factorTableRows } from '../../../core/report/figures.ts';
import { rowValues } from '../../../core/variants/answer.ts';
import type { Kept } from '../../../core/variants/collect.ts';
import type { Evaluator, Looked } from '../../../core/variants/evaluate.ts';
import { placesOf, variedValue } from '../../../core/variants/places.ts';
import {
  type Column,
  keepName,
  limitMeasureName,
  measureName,
  type Question,
  rankName,
} from '../../../core/variants/question.ts';
import { figureScale, figureWords, heldText, valueWords } from '../../../core/variants/words.ts';
import type { Winding } from '../../../core/winding/model.ts';
import type { ShownQuestion, ShownVariant } from '../../protocol/shownVariants.ts';
import { l10n } from '../../wording.ts';
import { engineSpeech } from '../engineSpeech.ts';

/** A question in words, with the columns of its table: values that vary, then figures. */
export function shownQuestion(question: Question, { holding }: Evaluator): ShownQuestion {
  const speech = engineSpeech();
  const columns = question.rows.flatMap((row) => row.columns);
  return {
    columns: [
      ...columns.map((column) => ({
        name: column.name,
        unit: unitOf(column) ?? '',
        kind: 'value' as const,
        better: null,
      })),
      ...question.measures.map((measure) => {
        const name = measureName(measure);
        const ranked = question.rank.find((each) => measureName(each.measure) === name);
        const { unit } = figureScale(name);
        return { name, unit, kind: 'figure' as const, better: ranked?.better ?? null };
      }),
    ],
    held: heldText({ hold: { ...holding, unsettled: [] } }, speech),
    unsettled: holding.unsettled.map(speech.phrase),
    kept: question.keeps.map(keepName),
    ranked: question.rank.map(rankName),
    limits: question.specification.limits.map(({ value }) => limitMeasureName(value)),
  };
}

/** A candidate as a row; `values` are those of its words. */
export function shownVariant(
  judge: Evaluator,
  { number, figures }: Kept,
  front: boolean,
  limits: string,
): ShownVariant {
  const { question } = judge;
  const values = rowValues(judge, number);
  const columns = question.rows.flatMap((row) => row.columns);
  return {
    number,
    front,
    texts: [
      ...columns.map((column) => valueWords(values[column.name] ?? '', unitOf(column))),
      ...question.measures.map((measure, at) => figureWords(measureName(measure), figures[at] ?? null)),
    ],
    amounts: shownAmounts(judge, { number, figures }),
    limits,
  };
}

/** The amounts of a candidate in the columns' units. */
export function shownAmounts(judge: Evaluator, { number, figures }: Kept): readonly (number | null)[] {
  const { question } = judge;
  const values = rowValues(judge, number);
  const columns = question.rows.flatMap((row) => row.columns);
  return [
    ...columns.map((column) => {
      const value = values[column.name];
      const unit = unitOf(column);
      return typeof value === 'number' ? plain(value / (unit === null ? 1 : unitNamed(unit)!.factor)) : null;
    }),
    ...figureAmounts(question, figures),
  ];
}

function figureAmounts({ measures }: Question, figures: Kept['figures']): readonly (number | null)[] {
  return measures.map((measure, at) => {
    const value = figures[at] ?? null;
    return value === null ? null : plain(value / figureScale(measureName(measure)).factor);
  });
}

/** The text's own winding as a row: the values that stand in it, where they do. */
export function ownVariant(judge: Evaluator, figures: Kept['figures']): ShownVariant {
  const { question } = judge;
  const columns = question.rows.flatMap((row) => row.columns);
  const written = columns.map((column) => writtenValue(question, column));
  const amounts = figureAmounts(question, figures);
  return {
    number: 0,
    front: false,
    texts: [
      ...written.map(writtenWords),
      ...question.measures.map((measure, at) => figureWords(measureName(measure), figures[at] ?? null)),
    ],
    amounts: [...written.map((value, at) => writtenAmount(value, columns[at]!)), ...amounts],
    limits: '',
  };
}

/** What the text says of a word; null where it says nothing. */
function writtenValue({ document }: Question, { word }: Column): Value | null {
  for (const place of placesOf(document, word))
    if (place.kind === 'value') return variedValue(place.statement) ?? null;
  return null;
}

function writtenWords(value: Value | null): string {
  if (value?.kind === 'quantity') return value.written;
  return value?.kind === 'keyword' ? value.text : '';
}

function writtenAmount(value: Value | null, column: Column): number | null {
  if (value?.kind !== 'quantity') return null;
  const unit = unitOf(column);
  return plain(value.value / (unit === null ? 1 : unitNamed(unit)!.factor));
}

/** Digits by which points are placed and rows sorted. */
function plain(value: number): number {
  return Number(significant(value, 7));
}

function unitOf({ values }: Column): string | null {
  const first = values.find(({ kind }) => kind === 'number');
  return first?.kind === 'number' ? first.unit : null;
}

/** Most slots of a repetition that are shown. */
const mostSlots = 72;

/** One repetition of a slot table, layer by layer, each place as its phase with a sign. */
export function shownLayout({ table, layers, phases, slots }: Winding, repeats: number): readonly string[][] {
  const shown = Math.min(repeats, slots, mostSlots);
  return Array.from({ length: layers }, (_, layer) => [
    layerLetter(layer),
    ...Array.from({ length: shown }, (_, slot) => {
      const cell = table.cells[layer * slots + slot] ?? 0;
      if (cell === 0) return '';
      return `${cell > 0 ? '+' : '\u2212'}${phases.names[Math.abs(cell) - 1] ?? ''}`;
    }),
    ...(shown < Math.min(repeats, slots) ? ['\u2026'] : []),
  ]);
}

/** Waves that are shown of a candidate. */
const mostWaves = 6;

/** Harmonic, winding factor and relative wave of the lowest waves. */
export function shownWaves(facts: Facts): readonly string[][] {
  return factorTableRows(facts)
    .filter(({ winding }) => Number(winding) !== 0)
    .slice(0, mostWaves)
    .map(({ harmonic, winding, wave }) => [harmonic, winding, wave]);
}

/** Why figures of a candidate are missing, a sentence each. */
export function missingWords({ missing }: Looked): readonly string[] {
  const { phrase } = engineSpeech();
  return Object.entries(missing).map(([name, why]) => l10n.t('{0} is missing: {1}.', name, phrase(why)));
}
