import { toldMessage } from '../core/findings/acceptance/acceptance.ts';
import type { Finding } from '../core/language/finding.ts';
import { lineColumn, lineStarts } from '../core/language/text/lines.ts';
import { visible } from '../core/language/text/visible.ts';
import { shownName } from './inert.ts';

/** What a command did: its exit code, and what it has to say beside its output. */
export interface Outcome {
  readonly exitCode: 0 | 1 | 2;
  readonly output: string;
  readonly complaints: string;
  /** Files that are still to be written, see `complete`. */
  readonly files?: readonly OutputFile[];
  /** Work that takes its time, with what came of it; `complete` does it before anything else. */
  readonly later?: () => Promise<Outcome>;
}

/** A file that a command writes. */
export interface OutputFile {
  readonly file: string;
  readonly content: () => string | Uint8Array | Promise<string | Uint8Array>;
  /** What the file held when it was read: where it holds anything else by now, it is left alone. */
  readonly held?: Uint8Array;
  /** Told once the file is written. */
  readonly said?: string;
}

/** What a command made: on standard output, or in the file that was asked for. */
export function delivered(
  content: string,
  file: string | undefined,
  { exitCode, complaints }: Pick<Outcome, 'exitCode' | 'complaints'>,
): Outcome {
  if (file === undefined) return { exitCode, output: content, complaints };
  return { exitCode, output: '', complaints, files: [{ file, content: () => content }] };
}

export interface Counts {
  readonly errors: number;
  readonly warnings: number;
}

/** Errors and warnings among findings. */
export function countFindings(findings: readonly Finding[]): Counts {
  const count = (severity: string) => findings.filter((item) => item.severity === severity).length;
  return { errors: count('error'), warnings: count('warning') };
}

/** Exit code of a run with these findings. */
export function exitCodeOf({ errors, warnings }: Counts, mostWarnings: number): 0 | 1 {
  return errors > 0 || warnings > mostWarnings ? 1 : 0;
}

/** Findings as lines `file:line:column: severity: message [code]`, related places indented; `-` is standard input. */
export function findingLines(file: string, text: string, findings: readonly Finding[]): string {
  const starts = lineStarts(text);
  const name = shownName(file);
  const place = (offset: number) => {
    const { line, column } = lineColumn(starts, offset);
    return `${name}:${line}:${column}`;
  };
  return findings
    .map(({ code, severity, message, range, related, accepted }) =>
      [
        `${place(range.start)}: ${severity}: ${visible(toldMessage(message, accepted?.reason))} [${code}]`,
        ...related.map((other) => `    ${place(other.range.start)}: ${visible(other.message)}`),
      ].join('\n'),
    )
    .map((line) => `${line}\n`)
    .join('');
}
