import type { Disposable, ExtensionContext } from 'vscode';
import { startComparison } from './comparison.ts';
import { startDiagnostics } from './diagnostics.ts';
import { startQuickFixes } from './engine/quickFixes.ts';
import { createStudies } from './engine/studies.ts';
import type { Engine } from './engine.ts';
import { startExports } from './exportCommands.ts';
import { startFirstSteps } from './firstSteps.ts';
import { startFormatting } from './language/formatting.ts';
import { startLanguageFeatures } from './language/languageFeatures.ts';
import { startPathActions } from './language/pathActions.ts';
import { createParts, type Parts } from './loadOnDemand.ts';
import { createLog, toldParts, toldStudies } from './log.ts';
import { startPanel } from './panel.ts';
import { startStatusBar } from './statusBar.ts';
import { startVariants } from './variants.ts';
import { startLanguageChoice } from './wording.ts';
import { startWorkspaceFindings } from './workspaceFindings.ts';

/**
 * Starts every feature of the extension; the same in the desktop and in the web host. `loaded` are what is
 * loaded on demand, by default from the extension's own files.
 */
export function activateSlotwright(
  context: ExtensionContext,
  engine: Engine,
  loaded: Parts = createParts(context.extensionUri),
): void {
  const log = createLog();
  const parts = toldParts(loaded, log);
  const studies = toldStudies(createStudies(engine.check, engine.surroundings), log);
  const surroundings = engine.surroundings ?? {
    now: () => performance.now(),
    later: (work) => setTimeout(work, 0),
  };
  const starts = createStarts(surroundings.later);
  const diagnostics = startDiagnostics(studies, log, starts.soon);
  context.subscriptions.push(
    log,
    starts,
    ...diagnostics.disposables,
    ...startWorkspaceFindings(engine.check, diagnostics.closed, log, surroundings),
    ...startStatusBar(studies, starts.soon),
    startFormatting(engine.format),
    ...startLanguageFeatures(studies, parts),
    ...startExports(studies, parts),
    ...startFirstSteps(context.extensionUri, parts),
    startLanguageChoice(),
    startQuickFixes(studies),
    ...startPathActions(studies),
    ...startVariants(studies, parts),
    ...startComparison(context.extensionUri, studies, parts),
    ...startPanel(context, studies, parts),
  );
}

/**
 * What is to be done soon after the start: texts that are open already are studied in a turn of their own, so that the
 * editor goes on with its other extensions. Nothing is done any more once it is disposed of.
 */
function createStarts(later: (work: () => void) => void): Disposable & { readonly soon: typeof later } {
  let ended = false;
  return {
    soon: (work) =>
      later(() => {
        if (!ended) work();
      }),
    dispose: () => {
      ended = true;
    },
  };
}
