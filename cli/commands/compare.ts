import { pictureToSvg } from '../../core/picture/svg.ts';
import { compare } from '../../core/review/compare.ts';
import { comparedFilesMarkdown, comparisonMarkdown } from '../../core/review/markdown/markdown.ts';
import { overlayPicture } from '../../core/review/overlay.ts';
import { comparisonFails, type FailOn } from '../../core/review/policy.ts';
import {
  type ComparedFile,
  type Comparison,
  compareSchema,
  type FileStatus,
} from '../../core/review/schema.ts';
import { spaceChange } from '../../core/review/space/spaceChange.ts';
import { type Study, study } from '../../core/study.ts';
import { FileTrouble, readText, UsageError } from '../files/files.ts';
import { type FilePair, filesSince } from '../git.ts';
import { complaintLine, jsonText } from '../inert.ts';
import type { Outcome } from '../outcome.ts';

export interface CompareOptions {
  readonly base?: string;
  readonly format: 'markdown' | 'json' | 'svg';
  /** What an SVG shows. */
  readonly view?: 'layout' | 'space';
  readonly failOn: FailOn;
  readonly allowEmpty?: boolean;
}

/** Compares two files, or with `base` a file or folder with what git has of it at a commit. */
export function compareFiles(names: readonly string[], options: CompareOptions): Outcome {
  if (options.base !== undefined) return compareSince(names, options.base, options);
  const [oldName, newName] = names;
  if (oldName === undefined || newName === undefined || names.length > 2)
    throw new UsageError('compare needs two files, OLD and NEW; or --base with a file or folder.');
  if (oldName === '-' && newName === '-')
    throw new UsageError('standard input can be one of the two files, not both.');
  const [old, now] = [readText(oldName), readText(newName)];
  return single(
    { file: newName, status: 'changed', old, now, unread: noneUnread },
    oldName,
    newName,
    options,
  );
}

/**
 * One winding text before and after, null where the file is not there or cannot be read. Texts are studied
 * when they are compared, and the studies let go, so that many files fit.
 */
interface Revision {
  readonly file: string;
  readonly oldFile?: string | undefined;
  readonly status: FileStatus;
  readonly old: string | null;
  readonly now: string | null;
  readonly unread: Unread;
}

/** What of a file cannot be read. */
interface Unread {
  readonly old: FileTrouble | null;
  readonly now: FileTrouble | null;
}

const noneUnread: Unread = { old: null, now: null };

function single(
  revision: Revision,
  oldName: string,
  newName: string,
  options: CompareOptions,
  notes: readonly string[] = [],
): Outcome {
  if (options.format === 'svg')
    return { ...drawn(revision, notes, options.view), exitCode: exitCode([comparedFile(revision)], options) };
  const whole = compared(revision);
  const comparison = { ...whole, notes: [...notes, ...whole.notes] };
  const output =
    options.format === 'json' ? json({ ...comparison }) : comparisonMarkdown(comparison, oldName, newName);
  return {
    exitCode: comparisonFails(comparison, options.failOn) ? 1 : 0,
    output,
    complaints: complaintsOn([revision], notes),
  };
}

function compareSince(names: readonly string[], base: string, options: CompareOptions): Outcome {
  const [name] = names;
  if (name === undefined || names.length > 1 || name === '-')
    throw new UsageError('compare --base needs one file or folder.');
  const { files, folder, notes } = filesSince(base, name, options.allowEmpty);
  const revisions = files.map(revisionOf);
  if (options.format === 'svg') {
    const changed = folder ? revisions.filter(({ status }) => status !== 'same') : revisions;
    if (changed.length !== 1)
      throw new UsageError(
        `--format svg draws one file; ${changed.length} changed in ${name}. Name the file to draw.`,
      );
    return {
      ...drawn(changed[0]!, notes, options.view),
      exitCode: exitCode(changed.map(comparedFile), options),
    };
  }
  const [first] = revisions;
  if (!folder && first && revisions.length === 1 && options.format === 'json') {
    if (first.unread.now) throw first.unread.now;
    return single(first, `${base}:${first.oldFile ?? first.file}`, first.file, options, notes);
  }
  const all = revisions.map(comparedFile);
  const output =
    options.format === 'json'
      ? json({ files: all.map(fileInJson), notes })
      : comparedFilesMarkdown(all, base, notes);
  // What lies in the folder has to be readable; what git has from before cannot be mended any more.
  const unreadable = revisions.some(({ unread }) => unread.now !== null);
  return {
    exitCode: unreadable ? 2 : exitCode(all, options),
    output,
    complaints: complaintsOn(revisions, notes),
  };
}

/** Where nothing was compared because it needs no comparison, that is said. */
function fileInJson({ comparison, ...file }: ComparedFile): object {
  return { ...file, ...(comparison ?? (file.status === 'renamed' && !file.trouble ? { equal: true } : {})) };
}

function complaintsOn(revisions: readonly Revision[], notes: readonly string[]): string {
  const troubles = revisions.flatMap(({ unread }) => [unread.old, unread.now]);
  return [...troubles.flatMap((trouble) => trouble?.message ?? []), ...notes].map(complaintLine).join('');
}

function json(content: object): string {
  return jsonText(compareSchema.parse({ schema: 'slotwright-compare/1', ...content }));
}

function revisionOf(pair: FilePair): Revision {
  const { file, oldFile, old, now } = pair;
  const read = (text: string | FileTrouble | null) => (typeof text === 'string' ? text : null);
  const trouble = (text: string | FileTrouble | null) => (text instanceof FileTrouble ? text : null);
  return {
    file,
    ...(oldFile === undefined ? {} : { oldFile }),
    status: statusOf(pair),
    old: read(old),
    now: read(now),
    unread: { old: trouble(old), now: trouble(now) },
  };
}

function statusOf({ old, now, oldFile, sameBytes }: FilePair): FileStatus {
  if (old === null) return 'added';
  if (now === null) return 'deleted';
  if (oldFile !== undefined) return 'renamed';
  if (sameBytes) return 'same';
  if (typeof old !== 'string' || typeof now !== 'string') return 'changed';
  const plain = (text: string) => text.replaceAll('\r\n', '\n');
  return plain(old) === plain(now) ? 'same' : 'changed';
}

function comparedFile(revision: Revision): ComparedFile {
  const { file, oldFile, status, old, now, unread } = revision;
  const trouble = troubleWords(revision);
  // A text that only moved tells nothing new, and folders are moved with all that is in them.
  const comparable = status !== 'same' && old !== now && !unread.now;
  return {
    file,
    ...(oldFile === undefined ? {} : { oldFile }),
    status,
    ...(trouble === null ? {} : { trouble }),
    comparison: comparable ? compared(revision) : null,
  };
}

/** The comparison of a file of which at least one side can be read. */
function compared(revision: Revision): Comparison {
  const comparison = compare(...studies(revision));
  const trouble = troubleWords(revision);
  return trouble === null ? comparison : { ...comparison, notes: [trouble, ...comparison.notes] };
}

/** The studies of both sides; the same text is studied once. */
function studies({ old, now }: Pick<Revision, 'old' | 'now'>): [Study | null, Study | null] {
  const before = old === null ? null : study(old);
  return [before, now === null ? null : now === old ? before : study(now)];
}

/** What of a file cannot be read, and what follows; null where all can. */
function troubleWords({ status, unread: { old, now } }: Revision): string | null {
  const why = ({ why }: FileTrouble) => why.replace(/\.$/, '');
  if (now && old) return `Neither the old nor the new text can be read (${why(now)}): nothing is compared.`;
  if (now) return `The new text cannot be read (${why(now)}): nothing is compared.`;
  if (!old) return null;
  return status === 'deleted'
    ? `The deleted text cannot be read (${why(old)}): nothing is compared.`
    : `The old text cannot be read (${why(old)}): all of the new winding counts as new.`;
}

function exitCode(files: readonly ComparedFile[], { failOn }: CompareOptions): 0 | 1 {
  return files.some(({ comparison }) => comparison !== null && comparisonFails(comparison, failOn)) ? 1 : 0;
}

function drawn(
  revision: Revision,
  notes: readonly string[],
  view: CompareOptions['view'],
): Omit<Outcome, 'exitCode'> {
  const { file, now, unread } = revision;
  if (unread.now) throw unread.now;
  if (unread.old && now === null) throw unread.old;
  if (view === 'space') {
    const change = spaceChange(...studies(revision));
    if (change.kind === 'changed')
      return { output: pictureToSvg(change.picture), complaints: complaintsOn([revision], notes) };
    throw new UsageError(
      change.kind === 'same'
        ? `${file}: all bars stand in space as they did; nothing is drawn.`
        : `${file}: ${change.why}; nothing is drawn.`,
    );
  }
  const picture = overlayPicture(...studies(revision));
  if (!picture) throw new UsageError(`${file}: the text yields no slot table; nothing is drawn.`);
  return { output: pictureToSvg(picture), complaints: complaintsOn([revision], notes) };
}
