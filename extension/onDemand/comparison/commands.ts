import { type QuickPickItem, TabInputTextDiff, Uri, window, workspace } from 'vscode';
import { chosenWinding, isWinding, lastPart } from '../../windingDocument.ts';
import { findWindingFiles } from '../../windingFiles.ts';
import { l10n } from '../../wording.ts';
import { committedSide, revisionSide } from './committedSide.ts';
import { findGit, type GitRepository } from './gitApi.ts';
import type { ComparisonPanel, Side } from './host.ts';

/** Files that a list of windings offers. */
const mostOffered = 1000;

/**
 * Compares a winding with what git has of it at a revision that its reader picks. `target` is its address;
 * without it the active text counts.
 */
export async function compareCommitted(panel: ComparisonPanel, target: unknown): Promise<void> {
  const uri = await windingOf(target);
  if (uri === null)
    return inform(l10n.t('Open or select a winding file to compare it with its committed version.'));
  const git = await findGit();
  if (git === null)
    return inform(
      l10n.t(
        'Git is not to be had in this editor, so there is no committed version to compare with. "Compare Two Windings" compares any two files.',
      ),
    );
  const name = lastPart(uri.path);
  const repository = git.getRepository(uri);
  if (repository === null)
    return inform(
      l10n.t('{0} does not lie in a git repository. "Compare Two Windings" compares any two files.', name),
    );
  const ref = await pickedRevision(repository, uri);
  if (ref === null) return;
  const old = await committedSide(git, repository, uri, ref);
  if (typeof old === 'string') return inform(old);
  await shown(panel, old, sideOf(uri));
}

/** Compares two winding files: those selected in the explorer, else those its reader picks. */
export async function compareWindings(panel: ComparisonPanel, selected: unknown): Promise<void> {
  const given = Array.isArray(selected)
    ? selected.filter((item) => item instanceof Uri).filter(isWindingFile)
    : [];
  if (Array.isArray(selected) && selected.length > 1 && given.length !== 2)
    return inform(l10n.t('Select two winding files, or none to pick them from a list.'));
  const [old, now] = given.length === 2 ? given : await pickedPair();
  if (old && now) await shown(panel, sideOf(old), sideOf(now));
}

/** Compares the two texts of the text comparison that the editor shows. */
export async function compareShown(panel: ComparisonPanel): Promise<void> {
  const input = window.tabGroups.activeTabGroup.activeTab?.input;
  if (!(input instanceof TabInputTextDiff) || !isWindingFile(input.modified))
    return inform(l10n.t('Open the text comparison of a winding file first.'));
  const [old, now] = [revisionSide(input.original), revisionSide(input.modified)];
  const before = { ...old, name: l10n.t('{0}, before', old.name) };
  await shown(panel, old.name === now.name ? before : old, now);
}

async function shown(panel: ComparisonPanel, old: Side, now: Side): Promise<void> {
  try {
    await panel.show(old, now);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    window.showErrorMessage(l10n.t('The windings could not be compared: {0}', reason));
  }
}

async function windingOf(target: unknown): Promise<Uri | null> {
  if (target instanceof Uri) return isWindingFile(target) ? target : null;
  return (await chosenWinding(undefined))?.uri ?? null;
}

interface RevisionItem extends QuickPickItem {
  /** Null for one that is to be typed. */
  readonly ref: string | null;
}

async function pickedRevision(repository: GitRepository, uri: Uri): Promise<string | null> {
  const title = l10n.t('Compare windings');
  const picked = await window.showQuickPick(revisionItems(repository, uri), {
    title,
    placeHolder: l10n.t('Revision to compare {0} with', lastPart(uri.path)),
    matchOnDescription: true,
  });
  if (picked === undefined) return null;
  if (picked.ref !== null) return picked.ref;
  const typed = await window.showInputBox({ title, prompt: l10n.t('Branch, tag or commit') });
  return typed === undefined || typed.trim() === '' ? null : typed.trim();
}

/** The last commit, commits of the file, branches and tags, and any other revision by its name. */
async function revisionItems(repository: GitRepository, uri: Uri): Promise<RevisionItem[]> {
  const commits = await repository.log({ maxEntries: 20, path: uri.fsPath }).catch(() => []);
  const refs = (await repository.getRefs?.({}).catch(() => [])) ?? [];
  return [
    { ref: 'HEAD', label: 'HEAD', description: l10n.t('the last commit') },
    ...commits.map(({ hash, message }) => ({
      ref: hash.slice(0, 10),
      label: hash.slice(0, 10),
      description: message.split('\n')[0] ?? '',
    })),
    ...refs.flatMap(({ name }) =>
      name ? [{ ref: name, label: name, description: l10n.t('branch or tag') }] : [],
    ),
    { ref: null, label: l10n.t('Another revision...') },
  ];
}

async function pickedPair(): Promise<readonly Uri[]> {
  const files = await windingsAtHand();
  if (files.length < 2) {
    inform(l10n.t('The folder holds fewer than two winding files. Open a folder with both, or their texts.'));
    return [];
  }
  const items = files
    .map((uri) => ({ uri, label: workspace.asRelativePath(uri) }))
    .sort((one, other) => (one.label < other.label ? -1 : 1));
  const title = l10n.t('Compare windings');
  const old = await window.showQuickPick(items, { title, placeHolder: l10n.t('The old winding') });
  if (old === undefined) return [];
  const rest = items.filter((item) => item !== old);
  const now = await window.showQuickPick(rest, { title, placeHolder: l10n.t('The new winding') });
  return now === undefined ? [] : [old.uri, now.uri];
}

/** The winding files of the workspace, and the open texts that are no files yet. */
async function windingsAtHand(): Promise<readonly Uri[]> {
  const folders = (workspace.workspaceFolders ?? []).map(({ uri }) => uri);
  const { files } = await findWindingFiles(folders, mostOffered);
  const open = workspace.textDocuments.filter(isWinding).map(({ uri }) => uri);
  return [...new Map([...files, ...open].map((uri) => [uri.toString(), uri])).values()];
}

function isWindingFile({ path }: Uri): boolean {
  return /\.winding$/i.test(path);
}

function sideOf(uri: Uri): Side {
  return { uri, name: lastPart(uri.path), about: '' };
}

function inform(words: string): void {
  window.showInformationMessage(words);
}
