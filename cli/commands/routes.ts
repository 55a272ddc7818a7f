import { finished } from '../../core/figures/steps.ts';
import { fixed, percent } from '../../core/language/numbers.ts';
import { reportedCandidates } from '../../core/report/candidates.ts';
import { type Study, study } from '../../core/study.ts';
import { outputFormat } from '../files/destination.ts';
import { decodedText, nameOf, readBytes, UsageError } from '../files/files.ts';
import { complaintLine, printedText } from '../inert.ts';
import { delivered, findingLines, type Outcome } from '../outcome.ts';

export interface RoutesOptions {
  /** Number of the connection to write out, from 1. */
  readonly write?: number;
  readonly output?: string;
  readonly inPlace?: boolean;
}

/** Lists the connections to choose from, the present one first, or writes one of them out. */
export function routes(file: string, options: RoutesOptions): Outcome {
  requireFitting(file, options);
  const held = readBytes(file);
  const text = decodedText(held, nameOf(file));
  const studied = study(text);
  const { facts } = studied;
  const state = facts?.connection;
  const nothing = (reason: string): Outcome => ({
    exitCode: 1,
    output: '',
    complaints: findingLines(file, text, studied.findings) + complaintLine(`${nameOf(file)}: ${reason}`),
  });
  if (!facts || state?.kind !== 'connected')
    return nothing('the text has no connection; there is nothing to choose from.');
  if (!state.facts.candidates)
    return nothing('the paths are written in the text; there is nothing to choose from.');
  if (options.write === undefined) return { exitCode: 0, output: listed(studied), complaints: '' };
  const candidates = finished(state.facts.candidates());
  const chosen = candidates[options.write - 1];
  if (!chosen)
    throw new UsageError(
      `--write ${options.write}: the list has ${candidates.length}; routes without --write shows it.`,
    );
  const edit = studied.writeOutPaths(chosen.facts.paths);
  if (!edit) return nothing('the paths cannot be written out.');
  const result = text.slice(0, edit.range.start) + edit.text + text.slice(edit.range.end);
  if (options.inPlace)
    return { exitCode: 0, output: '', complaints: '', files: [{ file, held, content: () => result }] };
  const way = file === '-' ? '--output writes it to a file' : '--output or --in-place writes it to a file';
  const written = options.output === undefined ? printedText(file, result, way) : result;
  return delivered(written, options.output, { exitCode: 0, complaints: '' });
}

function requireFitting(file: string, { write, output, inPlace }: RoutesOptions): void {
  if (output !== undefined) outputFormat(output, ['winding'], file);
  if (write === undefined && (output !== undefined || inPlace))
    throw new UsageError('--output and --in-place go with --write, which says which connection.');
  if (output !== undefined && inPlace) throw new UsageError('--output and --in-place exclude each other.');
  if (inPlace && file === '-')
    throw new UsageError('standard input cannot be written back; leave out --in-place.');
}

const columns = [
  'no.',
  'pieces',
  'levels',
  'joint shapes',
  'bar shapes',
  'legs apart',
  'special joints',
  'in a slot',
  'length m',
  'starts deg',
] as const;

/** The list as a table of plain text, columns ranged right. */
function listed({ facts }: Study): string {
  const rows = reportedCandidates(facts!).map((each, index) => [
    String(index + 1),
    String(each.pieces),
    String(each.levels),
    String(each.jointShapes),
    String(each.barShapes),
    String(each.legsBentApart),
    String(each.specialJoints),
    each.voltageInSlot === null ? '–' : percent(each.voltageInSlot, 3),
    each.copperLength === null ? '–' : fixed(each.copperLength, 2),
    fixed(each.terminalWindow, 1),
  ]);
  const widths = columns.map((title, column) =>
    Math.max(title.length, ...rows.map((row) => row[column]!.length)),
  );
  const line = (row: readonly string[]) =>
    `${row.map((cell, column) => cell.padStart(widths[column]!)).join('  ')}\n`;
  const notes =
    'Pieces, joint shapes and special joints of one phase; bar shapes, legs bent apart and levels of all. In a slot: largest voltage between neighboring bars, of the phase voltage. Length: of all bars and connecting pieces. Starts: the arc of all starts. 1 is the connection that the text gives now.\n';
  return line(columns) + rows.map(line).join('') + notes;
}
