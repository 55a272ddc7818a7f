import { troubleWords } from '../../core/tables/import/grid.ts';
import type { ConnectionWord, TableWishes } from '../../core/tables/import/head.ts';
import { windingFromTable } from '../../core/tables/import/windingFromTable.ts';
import { outputFormat } from '../files/destination.ts';
import { nameOf, readText } from '../files/files.ts';
import { complaintLine, printedText } from '../inert.ts';
import { delivered, type Outcome } from '../outcome.ts';

export interface ImportOptions {
  readonly poles?: number;
  readonly connection?: ConnectionWord;
  readonly firstLayer?: 'axis' | 'outside';
  readonly title?: string;
  readonly output?: string;
}

/** Makes a winding file of a spreadsheet's table, to standard output or a file. */
export function importTable(file: string, { output, ...wishes }: ImportOptions): Outcome {
  if (output !== undefined) outputFormat(output, ['winding'], file);
  const told = (words: string) => complaintLine(`${nameOf(file)}: ${words}`);
  const made = windingFromTable(readText(file), wishes satisfies TableWishes);
  if (made.kind === 'refused')
    return {
      exitCode: 1,
      output: '',
      complaints: made.troubles.map((each) => told(troubleWords(each))).join(''),
    };
  if (made.kind === 'lacking')
    return {
      exitCode: 1,
      output: '',
      complaints: told(`${made.words} --${made.what} says it, or a row above the table.`),
    };
  const complaints = made.notes.map((note) => told(`note: ${note}.`)).join('');
  const text =
    output === undefined ? printedText(file, made.text, '--output writes it to a file') : made.text;
  return delivered(text, output, { exitCode: 0, complaints });
}
