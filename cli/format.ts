import { format } from '../core/language/format/formatter.ts';
import { readText, UsageError, windingFiles, writeText } from './files.ts';
import type { Outcome } from './outcome.ts';

export interface FormatOptions {
  readonly check?: boolean;
  readonly write?: boolean;
}

/** Formats files: one to standard output, or any number in place (`write`), or only says which would change (`check`). */
export function formatFiles(names: readonly string[], options: FormatOptions): Outcome {
  if (options.check && options.write) throw new UsageError('--check and --write exclude each other.');
  const files = windingFiles(names);
  if (files.length === 0) throw new UsageError(`no .winding files in ${names.join(', ')}.`);
  if (!options.check && !options.write && files.length > 1) {
    throw new UsageError('several files need --check or --write; without them one file is printed.');
  }
  if (options.write && files.includes('-'))
    throw new UsageError('standard input cannot be written back; leave out --write.');
  const formatted = files.map((file) => {
    const text = readText(file);
    return { file, text, result: format(text) };
  });
  const changed = formatted.filter(({ text, result }) => text !== result);
  if (options.write) {
    for (const { file, result } of changed) writeText(file, result);
    return { exitCode: 0, output: '', complaints: changed.map(({ file }) => `formatted ${file}\n`).join('') };
  }
  if (options.check) {
    return {
      exitCode: changed.length > 0 ? 1 : 0,
      output: changed.map(({ file }) => `${file}\n`).join(''),
      complaints: '',
    };
  }
  return { exitCode: 0, output: formatted.map(({ result }) => result).join(''), complaints: '' };
}
