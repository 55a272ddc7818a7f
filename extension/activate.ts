import type { ExtensionContext } from 'vscode';
import { startComparison } from './comparison.ts';
import { startDiagnostics } from './diagnostics.ts';
import type { Engine } from './engine.ts';
import { startExports } from './exportCommands.ts';
import { startFirstSteps } from './firstSteps.ts';
import { startFormatting } from './formatting.ts';
import { startLanguageFeatures } from './languageFeatures.ts';
import { createParts, type Parts } from './loadOnDemand.ts';
import { startPanel } from './panel.ts';
import { startPathActions } from './pathActions.ts';
import { startQuickFixes } from './quickFixes.ts';
import { createStudies } from './studies.ts';

/**
 * Starts every feature of the extension; the same in the desktop and in the web host. `parts` are what is
 * loaded on demand, by default from the extension's own files.
 */
export function activateSlotwright(
  context: ExtensionContext,
  engine: Engine,
  parts: Parts = createParts(context.extensionUri),
): void {
  const studies = createStudies(engine.check, engine.surroundings);
  context.subscriptions.push(
    ...startDiagnostics(studies),
    startFormatting(engine.format),
    ...startLanguageFeatures(studies, parts),
    ...startExports(studies, parts),
    ...startFirstSteps(parts),
    startQuickFixes(studies),
    ...startPathActions(studies),
    ...startComparison(context.extensionUri, studies, parts),
    ...startPanel(context, studies, parts),
  );
}
