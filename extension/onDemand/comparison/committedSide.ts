import type { Uri } from 'vscode';
import { lastPart } from '../../windingDocument.ts';
import { l10n } from '../../wording.ts';
import type { GitApi, GitCommit, GitRepository } from './gitApi.ts';
import type { Side } from './host.ts';

/** Characters of a commit's name that are shown. */
const shownHash = 10;

/**
 * A file as git has it at a revision; or, as a sentence, why git has nothing: no such revision, no commit yet, a
 * file that is not tracked, not committed, or not there at that revision. The commit that the revision names now is
 * compared and named, so that what is shown stays what its name says when a branch moves on.
 */
export async function committedSide(
  git: GitApi,
  repository: GitRepository,
  uri: Uri,
  ref: string,
): Promise<Side | string> {
  const name = lastPart(uri.path);
  const commit = await commitOf(repository, ref);
  if (commit === null)
    return ref === 'HEAD'
      ? l10n.t('The repository of {0} has no commit yet, so there is nothing to compare with.', name)
      : l10n.t(
          'Git knows no revision "{0}" in the repository of {1}. It takes a branch, a tag or a commit.',
          ref,
          name,
        );
  const revision = commit.hash.slice(0, shownHash);
  if (!(await has(repository, commit.hash, uri))) return absentWords(repository, uri, name, ref, revision);
  return {
    uri: git.toGitUri(uri, commit.hash),
    name: l10n.t('{0} at {1}', name, revision),
    about: aboutCommit(ref, commit),
  };
}

/** The commit that a revision names; null where git knows none. A git without the question is believed the name. */
async function commitOf(repository: GitRepository, ref: string): Promise<GitCommit | null> {
  if (repository.getCommit === undefined) return { hash: ref, message: '' };
  try {
    // A tag with words of its own names a commit, but is none.
    const commit = await repository.getCommit(`${ref}^{commit}`);
    return /^[0-9a-f]{40,64}$/.test(commit.hash) ? commit : { hash: ref, message: '' };
  } catch {
    return null;
  }
}

async function has(repository: GitRepository, ref: string, uri: Uri): Promise<boolean> {
  return repository.show(ref, uri.fsPath).then(
    () => true,
    () => false,
  );
}

/** Why git has no such file at a revision that it knows. */
async function absentWords(
  repository: GitRepository,
  uri: Uri,
  name: string,
  ref: string,
  revision: string,
): Promise<string> {
  const commits = await repository.log({ maxEntries: 1, path: uri.fsPath }).catch(() => []);
  const at = ref.startsWith(revision) ? ref : `${ref} (${revision})`;
  if (commits.length > 0)
    return l10n.t('Git has no {0} at {1}: it came later, or had another name or place then.', name, at);
  if (await has(repository, '', uri))
    return l10n.t('{0} is staged but in no commit yet, so there is nothing to compare with.', name);
  return l10n.t('{0} is not tracked by git, so there is no committed version to compare with.', name);
}

/** The revision as it was picked, where that is not the commit's own name, and the commit's subject. */
function aboutCommit(ref: string, { hash, message }: GitCommit): string {
  const subject = message.split('\n')[0]?.trim() ?? '';
  const picked = hash.startsWith(ref) ? '' : l10n.t('{0} when compared', ref);
  return [picked, subject].filter((part) => part !== '').join(' · ');
}

/** A text of a text comparison: a file, or what git has of it, by the revision that its address tells. */
export function revisionSide(uri: Uri): Side {
  const name = lastPart(uri.path);
  const ref = uri.scheme === 'git' ? refOf(uri.query) : null;
  if (ref === null) return { uri, name, about: '' };
  // The editor's git writes so for what is staged, or else committed last.
  if (ref === '' || ref === '~') return { uri, name: l10n.t('{0} in the index', name), about: '' };
  const shown = /^[0-9a-f]{40,64}$/.test(ref) ? ref.slice(0, shownHash) : ref;
  return { uri, name: l10n.t('{0} at {1}', name, shown), about: '' };
}

function refOf(query: string): string | null {
  try {
    const { ref } = JSON.parse(query) as { readonly ref?: unknown };
    return typeof ref === 'string' ? ref : null;
  } catch {
    return null;
  }
}
