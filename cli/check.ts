import { findingKinds } from '../core/findings/registry.ts';
import { plural } from '../core/language/lists.ts';
import { lineStarts } from '../core/language/text/lines.ts';
import { junitXml } from '../core/report/junit.ts';
import { reportedFindings } from '../core/report/reportedFindings.ts';
import { sarifLog } from '../core/report/sarif.ts';
import { type Study, study } from '../core/study.ts';
import { readText, type UnreadPlace, UsageError, windingFiles } from './files.ts';
import { pathBelow, repositoryRoot } from './git.ts';
import { complaintLine, jsonText } from './inert.ts';
import { countFindings, exitCodeOf, findingLines, type Outcome } from './outcome.ts';

export interface CheckOptions {
  readonly format: 'text' | 'json' | 'sarif' | 'junit';
  readonly maxWarnings: number;
  readonly allowEmpty?: boolean;
}

/** The program itself, as its reports name it. */
export interface Program {
  readonly version: string;
  readonly home?: string | undefined;
}

/** What a report needs of a checked file; studies themselves are let go, so that many files fit. */
interface CheckedFile extends Pick<Study, 'text' | 'findings' | 'limits'> {
  readonly file: string;
}

/** Checks files and folders; a file that cannot be read is complained of and does not stop the others. */
export function check(names: readonly string[], options: CheckOptions, program: Program): Outcome {
  const found = windingFiles(names);
  const unread: UnreadPlace[] = [...found.unread];
  const checked = found.files.flatMap((name): readonly CheckedFile[] => {
    const file = name === '-' ? '<stdin>' : name;
    try {
      const { text, findings, limits } = study(readText(name));
      return [{ file, text, findings, limits }];
    } catch (problem) {
      if (!(problem instanceof UsageError)) throw problem;
      unread.push({ file, problem: problem.message });
      return [];
    }
  });
  const complaints = unread.map(({ problem }) => problem);
  if (checked.length === 0 && unread.length === 0 && !options.allowEmpty)
    complaints.push(`no .winding files in ${names.join(', ')}.`);
  const counts = countFindings(checked.flatMap(({ findings }) => findings));
  return {
    exitCode: complaints.length > 0 ? 2 : exitCodeOf(counts, options.maxWarnings),
    output: outputs[options.format](checked, { unread, complaints, program }),
    complaints: complaints.map(complaintLine).join(''),
  };
}

interface Run {
  readonly unread: readonly UnreadPlace[];
  readonly complaints: readonly string[];
  readonly program: Program;
}

type Writer = (checked: readonly CheckedFile[], run: Run) => string;

const outputs: Readonly<Record<CheckOptions['format'], Writer>> = {
  text: (checked, { complaints }) =>
    checked.map(({ file, text, findings }) => findingLines(file, text, findings)).join('') +
    (checked.length === 0 && complaints.length > 0 ? '' : summaryLine(checked)),
  json: (checked, { unread }) =>
    jsonText({
      schema: 'slotwright-check/1',
      files: checked.map(({ file, text, findings }) => ({
        file,
        findings: reportedFindings(findings, lineStarts(text)),
      })),
      ...(unread.length === 0 ? {} : { unread }),
      ...countFindings(checked.flatMap(({ findings }) => findings)),
    }),
  sarif: (checked, { complaints, program }) =>
    jsonText(
      sarifLog(
        checked.map(({ file, text, findings }) => ({ uri: repositoryUri(file), text, findings })),
        { ...program, kinds: findingKinds, complaints },
      ),
    ),
  junit: (checked, { unread }) =>
    junitXml(
      checked.map((file) => ({ ...file, file: repositoryPath(file.file) })),
      unread,
    ),
};

function summaryLine(checked: readonly CheckedFile[]): string {
  const findings = checked.flatMap((file) => file.findings);
  const { errors, warnings } = countFindings(findings);
  const accepted = findings.filter((each) => each.accepted).length;
  const reviewed = accepted === 0 ? '' : `, ${plural(accepted, 'accepted warning')}`;
  return `${plural(checked.length, 'file')} checked: ${plural(errors, 'error')}, ${plural(warnings, 'warning')}${reviewed}.\n`;
}

/** The file's path from the root of its repository; without one, from the folder we run in. */
function repositoryPath(file: string): string {
  if (file === '<stdin>') return file;
  const below = pathBelow(repositoryRoot(file) ?? process.cwd(), file);
  return below ?? file.replaceAll('\\', '/');
}

/** The same as a relative URI; `stdin` for standard input. */
function repositoryUri(file: string): string {
  if (file === '<stdin>') return 'stdin';
  return repositoryPath(file).split('/').map(encodeURIComponent).join('/');
}
