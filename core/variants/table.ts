import papaparse from 'papaparse';
import type { VariantRow, Variants } from './schema.ts';
import { figureWords, heldText, limitsWords, reasonText, valueWords } from './words.ts';

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

/** What the columns of a CSV file of rows are named after. */
export interface CsvColumns extends Pick<Variants, 'figures' | 'limits'> {
  readonly vary: readonly Pick<Variants['vary'][number], 'word'>[];
}

/** The header of a CSV file of rows, in the columns of the JSON. */
export function csvHeader({ vary, figures, limits }: CsvColumns): string {
  return csvLine(['number', ...vary.map(({ word }) => word), ...figures, ...limits, 'front']);
}

/** A row as a line of CSV; what is not known is empty. `front` is null while it is not known. */
export function csvRow(
  { vary, figures, limits }: CsvColumns,
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
