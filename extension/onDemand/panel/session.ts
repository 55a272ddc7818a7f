import { commands, env, type TextDocument, type WebviewPanel, workspace } from 'vscode';
import type { Studies } from '../../engine/studies.ts';
import { createFeed } from '../../protocol/feed.ts';
import {
  type HostMessage,
  type PageAnswers,
  type PageMessage,
  readPageMessage,
} from '../../protocol/messages.ts';
import { type Baseline, nothingMarked, type PanelMarks } from '../../protocol/shownParts.ts';
import { isSame } from '../../protocol/stateParts.ts';
import { firstWish, type Wish } from '../../protocol/wish.ts';
import { addressNamed, fileName, lastPart } from '../../windingDocument.ts';
import { l10n } from '../../wording.ts';
import { revealPlace } from '../reveal.ts';
import { createPanelVariants } from '../variants/ofPanel.ts';
import { chooseConnection, writeConnection } from './chooseConnection.ts';
import { createConnectionChoices } from './connectionChoices.ts';
import { createPanelStates, lostText, nextShown, nothingOpen, type Shown, waitingFor } from './content.ts';
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
  /** What the title of its tab follows from; empty before it has one. */
  let named = '';
  /** What the page is to turn to as soon as it hears. */
  let turning: Wish['view'] | null = null;

  const document = () => workspace.textDocuments.find(({ uri }) => uri.toString() === shown.heading.source);
  const choices = createConnectionChoices(() => feed.changed());
  const drawing = createPathDrawing({
    document,
    phase: () => Math.max(0, shown.study?.winding?.phases.names.indexOf(wish.phase ?? '') ?? 0),
    studies,
    changed: () => feed.changed(),
    ended: (text) => mark({ ...nothingMarked, words: text }),
  });
  const changes = createLiveChanges(document, studies, () => feed.changed());
  const variants = createPanelVariants(() => {
    if (wish.view === 'variants') feed.changed();
  });
  const tried = () => drawing.tried(choices.tried(shown));
  const feed = createFeed(() => {
    const state = stateOf(tried(), wish, {
      connections: choices.shown(),
      marks: drawing.marks() ?? marks,
      drawing: drawing.shown(),
      difference: changes.shown(),
    });
    return wish.view === 'variants' && shown.heading.source !== ''
      ? { ...state, view: variants.shown() }
      : state;
  }, post);
  const cursor = startCursorMarks(studies, {
    source: () => shown.heading.source,
    study: () => tried().study,
    mark: (next) => {
      if (!isSame(marks, next)) mark(next);
    },
    name: (text) => post({ kind: 'name', source: shown.heading.source, words: text }),
  });

  const mark = (next: PanelMarks) => {
    marks = next;
    feed.changed();
  };
  const ask = (next: Wish) => {
    wish = next;
    feed.changed();
  };
  const turnTo = (view: Wish['view']) => {
    turning = view;
    ask({ ...wish, view, live: false });
  };
  const show = (next: Shown) => {
    if (next.heading.source !== shown.heading.source) marks = nothingMarked;
    shown = next;
    for (const each of [choices, drawing, changes]) each.follow(next.present);
    nameTab();
    feed.changed();
  };
  const nameTab = () => {
    const { file } = shown.heading;
    const next = `${pinned} ${file}`;
    if (next === named) return;
    named = next;
    const title = file === '' ? l10n.t('Layout') : l10n.t('Layout of {0}', file);
    panel.title = pinned ? l10n.t('{0} (pinned)', title) : title;
  };
  const write = (index: number) => writeConnection(choices, index, document(), studies);

  /** Hears only what is said of the text that is shown: the panel may have turned to another one meanwhile. */
  const ofShown =
    <Message extends { readonly source: string }>(act: (message: Message) => void) =>
    (message: Message) => {
      if (message.source === shown.heading.source) act(message);
    };
  const answers: PageAnswers = {
    ready: (message) => {
      wish = { ...(message.wish ?? wish), ...(turning && { view: turning }) };
      post({ kind: 'pinned', pinned });
      feed.begun();
    },
    shown: ({ version, followed }) => {
      turning = null;
      feed.answered(version, followed);
    },
    show: (message) => ask(message.wish),
    copy: ({ text }) => void env.clipboard.writeText(text),
    divide: ({ lower }) => remember(lower),
    connections: ({ open }) => choices.listed(open),
    try: ofShown(({ index }) => choices.draw(index)),
    write: ofShown(({ index }) => void write(index)),
    variants: ofShown(variants.act),
    against: ofShown(({ against }) => void changes.against(against)),
    draw: ofShown(({ act, subject, by }) => void drawing.answer(act, subject, by)),
    export: ({ source }) => void commands.executeCommand('slotwright.exportDrawing', addressNamed(source)),
    reveal: ({ source, place }) => void revealPlace(studies, source, place),
    release: ofShown(() => mark(nothingMarked)),
    point: cursor.answer,
    choose: cursor.answer,
    step: cursor.answer,
  };
  const listeners = [
    cursor,
    panel.webview.onDidReceiveMessage((value: unknown) => {
      const message = readPageMessage(value);
      if (message !== null) answer(answers, message);
    }),
    panel.onDidChangeViewState(() => {
      if (!panel.visible) feed.gone();
    }),
  ];
  return {
    source: () => shown.heading.source,
    awaitText: (source) => show(waitingFor(source, lastPart(source))),
    lost: () => show(lostText(shown, words)),
    pin: (next) => {
      pinned = next;
      nameTab();
      post({ kind: 'pinned', pinned });
    },
    follow: (next) => {
      variants.follow(next);
      if (next === null) show(nothingOpen(words));
      else {
        const text = { source: next.uri.toString(), file: fileName(next) };
        show(nextShown(shown, text, studies.of(next), words));
      }
    },
    lightCursor: cursor.light,
    chooseConnection: async () => {
      const chosen = await chooseConnection(choices, shown.present);
      if (chosen !== undefined) await write(chosen);
      choices.draw(0);
    },
    exploreVariants: () => {
      turnTo('variants');
      return variants.run();
    },
    compareWith: changes.against,
    drawPath: async () => {
      if (wish.view !== 'layout') turnTo('layout');
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

function answer(answers: PageAnswers, message: PageMessage): void {
  // The answer under a message's kind takes messages of that kind.
  (answers[message.kind] as (message: PageMessage) => void)(message);
}
