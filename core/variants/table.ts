import papaparse from 'papaparse';
import { helpOf } from '../findings/registry.ts';
import { shownNumber, significant } from '../language/numbers.ts';
import { unitNamed } from '../language/vocabulary/units.ts';
import { vocabulary } from '../language/vocabulary/vocabulary.ts';
import { valueText } from '../review/words.ts';
import type { VariantRow, Variants } from './schema.ts';

const heldWords = {
  'gap-flux-density': 'flux density in the gap (the flux of a pole follows)',
  flux: 'flux of a pole',
  torque: 'torque (the current follows)',
  current: 'current',
  shares: 'share of slots in the slot pitch, and of bars in the room of their slot',
  sizes: 'sizes of slots and bars',
} as const;

/** What stays equal, in words. */
export function heldText({ hold }: Pick<Variants, 'hold'>): string {
  const torque = hold.torque === null ? '' : ` ${significant(hold.torque)} Nm`;
  const load = heldWords[hold.load].replace(/^torque/, `torque${torque}`);
  return `${heldWords[hold.field]}; ${load}; ${heldWords[hold.room]}`;
}

const reasons: Readonly<Record<string, string>> = {
  'no-pole-pitch': 'nominal counts from slots and poles, which are not given',
  'span-below-1': 'the span, counted from the pole pitch, is below 1',
  'no-winding': 'the text makes no winding',
};

/** Why combinations are refused, in words. */
export function reasonText(reason: string): string {
  const [code = '', kind] = reason.split(': ');
  const words = reasons[code] ?? helpOf(code).replace(/\.$/, '');
  return kind === undefined
    ? `${words || code}`
    : `${words || code.replaceAll('-', ' ')}: ${kind.replaceAll('-', ' ')}`;
}

/** A value of a row as it is told: in the unit it is written in. */
export function valueWords(value: number | string, unit: string | null): string {
  if (typeof value === 'string') return value;
  if (unit === null) return significant(value, 9);
  const { factor } = unitNamed(unit)!;
  return `${significant(value / factor, 9)} ${unit}`;
}

/** A figure as it is told: in the unit of its quantity. */
export function figureWords(name: string, value: number | null): string {
  const word = name.split(' ')[0]!;
  const known = vocabulary.some((entry) => entry.role === 'quantity' && entry.word === word);
  if (known) return valueText(word, value);
  return value === null ? '\u2013' : shownNumber(value, undefined);
}

/** How many of the limits of a row are met, of all that were looked at. */
export function limitsWords({ limits }: VariantRow): string {
  if (limits === null) return '';
  return `${limits.filter((met) => met === true).length} of ${limits.length}`;
}

/** An answer as plain text for people; at most `top` rows, with those of the front marked. */
export function answerText(answer: Variants): string {
  const { candidates, kept, leftOut, refused, complete, shard, front, rows, vary, figures, limits, top } =
    answer;
  const refusals = refused.reduce((sum, { count }) => sum + count, 0);
  const judged = kept + leftOut + refusals;
  const lines = [
    `${candidates} candidates: ${refusals} refused, ${leftOut} left out, ${kept} kept.`,
    ...(shard ? [`Shard ${shard.index} of ${shard.of}.`] : []),
    ...(complete ? [] : [`This is a part: ${judged} were judged before it was stopped.`]),
    ...refused.map(({ reason, count }) => `  ${count} refused: ${reasonText(reason)} [${reason}]`),
    `Held equal: ${heldText(answer)}.`,
    ...answer.hold.unsettled.map((what) => `  Missing: ${what}.`),
    ...(answer.keep.length > 0 ? [`Kept: ${answer.keep.join('; ')}.`] : []),
    answer.rank.length > 0
      ? `Ranked by: ${answer.rank.join(', then ')}.`
      : 'Not ranked: in the order of the rows.',
    ...(front
      ? [
          `Front: ${front.count}${front.cut ? ' and more, which are left out,' : ''} that none beats in everything ranked by, marked *.`,
        ]
      : []),
  ];
  const shown = rows.slice(0, Math.max(top, 0));
  const headings = [
    'no.',
    ...vary.map(({ word }) => word),
    ...figures,
    ...(limits.length > 0 ? ['limits'] : []),
    ...(front ? ['front'] : []),
  ];
  const cells = shown.map((row) => [
    String(row.number),
    ...vary.map(({ word, unit }) =>
      row.values[word] === undefined ? '' : valueWords(row.values[word]!, unit),
    ),
    ...figures.map((name) => figureWords(name, row.figures[name] ?? null)),
    ...(limits.length > 0 ? [limitsWords(row)] : []),
    ...(front ? [row.front ? '*' : ''] : []),
  ]);
  const widths = headings.map((heading, column) =>
    Math.max(heading.length, ...cells.map((row) => row[column]!.length)),
  );
  const line = (row: readonly string[]) =>
    row
      .map((cell, column) => cell.padStart(widths[column]!))
      .join('  ')
      .trimEnd();
  const table = shown.length > 0 ? ['', line(headings), ...cells.map(line)] : [];
  const lacking = new Set(
    shown.flatMap(({ missing }) =>
      Object.entries(missing).map(([name, why]) => `${name} is missing: ${why}.`),
    ),
  );
  const more = rows.length > shown.length ? [`and ${rows.length - shown.length} more of the front`] : [];
  return `${[...lines, ...table, ...more, ...lacking].join('\n')}\n`;
}

/** The header of a CSV file of rows, in the columns of the JSON. */
export function csvHeader({ vary, figures, limits }: Pick<Variants, 'vary' | 'figures' | 'limits'>): string {
  return csvLine(['number', ...vary.map(({ word }) => word), ...figures, ...limits, 'front']);
}

/** A row as a line of CSV; what is not known is empty. `front` is null while it is not known. */
export function csvRow(
  { vary, figures, limits }: Pick<Variants, 'vary' | 'figures' | 'limits'>,
  row: Omit<VariantRow, 'front' | 'missing'> & { readonly front: boolean | null },
): string {
  return csvLine([
    row.number,
    ...vary.map(({ word }) => row.values[word] ?? ''),
    ...figures.map((name) => row.figures[name] ?? ''),
    ...limits.map((_, at) => met(row.limits?.[at])),
    row.front === null ? '' : row.front ? 'yes' : 'no',
  ]);
}

function met(value: boolean | null | undefined): string {
  return value === true ? 'met' : value === false ? 'failed' : '';
}

// What a spreadsheet would take for a formula: not a negative number, which is to stay one.
const formula = /^(?!-\d)[=+\-@\t\r]/;

function csvLine(cells: readonly (string | number)[]): string {
  return `${papaparse.unparse([[...cells]], { newline: '\r\n', escapeFormulae: formula })}\r\n`;
}

/** An answer as CSV, its rows in their order. */
export function answerCsv(answer: Variants): string {
  return csvHeader(answer) + answer.rows.map((row) => csvRow(answer, row)).join('');
}
