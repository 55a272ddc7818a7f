import { commands, type Disposable } from 'vscode';
import { type EngineAtHand, withStudies } from './engineAtHand.ts';
import type { Parts } from './loadOnDemand.ts';

/** Offers to ask for variants, and what would meet a limit; what does it is loaded when first asked for. The panel judges them. */
export function startVariants(engine: EngineAtHand, parts: Parts): Disposable[] {
  return [
    commands.registerCommand('slotwright.meetLimit', async (uri?: unknown, index?: unknown) => {
      const { meetLimit, studies } = await withStudies(engine, parts);
      return meetLimit(studies, uri, index);
    }),
    commands.registerCommand('slotwright.varyWinding', async (uri?: unknown) => {
      const { varyWinding, studies } = await withStudies(engine, parts);
      return varyWinding(studies, uri);
    }),
  ];
}
