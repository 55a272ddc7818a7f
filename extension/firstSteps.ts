import { commands, type Disposable, EventEmitter, type Uri, workspace } from 'vscode';
import { referenceScheme } from './findingCode.ts';
import type { Parts } from './loadOnDemand.ts';

/** Offers what a newcomer begins with, and the language reference; they are loaded when first asked for. */
export function startFirstSteps(extensionUri: Uri, parts: Parts): Disposable[] {
  const command = (
    name: string,
    run: (onDemand: Awaited<ReturnType<Parts['onDemand']>>, argument: unknown) => unknown,
  ) =>
    commands.registerCommand(`slotwright.${name}`, async (argument?: unknown) =>
      run(await parts.onDemand(), argument),
    );
  const changed = new EventEmitter<Uri>();
  return [
    changed,
    command('newWinding', ({ newWinding }) => newWinding()),
    command('importTable', ({ importTable }, uri) => importTable(parts.tableReader, uri)),
    command('openExample', ({ openExample }, name) => openExample(extensionUri, name)),
    command('openReference', ({ openReference }, subject) => openReference(subject)),
    workspace.registerTextDocumentContentProvider(referenceScheme, {
      onDidChange: changed.event,
      provideTextDocumentContent: async ({ path }) => (await parts.onDemand()).referencePage(path),
    }),
  ];
}
