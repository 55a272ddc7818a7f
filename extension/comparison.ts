import { commands, type Disposable, type Uri, window } from 'vscode';
import { type EngineAtHand, withStudies } from './engineAtHand.ts';
import type { OnDemand, Parts } from './loadOnDemand.ts';
import { comparisonPanelType } from './panelTypes.ts';
import { waitingPage } from './waitingPage.ts';
import { l10n } from './wording.ts';

/** Offers the comparisons and restores their panel after a reload; both are loaded when first asked for. */
export function startComparison(
  extensionUri: Uri,
  engine: EngineAtHand,
  parts: Parts,
  focused: () => Uri | undefined,
): Disposable[] {
  let panel: ReturnType<OnDemand['createComparisonPanel']> | null = null;
  const loaded = async () => {
    const onDemand = await withStudies(engine, parts);
    panel ??= onDemand.createComparisonPanel(extensionUri, onDemand.studies);
    return { ...onDemand, panel };
  };
  // Before the extension has started there is no winding to compare.
  void commands.executeCommand('setContext', 'slotwright.started', true);
  return [
    { dispose: () => panel?.dispose() },
    commands.registerCommand('slotwright.compareCommitted', async (target?: unknown) => {
      const { compareCommitted, panel: own } = await loaded();
      await compareCommitted(own, target ?? focused());
    }),
    commands.registerCommand('slotwright.compareWindings', async (_: unknown, selected?: unknown) => {
      const { compareWindings, panel: own } = await loaded();
      await compareWindings(own, selected);
    }),
    commands.registerCommand('slotwright.compareShown', async () => {
      const { compareShown, panel: own } = await loaded();
      await compareShown(own);
    }),
    window.registerWebviewPanelSerializer(comparisonPanelType, {
      deserializeWebviewPanel: async (restored, state) => {
        restored.webview.html = waitingPage(l10n.t('Waiting for the windings …'));
        await (await loaded()).panel.restore(restored, state);
      },
    }),
  ];
}
