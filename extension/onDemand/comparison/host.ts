import {
  type Disposable,
  type TextDocument,
  type Uri,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import { type Study, studyOf } from '../../../core/study.ts';
import type { Studies } from '../../engine/studies.ts';
import { comparisonPanelType } from '../../panelTypes.ts';
import {
  type ComparisonState,
  readComparisonPage,
  readComparisonState,
} from '../../protocol/comparisonMessages.ts';
import { addressNamed, lastPart } from '../../windingDocument.ts';
import { l10n } from '../../wording.ts';
import { followFiles } from '../followFiles.ts';
import { givePage } from '../page.ts';
import { revealPlace } from '../reveal.ts';
import { comparisonContent, isBroken, type StudiedSide } from './content.ts';
import { findGit } from './gitApi.ts';
import { comparisonPage } from './page.ts';
import { createTurns } from './turns.ts';

/** A text to compare, and what to call it. */
export interface Side {
  readonly uri: Uri;
  /** The file and its revision. */
  readonly name: string;
  /** More about the revision in words; empty for none. */
  readonly about: string;
}

/** The comparison panel; it follows every edit of both texts. */
export interface ComparisonPanel extends Disposable {
  /** Compares two texts; rejects where one cannot be read. */
  readonly show: (old: Side, now: Side) => Promise<void>;
  /** Takes over a panel that the editor restored. */
  readonly restore: (panel: WebviewPanel, state: unknown) => Promise<void>;
}

interface OpenSide extends Side {
  readonly document: TextDocument;
  /** The last of its texts that could be drawn, as it was studied; null where none could. */
  readonly good: Study | null;
  /** It cannot be read any more: what was known of it is compared. */
  readonly lost: boolean;
}

interface Sides {
  readonly old: OpenSide;
  readonly now: OpenSide;
}

/** The panel, not open yet. */
export function createComparisonPanel(extensionUri: Uri, studies: Studies): ComparisonPanel {
  let panel: WebviewPanel | null = null;
  let sides: Sides | null = null;

  const turns = createTurns(() => {
    if (panel === null || sides === null) return;
    sides = { old: withGood(sides.old), now: withGood(sides.now) };
    panel.webview.postMessage(comparisonContent(studied(sides.old), studied(sides.now)));
  });
  const withGood = (side: OpenSide): OpenSide => {
    const present = studies.of(side.document);
    return isBroken(present) || present.text === side.good?.text ? side : { ...side, good: studyOf(present) };
  };
  const studied = ({ document, name, about, good, lost }: OpenSide): StudiedSide => {
    const present = studies.of(document);
    const study = good ?? studyOf(present);
    return { source: document.uri.toString(), name, about, lost, present, study };
  };
  const turn = (next: Sides) => {
    sides = next;
    if (panel !== null) panel.title = titleOf(next);
    turns.changed();
  };
  /** Changes the sides that show the text of this address. */
  const change = (source: string, changedSide: (side: OpenSide) => OpenSide) => {
    if (sides === null) return;
    const { old, now } = sides;
    const isOf = (side: OpenSide) => side.document.uri.toString() === source;
    if (!isOf(old) && !isOf(now)) return;
    turn({ old: isOf(old) ? changedSide(old) : old, now: isOf(now) ? changedSide(now) : now });
  };
  // A text that was closed and opened again is a new document.
  const changed = (document: TextDocument) =>
    change(document.uri.toString(), (side) => ({ ...side, document, lost: false }));
  const found = (document: TextDocument) => {
    // The study is a new one, with joints.
    if (sides !== null)
      sides = {
        old: sides.old.document === document ? { ...sides.old, good: null } : sides.old,
        now: sides.now.document === document ? { ...sides.now, good: null } : sides.now,
      };
    changed(document);
  };
  const adopt = (next: WebviewPanel, problem: string | null) => {
    panel?.dispose();
    panel = next;
    turns.gone();
    next.onDidDispose(() => {
      if (panel !== next) return;
      panel = null;
      turns.gone();
    });
    next.onDidChangeViewState(() => {
      if (panel === next && !next.visible) turns.gone();
    });
    next.webview.onDidReceiveMessage((value: unknown) => {
      const message = readComparisonPage(value);
      if (message === null || panel !== next) return;
      if (message.kind === 'ready') turns.begun();
      if (message.kind === 'shown') turns.answered();
      if (message.kind === 'swap' && sides !== null) turn({ old: sides.now, now: sides.old });
      if (message.kind === 'reveal') void revealPlace(studies, message.source, message.place);
    });
    givePage(next, extensionUri, 'comparison', (files) => comparisonPage(files, problem));
  };
  const listeners = [
    { dispose: studies.onFound(found) },
    workspace.onDidOpenTextDocument(changed),
    workspace.onDidChangeTextDocument(({ document }) => changed(document)),
    ...followFiles({
      sources: () =>
        sides === null || panel === null
          ? []
          : [sides.old, sides.now].map(({ document }) => document.uri.toString()),
      opened: (source, document) =>
        change(source, (side) => {
          const { uri } = document;
          const isMoved = uri.toString() !== source;
          return { ...side, document, lost: false, ...(isMoved && { uri, name: lastPart(uri.path) }) };
        }),
      lost: (source) => change(source, (side) => ({ ...side, lost: true })),
    }),
  ];
  return {
    show: async (old, now) => {
      const next = { old: await opened(old), now: await opened(now) };
      if (panel === null) adopt(createPanel(), null);
      else panel.reveal();
      turn(next);
    },
    restore: async (restored, state) => {
      const saved = readComparisonState(state);
      if (saved === null) {
        restored.dispose();
        return;
      }
      try {
        const next = await savedSides(saved);
        adopt(restored, null);
        turn(next);
      } catch (error) {
        const reason = error instanceof Error ? error.message : String(error);
        sides = null;
        adopt(
          restored,
          l10n.t('{0} and {1} could not be compared again: {2}', saved.nowName, saved.oldName, reason),
        );
      }
    },
    dispose: () => {
      for (const listener of listeners) listener.dispose();
      panel?.dispose();
    },
  };
}

function titleOf({ old, now }: Sides): string {
  return l10n.t('{0} against {1}', now.name, old.name);
}

async function opened(side: Side): Promise<OpenSide> {
  return { ...side, document: await workspace.openTextDocument(side.uri), good: null, lost: false };
}

/** Opens the texts that a panel showed before the window was loaded anew. */
async function savedSides(saved: ComparisonState): Promise<Sides> {
  const old = { uri: addressNamed(saved.old), name: saved.oldName, about: saved.oldAbout };
  const now = { uri: addressNamed(saved.now), name: saved.nowName, about: saved.nowAbout };
  // Committed texts can be read once the editor's git extension runs.
  if ([old, now].some(({ uri }) => uri.scheme === 'git')) await findGit();
  return { old: await opened(old), now: await opened(now) };
}

function createPanel(): WebviewPanel {
  return window.createWebviewPanel(comparisonPanelType, l10n.t('Winding comparison'), ViewColumn.Active, {});
}
