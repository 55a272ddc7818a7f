import type { ExtensionContext } from 'vscode';
import { startDiagnostics } from './diagnostics.ts';
import type { Engine } from './engine.ts';
import { startFormatting } from './formatting.ts';
import { startPanel } from './panelHost.ts';
import { startPathActions } from './pathActions.ts';
import { startQuickFixes } from './quickFixes.ts';
import { createStudies } from './studies.ts';

/** Starts every feature of the extension; the same in the desktop and in the web host. */
export function activateSlotwright(context: ExtensionContext, engine: Engine): void {
  const studies = createStudies(engine.study);
  context.subscriptions.push(
    ...startDiagnostics(studies),
    startFormatting(engine.format),
    startQuickFixes(studies),
    ...startPathActions(studies),
    ...startPanel(context.extensionUri, studies),
  );
}
