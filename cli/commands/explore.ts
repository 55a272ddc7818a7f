import { finished } from '../../core/figures/steps.ts';
import type { Finding } from '../../core/language/finding.ts';
import {
  answer,
  collectionFor,
  type MergeRefusal,
  mergeAnswers,
  rowValues,
} from '../../core/variants/answer.ts';
import { chosenText } from '../../core/variants/chosen.ts';
import type { Kept } from '../../core/variants/collect.ts';
import { type Evaluator, evaluator } from '../../core/variants/evaluate.ts';
import type { Shard } from '../../core/variants/explore.ts';
import { editedText } from '../../core/variants/places.ts';
import { measureName, mostCandidates, questionOf } from '../../core/variants/question.ts';
import { type Variants, variantsSchema } from '../../core/variants/schema.ts';
import { answerCsv, answerText, csvHeader, csvRow } from '../../core/variants/table.ts';
import { confirmed } from '../files/confirmed.ts';
import { outputFormat, requireFolder } from '../files/destination.ts';
import { decodedText, nameOf, readBytes, readText, UsageError } from '../files/files.ts';
import { writeStandardOutput } from '../files/standardStreams.ts';
import { complaintLine, jsonText, printedText } from '../inert.ts';
import { delivered, findingLines, type Outcome } from '../outcome.ts';
import { judgeAll } from './exploreRun.ts';

export interface ExploreOptions {
  readonly vary?: readonly string[];
  readonly hold?: string;
  readonly keep?: readonly string[];
  readonly rank?: string;
  /** Rows to list. */
  readonly top?: number;
  /** Threads. */
  readonly workers: number;
  readonly shard?: Shard;
  readonly format?: 'table' | 'csv' | 'json';
  readonly output?: string;
  /** Number of the variant to write out, from 1. */
  readonly write?: number;
  readonly merge?: readonly string[];
  readonly yes?: boolean;
}

/** Rows listed where nothing else is said. */
const standardTop = 20;
/** Whole studies above which the run has to be asked for. */
const mostStudies = 1e5;

/** Judges the variants that a text asks for, joins parts of such runs, or writes one variant out. */
export function explore(file: string | undefined, options: ExploreOptions, version: string): Outcome {
  const format = requireFitting(file, options);
  if (options.merge) return merged(options.merge, format, options);
  const asked = askedText(file, options);
  const question = questionOf(asked.text);
  if (question.errors.length > 0)
    return {
      exitCode: 1,
      output: '',
      complaints: asked.notes + question.errors.map((each) => errorLine(asked, each)).join(''),
    };
  if (question.rows.length === 0)
    throw new UsageError(
      `${nameOf(file ?? '-')}: nothing varies; a block 'vary' says what, or --vary, as in --vary 'machine slots 36 to 72 by 6'.`,
    );
  if (question.candidates > mostCandidates)
    throw new UsageError(`${question.candidates} candidates; at most ${mostCandidates} are judged.`);
  const judge = evaluator(question);
  const name = file === undefined ? 'the options' : nameOf(file);
  if (options.write !== undefined) return written(judge, options.write, name, options, file);
  if (options.output !== undefined) requireFolder(options.output);
  const share = Math.ceil(question.candidates / (options.shard?.of ?? 1));
  const many = judge.wholeAsked && share > mostStudies && !options.yes;
  return {
    exitCode: 0,
    output: '',
    complaints: '',
    later: async () => {
      if (many) await askFor(share);
      return ran(judge, asked, format, options, version);
    },
  };
}

/** Asks before very many whole studies; throws UsageError where they are not wanted, or nobody can be asked. */
async function askFor(studies: number): Promise<void> {
  const words = `up to ${studies} whole studies, with paths and copper: at tens a second they take long`;
  const answer = await confirmed(
    `slotwright: ${words}. A keep of layout quantities leaves out most before; Ctrl-C ends at any time with what is there. Start?`,
  );
  if (answer === null)
    throw new UsageError(
      `${words}. --yes starts them; --shard 1/8 takes a part; a keep of layout quantities leaves out most before.`,
    );
  if (!answer) throw new UsageError('not started.');
}

type Format = 'table' | 'csv' | 'json';

function requireFitting(file: string | undefined, options: ExploreOptions): Format {
  const { write, output, merge, shard, vary, keep, rank, hold, format, workers } = options;
  const others =
    file !== undefined || vary || keep || rank || hold || shard || write !== undefined || workers > 1;
  if (merge && others) throw new UsageError('--merge stands alone: the parts say what was asked.');
  if (write !== undefined) {
    if (format) throw new UsageError('--write writes a winding; leave out --format.');
    if (output !== undefined) outputFormat(output, ['winding'], file ?? '-');
    return 'table';
  }
  const made = output === undefined ? undefined : outputFormat(output, ['csv', 'json', 'txt'], file ?? '-');
  const byEnding = made === 'txt' ? 'table' : (made as Format | undefined);
  if (format && byEnding && format !== byEnding)
    throw new UsageError(`--output ${output} does not end like a file of the format ${format}.`);
  return format ?? byEnding ?? 'table';
}

/** The text that asks: that of the file, with the rows of the options in its block. */
interface Asked {
  readonly file: string;
  readonly text: string;
  readonly notes: string;
  /** Where rows of options stand in the text. */
  readonly rows: readonly { readonly option: string; readonly start: number; readonly end: number }[];
}

const bare = 'winding "Variants"\n\nmachine { phases 3 }\n\nlayout { layers 2 }\n';

function askedText(file: string | undefined, options: ExploreOptions): Asked {
  const text = file === undefined ? bare : decodedText(readBytes(file), nameOf(file));
  const lines = [
    ...(options.vary ?? []).map((row) => ['--vary', row] as const),
    ...(options.hold === undefined ? [] : [['--hold', `hold ${options.hold}`] as const]),
    ...(options.keep ?? []).map((row) => ['--keep', `keep ${row}`] as const),
    ...(options.rank === undefined ? [] : [['--rank', `rank ${options.rank}`] as const]),
  ];
  const spans = lines.some(([, line]) => /^\s*layout\s+span\b/.test(line));
  const assumed = file === undefined && !spans ? ['layout span nominal'] : [];
  const notes =
    file === undefined
      ? `slotwright: without a file: phases 3, layers 2${spans ? '' : ', span nominal'}, unless a row says otherwise\n`
      : '';
  if (lines.length + assumed.length === 0) return { file: file!, text, notes, rows: [] };
  // An option is one row: what would close the block, or begin a line, stays a row that is wrong.
  const flat = (line: string) => line.replace(/[\r\n]+/g, ' ');
  const { document } = questionOf(text);
  const block = document.blocks.find(
    ({ name, range }) => name === 'vary' && text.slice(range.end - 1, range.end) === '}',
  );
  // What is said once in the block is said by the option instead.
  const instead = [
    ...(options.hold === undefined ? [] : ['hold']),
    ...(options.rank === undefined ? [] : ['rank']),
  ];
  const replaced = (block?.statements ?? [])
    .filter(({ entry }) => instead.includes(entry.word))
    .map(({ range }) => ({ range, text: '' }));
  const at = block ? block.range.end - 1 : text.length;
  let made = editedText(text.slice(0, at), replaced) + (block ? '\n' : '\nvary {\n');
  for (const row of assumed) made += `  ${row}\n`;
  const rows = lines.map(([option, line]) => {
    const start = made.length;
    made += `  ${flat(line)}\n`;
    return { option, start, end: made.length };
  });
  made += block ? text.slice(at) : '}\n';
  return { file: file ?? '-', text: made, notes, rows };
}

/** A finding in a row of an option is told with the option; else with its line. */
function errorLine({ file, text, rows }: Asked, found: Finding): string {
  const row = rows.find(({ start, end }) => start <= found.range.start && found.range.start < end);
  if (!row) return findingLines(file, text, [found]);
  const words = text
    .slice(row.start, row.end)
    .trim()
    .replace(/^(hold|keep|rank) /, row.option === '--vary' ? '$1 ' : '');
  return complaintLine(`${row.option} '${words}': ${found.message} [${found.code}]`);
}

/** Runs a question to its end, or until it is stopped. */
async function ran(
  judge: Evaluator,
  asked: Asked,
  format: Format,
  options: ExploreOptions,
  version: string,
): Promise<Outcome> {
  const { question } = judge;
  const top = options.top ?? standardTop;
  const collected = collectionFor(question, top);
  const shard = options.shard ?? null;
  // Without --top a CSV file is every row kept, as they come.
  const streaming = format === 'csv' && options.top === undefined;
  const names = {
    vary: question.rows.flatMap(({ columns }) => columns.map(({ name }) => ({ word: name }))),
    figures: question.measures.map(measureName),
    limits: [],
  };
  let held = '';
  let trouble: string | null = null;
  const parts: string[] = [];
  const flush = async () => {
    if (held === '') return;
    const chunk = held;
    held = '';
    if (options.output === undefined) trouble ??= await writeStandardOutput(chunk);
    else parts.push(chunk);
  };
  if (streaming) held = csvHeader(names);
  const heard = (candidate: Kept) => {
    if (!streaming) return;
    const figures = Object.fromEntries(
      names.figures.map((name, at) => [name, candidate.figures[at] ?? null]),
    );
    const { number } = candidate;
    held += csvRow(names, { number, values: rowValues(judge, number), figures, limits: null, front: null });
  };
  const { complete, looks } = await judgeAll({
    judge,
    collected,
    text: asked.text,
    shard,
    workers: options.workers,
    heard,
    flush,
    listing: !streaming,
  });
  await flush();
  const part = complete ? '' : complaintLine('stopped: what is here is a part of the answer.');
  const complaints =
    asked.notes + part + (trouble === null ? '' : complaintLine(`standard output: ${trouble}`));
  const exitCode = trouble !== null ? 2 : complete ? 0 : 1;
  // What is streamed to standard output is out already.
  if (streaming) return delivered(parts.join(''), options.output, { exitCode, complaints });
  const made = finished(answer(judge, collected, { version, top, complete, shard }, looks));
  return told(made, format, options, { exitCode, complaints });
}

/** An answer on standard output, or in its file. */
function told(
  made: Variants,
  format: Format,
  { output }: Pick<ExploreOptions, 'output'>,
  rest: Pick<Outcome, 'exitCode' | 'complaints'>,
): Outcome {
  const text = format === 'json' ? jsonText(made) : format === 'csv' ? answerCsv(made) : answerText(made);
  return delivered(text, output, rest);
}

function written(
  judge: Evaluator,
  number: number,
  name: string,
  { output }: ExploreOptions,
  file: string | undefined,
): Outcome {
  const { candidates } = judge.question;
  if (number > candidates)
    throw new UsageError(
      `--write ${number}: there are ${candidates} candidates; explore without --write lists them.`,
    );
  const text = chosenText(judge, number, name);
  if (text === null)
    throw new UsageError(`--write ${number}: this combination is refused; it makes no winding.`);
  const winding =
    output === undefined ? printedText(file ?? '-', text, '--output writes it to a file') : text;
  return delivered(winding, output, { exitCode: 0, complaints: '' });
}

/** Parts of one question, joined. */
function merged(files: readonly string[], format: Format, options: ExploreOptions): Outcome {
  const parts = files.map((file): Variants => {
    let content: unknown;
    try {
      content = JSON.parse(readText(file));
    } catch (problem) {
      if (problem instanceof UsageError) throw problem;
      throw new UsageError(`${nameOf(file)}: no JSON of 'explore --format json'.`);
    }
    const read = variantsSchema.safeParse(content);
    if (!read.success) throw new UsageError(`${nameOf(file)}: no JSON of 'explore --format json'.`);
    return read.data;
  });
  const joined = mergeAnswers(parts);
  if ('kind' in joined) throw new UsageError(refusalWords(joined, files, parts));
  const part = joined.complete ? '' : complaintLine('parts were stopped: this is a part of the answer.');
  return told(joined, format, options, { exitCode: joined.complete ? 0 : 1, complaints: part });
}

function refusalWords(refusal: MergeRefusal, files: readonly string[], parts: readonly Variants[]): string {
  const name = (part: number) => nameOf(files[part]!);
  switch (refusal.kind) {
    case 'none':
      return '--merge needs the files of all shards.';
    case 'no-part':
      return `${name(refusal.part)}: no part; it was made without --shard.`;
    case 'foreign':
      return `${name(refusal.part)}: not of the question of ${name(0)}; its ${foreign[refusal.what] ?? refusal.what} differs.`;
    case 'double':
      return `${name(refusal.part)}: shard ${refusal.index} is there already.`;
    case 'missing':
      return refusal.indexes.length === 1
        ? `shard ${refusal.indexes[0]} of ${parts[0]!.shard!.of} is missing.`
        : `shards ${refusal.indexes.join(', ')} of ${parts[0]!.shard!.of} are missing.`;
  }
}

const foreign: Readonly<Record<string, string>> = {
  version: 'version of slotwright',
  textHash: 'text',
  top: '--top',
  candidates: 'number of candidates',
  shard: 'number of shards',
};
