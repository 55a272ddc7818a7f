import { format } from '../../core/language/format/formatter.ts';
import { visible } from '../../core/language/text/visible.ts';
import { decodedText, FileTrouble, nameOf, readBytes, UsageError } from '../files/files.ts';
import { windingFiles } from '../files/search.ts';
import { complaintLine, printedText, shownName } from '../inert.ts';
import type { Outcome } from '../outcome.ts';

export interface FormatOptions {
  readonly check?: boolean;
  readonly write?: boolean;
}

/**
 * Formats files: one to standard output, or any number in place (`write`), or only says which would change
 * (`check`). A file that cannot be read is complained of and does not stop the others.
 */
export function formatFiles(names: readonly string[], options: FormatOptions): Outcome {
  if (options.check && options.write) throw new UsageError('--check and --write exclude each other.');
  const found = windingFiles(names);
  const { files } = found;
  if (files.length === 0 && found.unread.length === 0)
    throw new UsageError(`no .winding files in ${names.join(', ')}.`);
  if (!options.check && !options.write && files.length > 1) {
    throw new UsageError('several files need --check or --write; without them one file is printed.');
  }
  if (options.write && files.includes('-'))
    throw new UsageError('standard input cannot be written back; leave out --write.');
  const unread = found.unread.map(({ problem }) => problem);
  const formatted = files.flatMap((file): readonly Formatted[] => {
    try {
      return [formattedFile(file)];
    } catch (problem) {
      if (!(problem instanceof FileTrouble)) throw problem;
      unread.push(problem.message);
      return [];
    }
  });
  const outcome = {
    exitCode: unread.length > 0 ? (2 as const) : (0 as const),
    output: '',
    complaints: unread.map(complaintLine).join(''),
  };
  const changed = formatted.filter(({ text, result }) => text !== result);
  if (options.write) {
    const writing = changed.map(({ file, held, result }) => {
      return { file, held, content: () => result, said: `formatted ${visible(file)}\n` };
    });
    return { ...outcome, files: writing };
  }
  if (options.check) {
    const output = changed.map(({ file }) => `${shownName(file)}\n`).join('');
    return { ...outcome, output, exitCode: changed.length > 0 && unread.length === 0 ? 1 : outcome.exitCode };
  }
  return { ...outcome, output: formatted.map(printed).join('') };
}

interface Formatted {
  readonly file: string;
  /** The bytes that were read. */
  readonly held: Uint8Array;
  readonly text: string;
  readonly result: string;
}

function printed({ file, result }: Formatted): string {
  const way = file === '-' ? 'format the file with --write' : '--write formats it in place';
  return printedText(file, result, way);
}

function formattedFile(file: string): Formatted {
  const held = readBytes(file);
  const text = decodedText(held, nameOf(file));
  return { file, held, text, result: format(text) };
}
