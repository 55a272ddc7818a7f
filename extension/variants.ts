import { commands, type Disposable } from 'vscode';
import type { Parts } from './loadOnDemand.ts';

/** Offers to ask for variants, and to judge them; what does it is loaded when first asked for. */
export function startVariants(parts: Parts): Disposable[] {
  return [
    commands.registerCommand('slotwright.exploreVariants', async (uri?: unknown) =>
      (await parts.onDemand()).exploreVariants(uri),
    ),
    commands.registerCommand('slotwright.varyWinding', async (uri?: unknown) =>
      (await parts.onDemand()).varyWinding(uri),
    ),
  ];
}
