import { type Disposable, type Uri, workspace } from 'vscode';
import type { Finding } from '../core/language/finding.ts';
import { createCalmWork } from './calmWork.ts';
import { closedFile, type ReadText } from './closedFile.ts';
import type { Surroundings } from './engine/surroundings.ts';
import type { EngineAtHand, Running } from './engineAtHand.ts';
import type { Log } from './log.ts';
import { wantsWorkspaceFindings } from './settings.ts';
import { lastPart } from './windingDocument.ts';
import { type FoundFiles, findWindingFiles, isHandedOver, manifestName } from './windingFiles.ts';
import { l10n } from './wording.ts';

/** Files that are looked at besides the open ones. */
const mostFiles = 2000;
/** Larger files are looked at when they are opened. */
const mostBytes = 2_000_000;

/** Where findings of files that are not open are shown. */
export interface ClosedFindings {
  readonly set: (engine: Running, file: ReadText, findings: readonly Finding[]) => void;
  readonly clear: (uri: Uri) => void;
}

/**
 * Findings of all winding files of the workspace, one file after another in slices between the reader's keys, each
 * again when it changes on the disk. Open files have their own findings, of the text as it stands in the editor; copies
 * in handover packages have none.
 */
export function startWorkspaceFindings(
  engine: EngineAtHand,
  shown: ClosedFindings,
  log: Log,
  surroundings: Surroundings,
): Disposable[] {
  const background = createCalmWork(surroundings);
  const waiting = new Map<string, Uri>();
  const looked = new Map<string, { readonly uri: Uri; readonly text: string }>();
  let working = false;
  let scans = 0;

  const look = async (uri: Uri): Promise<void> => {
    const address = uri.toString();
    const bytes = await workspace.fs.readFile(uri);
    if (bytes.length > mostBytes || (await isHandedOver(uri))) return forget(uri);
    const text = new TextDecoder().decode(bytes);
    if (looked.get(address)?.text === text) return;
    const file = closedFile(uri, text);
    const running = await engine.ready();
    const findings = await background.findingsOf(running.createCheckFile, text);
    // Meanwhile it may have been opened, or have changed, or be unwanted.
    if (findings === null || isOpen(uri) || waiting.has(address) || !wantsWorkspaceFindings()) return;
    looked.set(address, { uri, text });
    shown.set(running, file, findings);
  };

  const work = async (): Promise<void> => {
    if (working) return;
    working = true;
    for (;;) {
      const next = waiting.values().next().value;
      if (!next || background.hasEnded()) break;
      waiting.delete(next.toString());
      await background.calm();
      // What cannot be read has gone.
      if (!isOpen(next)) await look(next).catch(() => forget(next));
      await background.pause();
    }
    working = false;
  };
  const ask = (uri: Uri) => {
    waiting.set(uri.toString(), uri);
    surroundings.later(() => void work());
  };
  const forget = (uri: Uri) => {
    looked.delete(uri.toString());
    waiting.delete(uri.toString());
    if (!isOpen(uri)) shown.clear(uri);
  };

  const scan = async (): Promise<void> => {
    const own = ++scans;
    const folders = wantsWorkspaceFindings() ? (workspace.workspaceFolders ?? []) : [];
    const found = await findWindingFiles(
      folders.map(({ uri }) => uri),
      mostFiles,
    );
    // What was begun later knows better.
    if (background.hasEnded() || own !== scans) return;
    tellLeftOut(found, log);
    const present = new Set(found.files.map((uri) => uri.toString()));
    for (const [address, { uri }] of [...looked]) if (!present.has(address)) forget(uri);
    for (const [address, uri] of [...waiting]) if (!present.has(address)) forget(uri);
    for (const uri of found.files) ask(uri);
  };

  const watcher = workspace.createFileSystemWatcher(`**/{*.winding,${manifestName}}`);
  const changed = (uri: Uri) => {
    if (!wantsWorkspaceFindings() || !workspace.getWorkspaceFolder(uri)) return;
    if (lastPart(uri.path) !== manifestName) return ask(uri);
    // A handover package has come round windings that were looked at.
    const folder = uri.path.slice(0, -manifestName.length);
    for (const { uri: beside } of [...looked.values()])
      if (beside.path === folder + lastPart(beside.path)) ask(beside);
  };
  surroundings.later(() => void scan());
  return [
    watcher,
    watcher.onDidCreate(changed),
    watcher.onDidChange(changed),
    watcher.onDidDelete(forget),
    // Of folders that are moved or deleted no file is told by itself.
    workspace.onDidRenameFiles(() => void scan()),
    workspace.onDidDeleteFiles(() => void scan()),
    workspace.onDidChangeWorkspaceFolders(() => void scan()),
    workspace.onDidChangeTextDocument(background.disturb),
    workspace.onDidCloseTextDocument(({ uri }) => {
      looked.delete(uri.toString());
      changed(uri);
    }),
    workspace.onDidChangeConfiguration((event) => {
      if (!event.affectsConfiguration('slotwright')) return;
      // They may be unwanted now, or to be shown otherwise.
      for (const { uri } of [...looked.values()]) forget(uri);
      void scan();
    }),
    { dispose: background.end },
  ];
}

/** What was not looked through, in the log. */
function tellLeftOut({ more, unread, ended }: FoundFiles, log: Log): void {
  for (const words of unread) log.error(l10n.t('Not looked into for findings: {0}', words));
  if (ended)
    log.error(l10n.t('The workspace has so many files that not all of it was looked through for windings.'));
  if (more > 0)
    log.info(
      l10n.t(
        'Findings are shown of the first {0} winding files of the workspace; those of {1} more when they are opened.',
        mostFiles,
        more,
      ),
    );
}

function isOpen(uri: Uri): boolean {
  return workspace.textDocuments.some((document) => document.uri.toString() === uri.toString());
}
