import { type Disposable, type Uri, workspace } from 'vscode';
import type { Steps } from '../core/figures/steps.ts';
import type { Finding } from '../core/language/finding.ts';
import { closedFile, type ReadText } from './closedFile.ts';
import type { CreateCheckFile } from './engine/checkFile.ts';
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
/** Milliseconds of work at once. */
const slice = 8;
/** After a key nothing is done for so long, ms. */
const quiet = 400;

/** Where findings of files that are not open are shown. */
export interface ClosedFindings {
  readonly set: (engine: Running, file: ReadText, findings: readonly Finding[]) => void;
  readonly clear: (uri: Uri) => void;
}

/**
 * Findings of all winding files of the workspace, one file after another in slices between the reader's keys, each
 * again when it changes on the disk. Open files have their own findings, of the text as it stands in the editor.
 */
export function startWorkspaceFindings(
  engine: EngineAtHand,
  shown: ClosedFindings,
  log: Log,
  { now, later }: Surroundings,
): Disposable[] {
  const waiting = new Map<string, Uri>();
  const looked = new Map<string, { readonly uri: Uri; readonly text: string }>();
  const state = {
    lastKey: Number.NEGATIVE_INFINITY,
    working: false,
    ended: false,
    found: 0,
    scans: 0,
    wake: () => {},
  };
  const pause = () => new Promise<void>((resolve) => later(resolve));

  const isOpen = (uri: Uri) =>
    workspace.textDocuments.some((document) => document.uri.toString() === uri.toString());

  /** Comes back once no key has been pressed for a while. */
  const calm = async () => {
    while (now() - state.lastKey < quiet && !state.ended)
      await new Promise<void>((resolve) => setTimeout(resolve, quiet));
  };

  /** Does the steps in slices; null where all of this has ended meanwhile. */
  const inSlices = async <Result>(steps: Steps<Result>): Promise<Result | null> => {
    for (;;) {
      await calm();
      if (state.ended) return null;
      const end = now() + slice;
      do {
        const step = steps.next();
        if (step.done) return step.value;
      } while (now() < end);
      await pause();
    }
  };

  /** The findings of a text once its paths are found and its ends measured; null where all of this has ended. */
  const findingsOf = async (
    createCheckFile: CreateCheckFile,
    text: string,
  ): Promise<readonly Finding[] | null> => {
    const found = () => {
      state.found++;
      state.wake();
    };
    const calmly = { now, later: (go: () => void) => void calm().then(() => later(go)) };
    const check = createCheckFile(calmly, found);
    for (;;) {
      const before = state.found;
      const study = await inSlices(check(text));
      if (study === null) return null;
      if (!(study.pending || study.measuring)) return study.findings;
      // What was found during the check may be what it lacks.
      if (state.found === before)
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
    const findings = await findingsOf(running.createCheckFile, text);
    // Meanwhile it may have been opened, or have changed, or be unwanted.
    if (findings === null || isOpen(uri) || waiting.has(address) || !wantsWorkspaceFindings()) return;
    looked.set(address, { uri, text });
    shown.set(running, file, findings);
  };

  const work = async (): Promise<void> => {
    if (state.working) return;
    state.working = true;
    for (;;) {
      const next = waiting.values().next().value;
      if (!next || state.ended) break;
      waiting.delete(next.toString());
      await calm();
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
    state.scans++;
    const own = state.scans;
    const folders = wantsWorkspaceFindings() ? (workspace.workspaceFolders ?? []) : [];
    const { files, more, unread, ended } = await findWindingFiles(
      folders.map(({ uri }) => uri),
      mostFiles,
    );
    // What was begun later knows better.
    if (state.ended || own !== state.scans) return;
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
    for (const [address, uri] of [...waiting]) if (!present.has(address)) forget(uri);
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
