import { commands, type Disposable } from 'vscode';
import type { Studies } from './engine/studies.ts';
import type { Parts } from './loadOnDemand.ts';

/** Offers the exports; what they do is loaded when one is first asked for. */
export function startExports(studies: Studies, parts: Parts): Disposable[] {
  const exporting = { studies, parts };
  return [
    commands.registerCommand('slotwright.exportDrawing', async (uri?: unknown) =>
      (await parts.onDemand()).exportDrawing(exporting, uri),
    ),
    commands.registerCommand('slotwright.exportSchedules', async (uri?: unknown) =>
      (await parts.onDemand()).exportSchedules(exporting, uri),
    ),
    commands.registerCommand('slotwright.exportPackage', async (uri?: unknown) =>
      (await parts.onDemand()).exportPackage(exporting, uri),
    ),
  ];
}
