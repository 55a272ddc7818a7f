import { inEnglish, type Speech } from '../figures/speech.ts';
import { decimal, fixed, shownFigure, shownNumber, significant, withMinus } from '../language/numbers.ts';
import { visible } from '../language/text/visible.ts';
import { figureName } from './numbers/figureNames.ts';
import { quantityOf, scaleOf } from './numbers/scales.ts';
import type { ChangedNumber, ComparedLimit } from './schema.ts';

const dash = '–';
const minus = '\u2212';

/** A value in the first unit of its dimension, for people. */
export function valueText(quantity: string, value: number | null, siUnit?: string): string {
  return shownFigure(value, scaleOf(quantity, siUnit));
}

/**
 * Old, new and difference as read: the difference is that of the values as they are shown, with as many digits as it
 * takes to tell the two apart, and for what is shown to be off by no more than half of what was computed.
 */
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
  const shown = (more: number) => {
    const [before, after] = [old, now].map((value) => shownNumber(value / factor, decimals, more));
    return { before: before!, after: after!, moved: differenceOf(before!, after!) };
  };
  const off = (moved: number) => Math.abs(moved * factor - difference);
  let more = 0;
  while (more < mostMore && off(shown(more).moved.size) > Math.abs(difference) / 2) more++;
  const { before, after, moved } = shown(more);
  return {
    old: withUnit(before, unit),
    new: withUnit(after, unit),
    difference: withUnit(moved.text(decimals !== undefined), unit),
  };
}

/** Digits more than a value has by itself, at most. */
const mostMore = 10;

/** What one number as it is read has to gain to be another. */
function differenceOf(before: string, after: string) {
  const [from, to] = [before, after].map((text) => Number(text.replaceAll(minus, '-'))) as [number, number];
  const decimals = Math.max(decimalsOf(before), decimalsOf(after));
  // Without what the last binary digits add.
  const size = Number(fixed(to - from, decimals));
  return {
    size,
    text: (allDecimals: boolean) => {
      const moved = Math.abs(size);
      const powers = [before, after].some((text) => text.includes('e'));
      const number = powers
        ? significant(moved, 15)
        : allDecimals
          ? fixed(moved, decimals)
          : decimal(moved, decimals);
      return `${size > 0 ? '+' : minus}${withMinus(number)}`;
    },
  };
}

/** Decimals of a number as it is read, were it written out. */
function decimalsOf(text: string): number {
  const [digits, power = '0'] = text.replaceAll(minus, '-').split('e') as [string, string?];
  return Math.max(0, (digits.split('.')[1]?.length ?? 0) - Number(power));
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
