import { readFileSync } from 'node:fs';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { chromium, type Page } from 'playwright-core';
import type { ExtensionContext } from 'vscode';
import { activateSlotwright } from '../../extension/activate.ts';
import * as engine from '../../extension/engine/entry.ts';
import type { Parts } from '../../extension/loadOnDemand.ts';
import { panelPage } from '../../extension/onDemand/panel/page.ts';
import { pageWords } from '../../extension/onDemand/panel/words.ts';
import {
  editorState,
  openStubDocument,
  resetStub,
  type StubDocument,
  type StubPanel,
  Uri,
} from '../extension/vscodeStub.ts';

// The whole loop without an editor: the extension in this process, the built page of the panel in a browser, and
// between them messages as JSON. What an editor adds on the way is not in these figures.

/** What typing cost. */
export interface Typing {
  readonly letters: number;
  readonly messages: number;
  readonly bytes: number;
  /** Bytes of the largest message. */
  readonly largest: number;
  /** Milliseconds from the last key until the frame that shows it. */
  readonly lastKeyToFrame: number;
  /** Milliseconds from one key to the frame that shows it, the median of single keys. */
  readonly keyToFrame: number;
  /** Bytes by which the extension's memory grew, garbage collected. */
  readonly memory: number;
}

export interface TypedText {
  readonly text: string;
  /** The text after so many letters. */
  readonly after: (letters: number) => string;
  readonly letters: number;
}

/** Types each text letter by letter at full speed, in the browser at `executable`. */
export async function typingCosts(
  executable: string,
  texts: readonly TypedText[],
): Promise<readonly Typing[]> {
  const browser = await chromium.launch({
    executablePath: executable,
    args: ['--no-sandbox', '--disable-gpu'],
  });
  try {
    const costs: Typing[] = [];
    for (const typed of texts) {
      const page = await browser.newPage({ viewport: { width: 900, height: 800 } });
      const end = activate();
      try {
        costs.push(await typingCost(page, typed));
      } finally {
        end();
        await page.close();
      }
    }
    return costs;
  } finally {
    await browser.close();
  }
}

/** What the panel loads on demand is in this bundle; nothing is exported here. */
const parts: Parts = {
  engine: () => engine,
  onDemand: () => import('../../extension/onDemand/entry.ts'),
  tableReader: () => Promise.reject(new Error('No table is imported here')),
  fileFormats: () => Promise.reject(new Error('Nothing is exported here')),
  font: () => Promise.reject(new Error('Nothing is exported here')),
};

/** Starts the extension with a clock that runs; returns what ends it. */
function activate(): () => void {
  resetStub();
  const subscriptions: { dispose: () => unknown }[] = [];
  const context = { subscriptions, extensionUri: Uri.parse('memory:/extension') };
  const surroundings = { now: () => performance.now(), later: setImmediate };
  activateSlotwright(context as unknown as ExtensionContext, parts, surroundings);
  return () => {
    for (const subscription of subscriptions) subscription.dispose();
  };
}

/** Bytes in use once the garbage is gone. */
function usedMemory(): number {
  setFlagsFromString('--expose-gc');
  (runInNewContext('gc') as () => void)();
  return process.memoryUsage().heapUsed;
}

/** A panel with its page in the browser. */
interface Loop {
  readonly document: StubDocument;
  readonly sent: { messages: number; bytes: number; largest: number };
  /** Resolves when the page has shown all there is. */
  readonly settled: () => Promise<void>;
}

async function typingCost(page: Page, { text, after, letters }: TypedText): Promise<Typing> {
  const { document, sent, settled } = await openLoop(page, text);
  await settled();
  const single: number[] = [];
  for (let key = 1; key <= 15; key++) {
    const start = performance.now();
    document.edit(after(key % 2));
    await settled();
    single.push(performance.now() - start);
  }
  const before = { ...sent };
  sent.largest = 0;
  const memory = usedMemory();
  for (let key = 1; key < letters; key++) {
    document.edit(after(key));
    // Keys are events of their own: answers of the page come between them.
    await new Promise(setImmediate);
  }
  const start = performance.now();
  document.edit(after(letters));
  await settled();
  const lastKeyToFrame = performance.now() - start;
  return {
    letters,
    messages: sent.messages - before.messages,
    bytes: sent.bytes - before.bytes,
    largest: sent.largest,
    lastKeyToFrame,
    keyToFrame: single.sort((a, b) => a - b)[single.length >> 1]!,
    memory: usedMemory() - memory,
  };
}

async function openLoop(page: Page, text: string): Promise<Loop> {
  const document = openStubDocument('bench.winding', text);
  await editorState.commands.get('slotwright.showLayoutPanel')?.();
  const panel = editorState.panels.at(-1)!;
  const sent = { messages: 0, bytes: 0, largest: 0 };
  let posted = 0;
  let shown = 0;
  let posting = Promise.resolve<unknown>(undefined);
  let settle: (() => void) | null = null;
  await page.exposeFunction('toHost', (message: { readonly kind: string; readonly version?: number }) => {
    if (message.kind === 'shown') shown = message.version ?? shown;
    panel.say(message);
    if (shown === posted) settle?.();
  });
  panel.posted.event((json) => {
    sent.messages++;
    sent.bytes += Buffer.byteLength(json);
    sent.largest = Math.max(sent.largest, Buffer.byteLength(json));
    // The stub keeps what was posted; an editor does not.
    panel.sent.length = 0;
    posted = (JSON.parse(json) as { readonly version?: number }).version ?? posted;
    posting = posting.then(() => page.evaluate((data) => window.postMessage(JSON.parse(data), '*'), json));
  });
  await loadPanel(page, panel);
  const settled = async () => {
    await new Promise<void>((resolve) => {
      const ready = () => posted > 0 && shown === posted;
      settle = resolve;
      if (ready()) resolve();
    });
    settle = null;
  };
  return { document, sent, settled };
}

async function loadPanel(page: Page, { webview }: StubPanel): Promise<void> {
  if (webview.html === '') throw new Error('The panel has no page');
  // The panel's page, its script and style put in: a page without an address loads no files.
  const html = panelPage({
    nonce: 'bench',
    script: 'none',
    liveScript: 'none',
    variantsScript: 'none',
    laterScript: 'none',
    style: 'none',
    words: pageWords(),
  });
  await page.setContent(html.replace(/<meta http-equiv[^>]*>|<link [^>]*>|<script [^>]*><\/script>/g, ''));
  await page.addStyleTag({ content: readFileSync('dist/extension/panel.css', 'utf8') });
  await page.evaluate(() => {
    let state: unknown;
    const editor = {
      postMessage: (message: unknown) =>
        (window as unknown as { toHost: (m: unknown) => void }).toHost(message),
      getState: () => state,
      setState: (next: unknown) => {
        state = next;
      },
    };
    Object.assign(window, { acquireVsCodeApi: () => editor });
  });
  await page.addScriptTag({ content: readFileSync('dist/extension/panel.js', 'utf8') });
}
