import { inEnglish, type Speech } from '../figures/speech.ts';
import { decimal, shownFigure, shownNumber, significant } from '../language/numbers.ts';
import { visible } from '../language/text/visible.ts';
import { figureName } from './figureNames.ts';
import { quantityOf, scaleOf } from './scales.ts';
import type { ChangedNumber, ComparedLimit } from './schema.ts';

const dash = '–';
const minus = '\u2212';

/** A value in the first unit of its dimension, for people. */
export function valueText(quantity: string, value: number | null, siUnit?: string): string {
  return shownFigure(value, scaleOf(quantity, siUnit));
}

/** Old, new and difference with as many digits as it takes to see the difference. */
export function movedTexts({
  quantity,
  old,
  new: now,
  difference,
  unit: siUnit,
}: Pick<ChangedNumber, 'quantity' | 'old' | 'new' | 'difference' | 'unit'>): {
  readonly old: string;
  readonly new: string;
  readonly difference: string;
} {
  if (old === null || now === null || difference === null)
    return {
      old: valueText(quantity, old, siUnit),
      new: valueText(quantity, now, siUnit),
      difference: dash,
    };
  const { factor, unit, decimals } = scaleOf(quantity, siUnit);
  let digits = decimals;
  while (
    digits !== undefined &&
    digits < 12 &&
    shownNumber(old / factor, digits) === shownNumber(now / factor, digits)
  )
    digits++;
  const sign = difference > 0 ? '+' : minus;
  const texts = [old, now].map((value) => shownNumber(value / factor, digits)) as [string, string];
  const moved = Math.abs(difference) / factor;
  return {
    old: withUnit(texts[0], unit),
    new: withUnit(texts[1], unit),
    difference: withUnit(
      sign +
        (digits === undefined || moved < 10 ** -digits ? asFineAs(moved, texts) : shownNumber(moved, digits)),
      unit,
    ),
  };
}

/** A difference with the last decimal of what it is between, or with one digit where it is less. */
function asFineAs(moved: number, texts: readonly string[]): string {
  const decimals = Math.max(...texts.map((text) => text.match(/\.(\d+)$/)?.[1]?.length ?? 0));
  const text = decimal(moved, decimals);
  return Number(text) === 0 || texts.some((each) => each.includes('e')) ? significant(moved, 1) : text;
}

function withUnit(number: string, unit: string): string {
  return unit === '' ? number : `${number} ${unit}`;
}

/** What lies in a place: `+U path 1`. */
export function placeWords(place: string, { say }: Speech): string {
  const [, bar, path] = place.match(/^(.*) path (\d+)$/) ?? [];
  return bar === undefined ? place : say('{0} path {1}', bar, path!);
}

/** A figure as reports name it: `winding factor, harmonic 5`, `AC ratio, layer a`. */
export function quantityName(
  { quantity, harmonic, phase }: ChangedNumber,
  speech: Speech = inEnglish,
): string {
  const { say } = speech;
  const words = figureName(quantityOf(quantity)?.reportPath ?? quantity, speech);
  const ordered = harmonic === undefined ? words : say('{0}, harmonic {1}', words, harmonic);
  return phase === undefined ? ordered : say('{0}, phase {1}', ordered, phase);
}

/** `winding-factor harmonic 5`, `wave-relative order 2`, `copper-loss at "climb"`. */
export function comparedLimitName({ quantity, point, harmonic, order }: ComparedLimit): string {
  if (point !== undefined) return `${quantity} at "${visible(point)}"`;
  if (!quantityOf(quantity)?.perOrder) return quantity;
  return harmonic === null ? `${quantity} order ${order}` : `${quantity} harmonic ${significant(harmonic)}`;
}

/** `at most 3 %`, and what became of it: `at most 4 %, loosened from 3 %`. */
export function limitText(
  { quantity, relation, limit, oldLimit, change }: ComparedLimit,
  { say, phrase }: Speech = inEnglish,
): string {
  const asked = (value: string) =>
    relation === '<=' ? say('at most {0}', value) : say('at least {0}', value);
  const texts =
    limit !== null && oldLimit !== null && change !== null
      ? movedTexts({ quantity, old: oldLimit, new: limit, difference: limit - oldLimit })
      : null;
  if (change === null) return asked(valueText(quantity, limit ?? oldLimit));
  return texts
    ? say('{0}, {1} from {2}', asked(texts.new), phrase(change), texts.old)
    : say('{0}, {1}', asked(valueText(quantity, limit ?? oldLimit)), phrase(change));
}
