import { commands, type Disposable } from 'vscode';
import type { Parts } from './loadOnDemand.ts';

/** Offers what a newcomer begins with; it is loaded when first asked for. */
export function startFirstSteps(parts: Parts): Disposable[] {
  return [
    commands.registerCommand('slotwright.newWinding', async () => (await parts.onDemand()).newWinding()),
    commands.registerCommand('slotwright.importTable', async (uri?: unknown) =>
      (await parts.onDemand()).importTable(uri),
    ),
  ];
}
