import { commands, type Disposable, type Uri } from 'vscode';
import { type EngineAtHand, withStudies } from './engineAtHand.ts';
import type { Parts } from './loadOnDemand.ts';

/** Offers the exports; what they do is loaded when one is first asked for. */
export function startExports(
  engine: EngineAtHand,
  parts: Parts,
  focused: () => Uri | undefined,
): Disposable[] {
  const command = (name: 'exportDrawing' | 'exportSchedules' | 'exportPackage') =>
    commands.registerCommand(`slotwright.${name}`, async (uri?: unknown) => {
      const loaded = await withStudies(engine, parts);
      return loaded[name]({ studies: loaded.studies, parts }, uri ?? focused());
    });
  return [command('exportDrawing'), command('exportSchedules'), command('exportPackage')];
}
