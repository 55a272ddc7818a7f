import { findingKinds } from '../../core/findings/registry.ts';
import { plural } from '../../core/language/lists.ts';
import { lineStarts } from '../../core/language/text/lines.ts';
import { junitXml } from '../../core/report/junit.ts';
import { reportedFindings } from '../../core/report/reportedFindings.ts';
import { sarifLog } from '../../core/report/sarif.ts';
import { type Study, study } from '../../core/study.ts';
import { readText, UsageError } from '../files/files.ts';
import { type Search, type UnreadPlace, windingFiles } from '../files/search.ts';
import { pathBelow, repositoryRoot } from '../git.ts';
import { complaintLine, jsonText } from '../inert.ts';
import { countFindings, exitCodeOf, findingLines, type Outcome } from '../outcome.ts';
import { startThreads } from '../threads.ts';

export interface CheckOptions {
  readonly format: 'text' | 'json' | 'sarif' | 'junit';
  readonly maxWarnings: number;
  readonly allowEmpty?: boolean;
  /** Threads that check; default 1. */
  readonly workers?: number;
  /** Findings after which no further file is checked; default `mostTold`. */
  readonly mostFindings?: number;
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

/** Findings after which no further file is checked: nobody reads on, and no format holds any number. */
export const mostTold = 50_000;

/** What is known of a run once its files are checked. */
interface Tally {
  files: number;
  errors: number;
  warnings: number;
  accepted: number;
  readonly unread: UnreadPlace[];
}

/** Checks files and folders; a file that cannot be read is complained of and does not stop the others. */
export function check(names: readonly string[], options: CheckOptions, program: Program): Outcome {
  const found = windingFiles(names);
  const asked = { names, found, options, program };
  const threads = Math.min(options.workers ?? 1, found.files.length);
  if (threads <= 1) return told(asked, mapped(found.files, checkFile));
  const later = async () => told(asked, await checkedInThreads(found.files, threads, mostOf(options)));
  return { exitCode: 0, output: '', complaints: '', later };
}

/** Reads and studies one file. */
function checkFile(name: string): CheckedFile | UnreadPlace {
  const file = shownFile(name);
  try {
    const { text, findings, limits } = study(readText(name));
    return { file, text, findings, limits };
  } catch (problem) {
    if (!(problem instanceof UsageError)) throw problem;
    return { file, problem: problem.message };
  }
}

function shownFile(name: string): string {
  return name === '-' ? '<stdin>' : name;
}

/** What threads work on that check files, whose names are their tasks. */
export const checking = 'check';

/** What such a thread does. No format tells the data of findings, which may be of any kind. */
export function checkInThread(name: string): CheckedFile | UnreadPlace {
  const checked = checkFile(name);
  if ('problem' in checked) return checked;
  return { ...checked, findings: checked.findings.map((each) => ({ ...each, data: null })) };
}

/** What came of files, in their order; not of those behind more findings than are told. */
async function checkedInThreads(
  files: readonly string[],
  count: number,
  most: number,
): Promise<readonly (CheckedFile | UnreadPlace)[]> {
  const checked: (CheckedFile | UnreadPlace)[] = [];
  const enough = new AbortController();
  let findings = 0;
  const take = (result: CheckedFile | UnreadPlace) => {
    checked.push(result);
    findings += 'problem' in result ? 0 : result.findings.length;
    if (findings >= most) enough.abort();
  };
  const threads = startThreads(count, checking);
  try {
    await threads.deal({ tasks: files, take, stop: enough.signal });
  } finally {
    await threads.end();
  }
  return checked;
}

/** What was asked, and what there is to check. */
interface Asked {
  readonly names: readonly string[];
  readonly found: Search;
  readonly options: CheckOptions;
  readonly program: Program;
}

/** Tells what came of the files, which come one by one. */
function told(
  { names, found, options, program }: Asked,
  results: Iterable<CheckedFile | UnreadPlace>,
): Outcome {
  const tally: Tally = { files: 0, errors: 0, warnings: 0, accepted: 0, unread: [...found.unread] };
  const nothing = found.files.length === 0 && found.unread.length === 0 && !options.allowEmpty;
  const complaints = () => [
    ...tally.unread.map(({ problem }) => problem),
    ...(nothing ? [`no .winding files in ${names.join(', ')}.`] : []),
  ];
  const checked = counted(results, found.files, tally, mostOf(options));
  const output = outputs[options.format](checked, { tally, complaints, program });
  const trouble = complaints();
  return {
    exitCode: trouble.length > 0 ? 2 : exitCodeOf(tally, options.maxWarnings),
    output,
    complaints: trouble.map(complaintLine).join(''),
  };
}

function mostOf({ mostFindings = mostTold }: CheckOptions): number {
  return mostFindings;
}

/** The files that were checked, as they are asked for, and counts what is found in them. */
function* counted(
  results: Iterable<CheckedFile | UnreadPlace>,
  names: readonly string[],
  tally: Tally,
  most: number,
): Generator<CheckedFile> {
  let [done, findings] = [0, 0];
  for (const result of results) {
    done++;
    if ('problem' in result) {
      tally.unread.push(result);
    } else {
      const { errors, warnings } = countFindings(result.findings);
      tally.files++;
      tally.errors += errors;
      tally.warnings += warnings;
      tally.accepted += result.findings.filter((each) => each.accepted).length;
      findings += result.findings.length;
      yield result;
    }
    if (findings < most || done === names.length) continue;
    const file = shownFile(names[done]!);
    const others = names.length - done - 1;
    const files = others === 0 ? 'is' : `and ${plural(others, 'file')} behind it are`;
    const problem = `${file} ${files} not checked: ${findings} findings are told already.`;
    tally.unread.push({ file, problem });
    return;
  }
}

/** What writers need beside the files; `complaints` and `tally` are whole when all files have been taken. */
interface Run {
  readonly tally: Tally;
  readonly complaints: () => readonly string[];
  readonly program: Program;
}

type Writer = (checked: Iterable<CheckedFile>, run: Run) => string;

const outputs: Readonly<Record<CheckOptions['format'], Writer>> = {
  text: (checked, { tally, complaints }) => {
    const lines = Array.from(checked, ({ file, text, findings }) => findingLines(file, text, findings));
    return lines.join('') + (tally.files === 0 && complaints().length > 0 ? '' : summaryLine(tally));
  },
  json: (checked, { tally }) => {
    const files = Array.from(checked, ({ file, text, findings }) => ({
      file,
      findings: reportedFindings(findings, lineStarts(text)),
    }));
    const { unread, errors, warnings } = tally;
    return jsonText({
      schema: 'slotwright-check/1',
      files,
      ...(unread.length === 0 ? {} : { unread }),
      errors,
      warnings,
    });
  },
  sarif: (checked, { complaints, program }) =>
    jsonText(
      sarifLog(
        mapped(checked, ({ file, text, findings }) => ({ uri: repositoryUri(file), text, findings })),
        { ...program, kinds: findingKinds, complaints },
      ),
    ),
  junit: (checked, { tally }) =>
    junitXml(
      mapped(checked, (file) => ({ ...file, file: repositoryPath(file.file) })),
      tally.unread,
    ),
};

function* mapped<From, To>(items: Iterable<From>, map: (item: From) => To): Generator<To> {
  for (const item of items) yield map(item);
}

function summaryLine({ files, errors, warnings, accepted }: Tally): string {
  const reviewed = accepted === 0 ? '' : `, ${plural(accepted, 'accepted warning')}`;
  return `${plural(files, 'file')} checked: ${plural(errors, 'error')}, ${plural(warnings, 'warning')}${reviewed}.\n`;
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
