import { commands, type Disposable } from 'vscode';
import type { Parts } from './loadOnDemand.ts';

/** Offers to ask for variants; what does it is loaded when first asked for. The panel judges them. */
export function startVariants(parts: Parts): Disposable[] {
  return [
    commands.registerCommand('slotwright.varyWinding', async (uri?: unknown) =>
      (await parts.onDemand()).varyWinding(uri),
    ),
  ];
}
