import { type Disposable, type TextDocument, type Uri, workspace } from 'vscode';
import type { Finding } from '../core/language/finding.ts';
import { closedFile, type ReadText } from './closedFile.ts';
import type { Studies } from './engine/studies.ts';
import type { Surroundings } from './engine/surroundings.ts';
import type { EngineAtHand, Running } from './engineAtHand.ts';
import type { Log } from './log.ts';
import { wantsWorkspaceFindings } from './settings.ts';
import { findWindingFiles } from './windingFiles.ts';
import { l10n } from './wording.ts';

/** Files that are looked at besides the open ones. */
const mostFiles = 2000;
/** Larger files are looked at when they are opened. */
const mostBytes = 2_000_000;
/** After a key nothing is begun for so long, ms. */
const quiet = 400;

/** Where findings of files that are not open are shown. */
export interface ClosedFindings {
  readonly set: (engine: Running, file: ReadText, findings: readonly Finding[]) => void;
  readonly clear: (uri: Uri) => void;
}

/**
 * Findings of all winding files of the workspace, one file after another between the reader's keys, each again when
 * it changes on the disk. Open files have their own findings, of the text as it stands in the editor.
 */
export function startWorkspaceFindings(
  engine: EngineAtHand,
  shown: ClosedFindings,
  log: Log,
  { now, later }: Surroundings,
): Disposable[] {
  /** Apart from those of open texts, and made with the first file. */
  let studies: Studies | null = null;
  const waiting = new Map<string, Uri>();
  const looked = new Map<string, { readonly uri: Uri; readonly text: string }>();
  const state = { lastKey: Number.NEGATIVE_INFINITY, working: false, ended: false, wake: () => {} };
  const pause = () => new Promise<void>((resolve) => later(resolve));

  const isOpen = (uri: Uri) =>
    workspace.textDocuments.some((document) => document.uri.toString() === uri.toString());

  /** The findings of a file once its paths are found and its ends measured. */
  const findingsOf = async ({ createStudies }: Running, file: ReadText): Promise<readonly Finding[]> => {
    if (studies === null) {
      studies = createStudies({ now, later });
      studies.onFound(() => state.wake());
    }
    for (;;) {
      // Studies ask nothing of a document that a file does not have.
      const { pending, measuring, findings } = studies.of(file as TextDocument);
      if (!(pending || measuring) || state.ended) return findings;
      await new Promise<void>((resolve) => {
        state.wake = resolve;
      });
    }
  };

  const look = async (uri: Uri): Promise<void> => {
    const address = uri.toString();
    const bytes = await workspace.fs.readFile(uri);
    if (bytes.length > mostBytes) return forget(uri);
    const text = new TextDecoder().decode(bytes);
    if (looked.get(address)?.text === text) return;
    const file = closedFile(uri, text);
    const running = await engine.ready();
    const findings = await findingsOf(running, file);
    // Meanwhile it may have been opened, or have changed.
    if (state.ended || isOpen(uri) || waiting.has(address)) return;
    looked.set(address, { uri, text });
    shown.set(running, file, findings);
  };

  const work = async (): Promise<void> => {
    if (state.working) return;
    state.working = true;
    for (;;) {
      const next = waiting.values().next().value;
      if (!next || state.ended) break;
      if (now() - state.lastKey < quiet) {
        await new Promise<void>((resolve) => setTimeout(resolve, quiet));
        continue;
      }
      waiting.delete(next.toString());
      // What cannot be read has gone.
      if (!isOpen(next)) await look(next).catch(() => forget(next));
      await pause();
    }
    state.working = false;
  };
  const ask = (uri: Uri) => {
    waiting.set(uri.toString(), uri);
    later(() => void work());
  };
  const forget = (uri: Uri) => {
    looked.delete(uri.toString());
    waiting.delete(uri.toString());
    if (!isOpen(uri)) shown.clear(uri);
  };

  const scan = async (): Promise<void> => {
    const folders = wantsWorkspaceFindings() ? (workspace.workspaceFolders ?? []) : [];
    const { files, more, unread, ended } = await findWindingFiles(
      folders.map(({ uri }) => uri),
      mostFiles,
    );
    if (state.ended) return;
    for (const words of unread) log.error(l10n.t('Not looked into for findings: {0}', words));
    if (ended)
      log.error(
        l10n.t('The workspace has so many files that not all of it was looked through for windings.'),
      );
    if (more > 0)
      log.info(
        l10n.t(
          'Findings are shown of the first {0} winding files of the workspace; those of {1} more when they are opened.',
          mostFiles,
          more,
        ),
      );
    const present = new Set(files.map((uri) => uri.toString()));
    for (const [address, { uri }] of [...looked]) if (!present.has(address)) forget(uri);
    for (const uri of files) ask(uri);
  };

  const watcher = workspace.createFileSystemWatcher('**/*.winding');
  const changed = (uri: Uri) => {
    if (wantsWorkspaceFindings() && workspace.getWorkspaceFolder(uri)) ask(uri);
  };
  later(() => void scan());
  return [
    watcher,
    watcher.onDidCreate(changed),
    watcher.onDidChange(changed),
    watcher.onDidDelete(forget),
    // Of folders that are moved or deleted no file is told by itself.
    workspace.onDidRenameFiles(() => void scan()),
    workspace.onDidDeleteFiles(() => void scan()),
    workspace.onDidChangeWorkspaceFolders(() => void scan()),
    workspace.onDidChangeTextDocument(() => {
      state.lastKey = now();
    }),
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
    {
      dispose: () => {
        state.ended = true;
        state.wake();
      },
    },
  ];
}
