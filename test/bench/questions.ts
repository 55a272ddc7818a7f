import type { ExtensionContext } from 'vscode';
import { activateSlotwright } from '../../extension/activate.ts';
import * as engine from '../../extension/engine/entry.ts';
import {
  editorState,
  openStubDocument,
  Position,
  resetStub,
  Uri,
  uncanceled,
} from '../extension/vscodeStub.ts';
import type { Work } from './measure.ts';

const parts = {
  engine: () => engine,
  onDemand: () => import('../../extension/onDemand/entry.ts'),
  tableReader: () => Promise.reject(new Error('No table is imported here')),
  fileFormats: () => Promise.reject(new Error('Nothing is exported here')),
  font: () => Promise.reject(new Error('Nothing is exported here')),
};

/**
 * A key that changes a text of the extension, and all that an editor asks behind it: findings, outline, folding, colors of
 * phases, hints, lines above statements with their words, highlights and actions at the cursor. Its paths are found.
 */
export async function questionsOf(text: string, change: (n: number) => string): Promise<Work> {
  resetStub();
  const context = { subscriptions: [], extensionUri: Uri.parse('memory:/extension') };
  const surroundings = { now: () => performance.now(), later: setImmediate };
  activateSlotwright(context as unknown as ExtensionContext, parts, surroundings);
  const document = openStubDocument('bench.winding', text);
  await parts.onDemand();
  const { provided, providers, actions, diagnostics } = editorState;
  const ask = (name: string) => provided.get(name);
  const whole = { start: new Position(0, 0), end: document.positionAt(text.length) };
  const cursor = document.positionAt(text.indexOf('}') + 1);
  let n = 0;
  const key = async () => {
    document.edit(change(n++));
    providers.symbols!.provideDocumentSymbols(document);
    providers.folding!.provideFoldingRanges(document);
    await ask('DocumentSemanticTokens').provideDocumentSemanticTokens(document, uncanceled);
    await ask('InlayHints').provideInlayHints(document, whole, uncanceled);
    const lenses = await ask('CodeLens').provideCodeLenses(document, uncanceled);
    for (const lens of lenses) await ask('CodeLens').resolveCodeLens(lens, uncanceled);
    await ask('DocumentHighlight').provideDocumentHighlights(document, cursor, uncanceled);
    const range = { ...whole, end: whole.start };
    const told = diagnostics.get(document.uri.toString()) ?? [];
    for (const provider of actions)
      await provider.provideCodeActions(document, range as never, { diagnostics: told }, uncanceled);
  };
  // Until its paths are found and its bar ends measured, there is other work between the keys.
  for (let turn = 0; turn < 400; turn++) await new Promise(setImmediate);
  return key;
}
