import type { ExtensionContext } from 'vscode';
import { activateSlotwright } from '../../extension/activate.ts';
import * as engine from '../../extension/engine/entry.ts';
import type { Surroundings } from '../../extension/engine/surroundings.ts';
import type { Parts } from '../../extension/loadOnDemand.ts';
import { drawingFont } from '../../scripts/font.mjs';
import {
  type CodeAction,
  editorState,
  Range,
  resetStub,
  type StubDocument,
  Uri,
  uncanceled,
} from './vscodeStub.ts';

/** A sound winding text: 12 slots, 2 poles, 3 phases, 2 layers. */
export const soundText = `winding "Tidal pump, trial"

machine {
  slots  12
  poles  2
  phases 3
}

layout {
  layers 2
  span   5
}

connect {
  star
}
`;

/** The same with a word that is none. */
export const brokenText = soundText.replace('poles  2', 'polse  2');

/** Writers of files that write equal drawings anew each time. */
export const fileFormatsAnew = () => import('../../core/picture/fileFormats.ts');

/** The parts of the extension, from the tree instead of the bundles; the engine is there from the start. */
const partsOfTree: Parts = {
  engine: () => engine,
  onDemand: () => import('../../extension/onDemand/entry.ts'),
  tableReader: () => import('../../core/tables/import/tableReader.ts'),
  fileFormats: () => import('../support/remembered/fileFormats.ts'),
  font: async () => drawingFont(),
};

/** A clock that stands: paths are found at once and clearances in one slice after, however slow the machine is. */
const standingClock: Surroundings = {
  now: () => 0,
  later: (work) => queueMicrotask(work),
};

/** Starts the extension against the stub; returns what ends it. */
export function activateOnStub(surroundings = standingClock, parts: Partial<Parts> = {}): () => void {
  resetStub();
  const subscriptions: { dispose: () => unknown }[] = [];
  const kept = new Map<string, unknown>();
  const globalState = {
    get: (key: string) => kept.get(key),
    update: async (key: string, value: unknown) => void kept.set(key, value),
  };
  const context = { subscriptions, extensionUri: Uri.parse('memory:/extension'), globalState };
  activateSlotwright(context as unknown as ExtensionContext, { ...partsOfTree, ...parts }, surroundings);
  return () => {
    for (const subscription of subscriptions) subscription.dispose();
  };
}

/** All actions offered where `text` stands in the document. */
export function actionsAt(document: StubDocument, text: string): Promise<readonly CodeAction[]> {
  const start = document.getText().indexOf(text);
  return actionsIn(document, { start, end: start + text.length });
}

/** All actions offered for a stretch of the document. */
export async function actionsIn(
  document: StubDocument,
  { start, end }: { readonly start: number; readonly end: number },
): Promise<readonly CodeAction[]> {
  const range = new Range(document.positionAt(start), document.positionAt(end));
  const diagnostics = editorState.diagnostics.get(document.uri.toString()) ?? [];
  const offered = editorState.actions.map((provider) =>
    provider.provideCodeActions(document, range, { diagnostics }, uncanceled),
  );
  return (await Promise.all(offered)).flat();
}
