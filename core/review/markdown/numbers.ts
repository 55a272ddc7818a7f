import { plural } from '../../language/lists.ts';
import { isTelling, verdictOrder } from '../numbers/scales.ts';
import type { ChangedNumber, Comparison } from '../schema.ts';
import { movedTexts, quantityName, valueText } from '../words.ts';
import { folded, mostUnfolded, table } from './parts.ts';

/**
 * The figures a reviewer looks at first: the winding factor, then what moved most, the worse first, then what the shop
 * counts. Those that the table of limits shows and the others are folded, those that hardly moved by themselves.
 */
export function numberParts({ numbers, limits }: Comparison, whole: boolean): readonly string[] {
  const rank = ({ quantity, harmonic, phase }: ChangedNumber) => {
    if (phase !== undefined) return -1;
    if (harmonic === undefined) return quantity.includes('.') ? -1 : 1;
    if (harmonic === '1') return quantity === 'winding-factor' ? 0 : 2;
    return quantity === 'winding-factor' && ['5', '7'].includes(harmonic) ? 3 : -1;
  };
  const first = numbers.filter((number) => rank(number) >= 0).sort((a, b) => rank(a) - rank(b));
  if (!whole) {
    const figures = first.filter((number) => rank(number) <= 1);
    return figures.length === 0 ? [] : [folded('Figures', figuresTable(figures))];
  }
  const limited = new Set(limits.flatMap(({ point, quantity }) => (point === undefined ? [quantity] : [])));
  const apart = first
    .filter((number) => isTelling(number) && (rank(number) !== 1 || !limited.has(number.quantity)))
    .sort((a, b) => rank(a) - rank(b) || verdictOrder(a) - verdictOrder(b) || share(b) - share(a));
  const counted = apart.filter(({ quantity }) => shopCounts.has(quantity));
  const shown = [...apart.filter((number) => !counted.includes(number)).slice(0, mostUnfolded), ...counted];
  const rest = numbers.filter((number) => isTelling(number) && !shown.includes(number));
  const hardly = numbers.filter((number) => !isTelling(number));
  return [
    ...(shown.length > 0 ? [numbersTable(shown)] : []),
    ...(rest.length > 0 ? [folded(`${plural(rest.length, 'more number')} moved`, numbersTable(rest))] : []),
    ...(hardly.length > 0
      ? [folded(`${plural(hardly.length, 'number')} hardly moved`, numbersTable(hardly))]
      : []),
  ];
}

/** What tells how much of the winding is made by hand. */
const shopCounts: ReadonlySet<string> = new Set([
  'special-joints',
  'jumpers',
  'joint-shapes',
  'bar-shapes',
  'legs-bent-apart',
]);

/** By how much of the larger value a number moved; one that came or went, by all of it. */
function share({ old, new: now, difference }: ChangedNumber): number {
  if (old === null || now === null || difference === null) return 1;
  return Math.abs(difference) / Math.max(Math.abs(old), Math.abs(now));
}

function numbersTable(numbers: readonly ChangedNumber[]): string {
  const rows = numbers.map((number) => {
    const texts = movedTexts(number);
    const verdict = number.better === null ? '' : number.better ? 'better' : '**worse**';
    return [quantityName(number), texts.old, texts.new, texts.difference, verdict];
  });
  const head = ['quantity', 'old', 'new', 'difference', ''];
  return table(head, ['left', 'right', 'right', 'right', 'left'], rows);
}

/** Of a winding that is there on one side only. */
function figuresTable(numbers: readonly ChangedNumber[]): string {
  const rows = numbers.map((number) => [
    quantityName(number),
    valueText(number.quantity, number.new ?? number.old, number.unit),
  ]);
  return table(['quantity', 'value'], ['left', 'right'], rows);
}
