import type { Disposable, ExtensionContext } from 'vscode';
import { startComparison } from './comparison.ts';
import { startDiagnostics } from './diagnostics.ts';
import type { Surroundings } from './engine/surroundings.ts';
import { engineAtHand } from './engineAtHand.ts';
import { startExports } from './exportCommands.ts';
import { startFirstSteps } from './firstSteps.ts';
import { startFormatting } from './language/formatting.ts';
import { startLanguageFeatures } from './language/languageFeatures.ts';
import { startPathActions } from './language/pathActions.ts';
import { createParts, type Parts } from './loadOnDemand.ts';
import { createLog, toldParts } from './log.ts';
import { startPanel } from './panel.ts';
import { startStatusBar } from './statusBar.ts';
import { startVariants } from './variants.ts';
import { startLanguageChoice } from './wording.ts';
import { startWorkspaceFindings } from './workspaceFindings.ts';

/** The clock and the timer of the host. */
const ofHost: Surroundings = { now: () => performance.now(), later: (work) => setTimeout(work, 0) };

/**
 * Starts every feature of the extension; the same in the desktop and in the web host. `loaded` are the parts that are
 * read when they are first asked for, by default from the extension's own files; the engine among them, so that the
 * start itself costs the editor next to nothing. `again` takes all of it away and begins anew, in another language.
 */
export function activateSlotwright(
  context: ExtensionContext,
  loaded: Parts = createParts(context.extensionUri),
  surroundings = ofHost,
  again: (() => void) | null = null,
): void {
  const log = createLog();
  const parts = toldParts(loaded, log);
  const engine = engineAtHand(parts.engine, surroundings, log);
  const starts = createStarts(surroundings.later);
  const diagnostics = startDiagnostics(engine, log, starts.soon);
  const panels = startPanel(context, engine, parts);
  context.subscriptions.push(
    log,
    starts,
    ...diagnostics.disposables,
    ...startWorkspaceFindings(engine, diagnostics.closed, log, surroundings),
    ...startStatusBar(engine, starts.soon),
    startFormatting(engine),
    ...startLanguageFeatures(engine, parts),
    ...startExports(engine, parts, panels.focused),
    ...startFirstSteps(context.extensionUri, parts),
    startLanguageChoice(() => {
      if (again === null || panels.used()) return false;
      again();
      return true;
    }),
    ...startPathActions(engine),
    ...startVariants(engine, parts),
    ...startComparison(context.extensionUri, engine, parts, panels.focused),
    ...panels.disposables,
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
