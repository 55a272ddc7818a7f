import {
  commands,
  env,
  ProgressLocation,
  type TextDocument,
  Uri,
  type WebviewPanel,
  WorkspaceEdit,
  window,
  workspace,
} from 'vscode';
import type { ConnectionState } from '../../../core/facts/connection.ts';
import type { Studies } from '../../engine/studies.ts';
import { createFeed } from '../../protocol/feed.ts';
import { type HostMessage, type PageMessage, readPageMessage } from '../../protocol/messages.ts';
import { type Baseline, nothingMarked, type PanelMarks } from '../../protocol/shownParts.ts';
import { firstWish, type Wish } from '../../protocol/wish.ts';
import { fileName, lastPart } from '../../windingDocument.ts';
import { l10n } from '../../wording.ts';
import { editorRange, revealPlace } from '../reveal.ts';
import { createPanelVariants } from '../variants/ofPanel.ts';
import { connectionDetail, connectionLine, createConnectionChoices } from './connectionChoices.ts';
import { createPanelStates, nextShown, nothingOpen, type Shown, waitingFor } from './content.ts';
import { startCursorMarks } from './cursorMarks.ts';
import { createLiveChanges } from './difference.ts';
import { createPathDrawing } from './pathDrawing/pathDrawing.ts';
import { noticeWords } from './words.ts';

/** One open panel with the text it shows. */
export interface PanelSession {
  /** Address of the text it shows; empty while there is none. */
  readonly source: () => string;
  /** Says that this text is to be shown, which is still to be opened. */
  readonly awaitText: (source: string) => void;
  /** Shows this document as it is now; null where no winding is open. */
  readonly follow: (document: TextDocument | null) => void;
  /** The text it shows cannot be read any more: what is shown stays, and that is said. */
  readonly lost: () => void;
  /** Whether it keeps to its text, which its title tells and the page remembers. */
  readonly pin: (pinned: boolean) => void;
  /** Lights what the cursor of its text stands on, as if it had just come there. */
  readonly lightCursor: () => void;
  /** Lets the reader choose among the connections of its text, each drawn while it is marked, and writes the chosen one out. */
  readonly chooseConnection: () => Promise<void>;
  /** Turns to the variants of its text, and judges them. */
  readonly exploreVariants: () => Promise<void>;
  /** Begins to draw a path by hand where the cursor of its text stands. */
  readonly drawPath: () => Promise<void>;
  /** Compares its text with another baseline while it is typed. */
  readonly compareWith: (baseline: Baseline) => Promise<void>;
  /** Ends what listens for the panel; the panel itself is the editor's. */
  readonly end: () => void;
}

/**
 * Keeps a panel's page in step with its text. What the page shows is remembered here, because the editor destroys
 * a page that is hidden; the page says when it begins anew.
 */
export function startPanelSession(
  panel: WebviewPanel,
  studies: Studies,
  saved: Wish | null,
  remember: (lower: number | null) => void,
): PanelSession {
  const words = noticeWords();
  const stateOf = createPanelStates(words);
  const post = (message: HostMessage) => void panel.webview.postMessage(message);
  let shown: Shown = waitingFor('', '');
  let wish = saved ?? firstWish;
  let marks = nothingMarked;
  let pinned = false;

  /** What the page is to turn to as soon as it hears. */
  let turning: Wish['view'] | null = null;

  const choices = createConnectionChoices(() => feed.changed());
  const drawing = createPathDrawing({
    document: () => workspace.textDocuments.find(({ uri }) => uri.toString() === shown.heading.source),
    phase: () => Math.max(0, shown.study?.winding?.phases.names.indexOf(wish.phase ?? '') ?? 0),
    studies,
    changed: () => feed.changed(),
    ended: (text) => mark({ ...nothingMarked, words: text }),
  });
  const changes = createLiveChanges(
    () => workspace.textDocuments.find(({ uri }) => uri.toString() === shown.heading.source),
    studies,
    () => feed.changed(),
  );
  const tried = () => drawing.tried(choices.tried(shown));
  const variants = createPanelVariants(() => {
    if (wish.view === 'variants') feed.changed();
  });
  const feed = createFeed(() => {
    const state = stateOf(
      tried(),
      wish,
      choices.shown(),
      drawing.marks() ?? marks,
      drawing.shown(),
      changes.shown(),
    );
    return wish.view === 'variants' && shown.heading.source !== ''
      ? { ...state, view: variants.shown() }
      : state;
  }, post);
  const mark = (next: PanelMarks) => {
    marks = next;
    feed.changed();
  };
  const show = (next: Shown) => {
    if (next.heading.source !== shown.heading.source) marks = nothingMarked;
    shown = next;
    choices.follow(next.present);
    drawing.follow(next.present);
    changes.follow(next.present);
    nameTab();
    feed.changed();
  };
  const nameTab = () => {
    const { file } = shown.heading;
    const title = file === '' ? l10n.t('Layout') : l10n.t('Layout of {0}', file);
    panel.title = pinned ? l10n.t('{0} (pinned)', title) : title;
  };
  const cursor = startCursorMarks(studies, {
    source: () => shown.heading.source,
    study: () => tried().study,
    mark,
    name: (text) => post({ kind: 'name', source: shown.heading.source, words: text }),
  });
  const answer = (message: PageMessage) => {
    switch (message.kind) {
      case 'ready':
        wish = { ...(message.wish ?? wish), ...(turning && { view: turning }) };
        post({ kind: 'pinned', pinned });
        feed.begun();
        return;
      case 'shown':
        turning = null;
        feed.answered(message.version, message.followed);
        return;
      case 'variants':
        if (message.source === shown.heading.source) variants.act(message);
        return;
      case 'show':
        wish = message.wish;
        feed.changed();
        return;
      case 'copy':
        void env.clipboard.writeText(message.text);
        return;
      case 'connections':
        choices.listed(message.open);
        return;
      case 'try':
        if (message.source === shown.heading.source) choices.draw(message.index);
        return;
      case 'write':
        if (message.source === shown.heading.source) void writeOut(message.index);
        return;
      case 'divide':
        remember(message.lower);
        return;
      case 'against':
        if (message.source === shown.heading.source) void changes.against(message.against);
        return;
      case 'draw':
        if (message.source === shown.heading.source)
          void drawing.answer(message.act, message.subject, message.by);
        return;
      case 'export':
        void commands.executeCommand('slotwright.exportDrawing', Uri.parse(message.source, true));
        return;
      case 'reveal':
        void revealPlace(studies, message.source, message.place);
        return;
      case 'release':
        if (message.source === shown.heading.source) mark(nothingMarked);
        return;
      default:
        cursor.answer(message);
    }
  };
  /** Writes one of the connections into the text, as an edit that undo takes back. */
  const writeOut = async (index: number) => {
    const { source } = shown.heading;
    const document = workspace.textDocuments.find(({ uri }) => uri.toString() === source);
    const chosen = choices.candidate(index);
    // The text may have changed since it was looked at.
    if (document === undefined || chosen === null || studies.of(document) !== chosen.study) return;
    const edit = chosen.study.writeOutPaths(chosen.candidate.facts.paths);
    if (edit === null) return;
    const change = new WorkspaceEdit();
    change.replace(document.uri, editorRange(document, edit.range), edit.text);
    await workspace.applyEdit(change);
  };
  const choose = async () => {
    const state = shown.present?.facts?.connection;
    if (state?.kind !== 'connected' || !state.facts.candidates) {
      window.showInformationMessage(nothingToChoose(state?.kind));
      return;
    }
    const found = await window.withProgress(
      { location: ProgressLocation.Notification, title: l10n.t('Looking for connections') },
      () => choices.found(),
    );
    if (found.length === 1) {
      window.showInformationMessage(l10n.t('No other connection was found that is better in anything.'));
      return;
    }
    const items = found.map((each, index) => ({
      index,
      label: `${index + 1}`,
      description: connectionLine(each) + (index === 0 ? ` (${l10n.t('as now')})` : ''),
      detail: connectionDetail(each),
    }));
    const picked = await window.showQuickPick(items, {
      title: l10n.t('Choose a connection'),
      placeHolder: l10n.t('The panel draws the one that is marked; the one chosen is written into the text'),
      matchOnDescription: true,
      matchOnDetail: true,
      onDidSelectItem: (item) => {
        if (typeof item === 'object' && 'index' in item) choices.draw(Number(item.index));
      },
    });
    if (picked !== undefined) await writeOut(picked.index);
    choices.draw(0);
  };
  const listeners = [
    cursor,
    panel.webview.onDidReceiveMessage((value: unknown) => {
      const message = readPageMessage(value);
      if (message !== null) answer(message);
    }),
    panel.onDidChangeViewState(() => {
      if (!panel.visible) feed.gone();
    }),
  ];
  return {
    source: () => shown.heading.source,
    awaitText: (source) => show(waitingFor(source, lastPart(source))),
    lost: () => {
      const { heading } = shown;
      const headline = l10n.t('{0} cannot be read any more. Shown is what was known of it.', heading.file);
      const notice = { stamp: l10n.t('Out of date'), headline, places: [] };
      show({ ...shown, heading: { ...heading, waiting: false }, notice });
    },
    pin: (next) => {
      pinned = next;
      nameTab();
      post({ kind: 'pinned', pinned });
    },
    chooseConnection: choose,
    follow: (document) => {
      variants.follow(document);
      if (document === null) show(nothingOpen(words));
      else {
        const text = { source: document.uri.toString(), file: fileName(document) };
        show(nextShown(shown, text, studies.of(document), words));
      }
    },
    lightCursor: cursor.light,
    exploreVariants: () => {
      turning = 'variants';
      wish = { ...wish, view: 'variants', live: false };
      feed.changed();
      return variants.run();
    },
    compareWith: changes.against,
    drawPath: async () => {
      if (wish.view !== 'layout') {
        turning = 'layout';
        wish = { ...wish, view: 'layout', live: false };
        feed.changed();
      }
      const [bar] = marks.bars;
      await drawing.answer('path', marks.bars.length === 1 && bar ? { bar } : null, 0);
    },
    end: () => {
      variants.end();
      changes.dispose();
      feed.gone();
      for (const listener of listeners) listener.dispose();
    },
  };
}

/** Why there is nothing to choose from. */
function nothingToChoose(kind: ConnectionState['kind'] | undefined): string {
  if (kind === 'connected')
    return l10n.t(
      'The paths are written in the text: there is nothing to choose from. Connections are found for route.',
    );
  if (kind === 'pending') return l10n.t('The paths are still being found.');
  return l10n.t('The text has no connection: there is nothing to choose from.');
}
