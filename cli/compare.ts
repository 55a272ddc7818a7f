import { pictureToSvg } from '../core/drawing/svg.ts';
import { compare } from '../core/review/compare.ts';
import { comparedFilesMarkdown, comparisonMarkdown } from '../core/review/markdown.ts';
import { overlayPicture } from '../core/review/overlay.ts';
import { comparisonFails, type FailOn } from '../core/review/policy.ts';
import { type ComparedFile, compareSchema, type FileStatus } from '../core/review/schema.ts';
import { type Study, study } from '../core/study.ts';
import { readText, UsageError } from './files.ts';
import { type FilePair, filesSince } from './git.ts';
import type { Outcome } from './outcome.ts';

export interface CompareOptions {
  readonly base?: string;
  readonly format: 'markdown' | 'json' | 'svg';
  readonly failOn: FailOn;
}

/** Compares two files, or with `base` a file or folder with what git has of it at a commit. */
export function compareFiles(names: readonly string[], options: CompareOptions): Outcome {
  if (options.base !== undefined) return compareSince(names, options.base, options);
  const [oldName, newName] = names;
  if (oldName === undefined || newName === undefined || names.length > 2)
    throw new UsageError('compare needs two files, OLD and NEW; or --base with a file or folder.');
  if (oldName === '-' && newName === '-')
    throw new UsageError('standard input can be one of the two files, not both.');
  const [old, now] = [study(readText(oldName)), study(readText(newName))];
  return single({ file: newName, status: 'changed', old, now }, oldName, newName, options);
}

/** One winding before and after, null where the file is not there. */
interface Revision {
  readonly file: string;
  readonly oldFile?: string | undefined;
  readonly status: FileStatus;
  readonly old: Study | null;
  readonly now: Study | null;
}

function single(revision: Revision, oldName: string, newName: string, options: CompareOptions): Outcome {
  const { old, now } = revision;
  if (options.format === 'svg') return { ...drawn(revision), exitCode: exitCode([revision], options) };
  const comparison = compare(old, now);
  const output =
    options.format === 'json' ? json({ ...comparison }) : comparisonMarkdown(comparison, oldName, newName);
  return { exitCode: comparisonFails(comparison, options.failOn) ? 1 : 0, output, complaints: '' };
}

function compareSince(names: readonly string[], base: string, options: CompareOptions): Outcome {
  const [name] = names;
  if (name === undefined || names.length > 1 || name === '-')
    throw new UsageError('compare --base needs one file or folder.');
  const { files, folder } = filesSince(base, name);
  const revisions = files.map(revisionOf);
  if (options.format === 'svg') {
    const changed = folder ? revisions.filter(({ status }) => status !== 'same') : revisions;
    if (changed.length !== 1)
      throw new UsageError(
        `--format svg draws one file; ${changed.length} changed in ${name}. Name the file to draw.`,
      );
    return { ...drawn(changed[0]!), exitCode: exitCode(changed, options) };
  }
  const first = revisions[0]!;
  if (!folder && revisions.length === 1 && options.format === 'json')
    return single(first, `${base}:${first.oldFile ?? first.file}`, first.file, options);
  const compared = revisions.map(comparedFile);
  const output =
    options.format === 'json'
      ? json({ files: compared.map(({ comparison, ...file }) => ({ ...file, ...comparison })) })
      : comparedFilesMarkdown(compared, base);
  const fails = compared.some(
    ({ comparison }) => comparison !== null && comparisonFails(comparison, options.failOn),
  );
  return { exitCode: fails ? 1 : 0, output, complaints: '' };
}

function json(content: object): string {
  return `${JSON.stringify(compareSchema.parse({ schema: 'slotwright-compare/1', ...content }), null, 2)}\n`;
}

function revisionOf({ file, oldFile, old, now }: FilePair): Revision {
  return {
    file,
    ...(oldFile === undefined ? {} : { oldFile }),
    status: statusOf(old, now, oldFile),
    old: old === null ? null : study(old),
    now: now === null ? null : study(now),
  };
}

function statusOf(old: string | null, now: string | null, oldFile: string | undefined): FileStatus {
  if (old === null) return 'added';
  if (now === null) return 'deleted';
  if (oldFile !== undefined) return 'renamed';
  const plain = (text: string) => text.replaceAll('\r\n', '\n');
  return plain(old) === plain(now) ? 'same' : 'changed';
}

function comparedFile({ file, oldFile, status, old, now }: Revision): ComparedFile {
  return {
    file,
    ...(oldFile === undefined ? {} : { oldFile }),
    status,
    comparison: status === 'same' ? null : compare(old, now),
  };
}

function exitCode(revisions: readonly Revision[], { failOn }: CompareOptions): 0 | 1 {
  return revisions.some(({ old, now }) => comparisonFails(compare(old, now), failOn)) ? 1 : 0;
}

function drawn({ file, old, now }: Revision): Omit<Outcome, 'exitCode'> {
  const picture = overlayPicture(old, now);
  if (!picture) throw new UsageError(`${file}: the text yields no slot table; nothing is drawn.`);
  return { output: pictureToSvg(picture), complaints: '' };
}
