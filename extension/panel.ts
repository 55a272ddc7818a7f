import { commands, type Disposable, type ExtensionContext, type Uri, window } from 'vscode';
import { type EngineAtHand, withStudies } from './engineAtHand.ts';
import type { OnDemand, Parts } from './loadOnDemand.ts';
import { layoutPanelType } from './panelTypes.ts';
import { waitingPage } from './waitingPage.ts';
import { l10n } from './wording.ts';

type LayoutPanels = ReturnType<OnDemand['createLayoutPanels']>;

/** The layout panels as other commands know them. */
export interface StartedPanels {
  readonly disposables: readonly Disposable[];
  /** The winding in the panel that has the focus, which commands without a target mean then. */
  readonly focused: () => Uri | undefined;
  /** Whether a panel was opened since the start. */
  readonly used: () => boolean;
}

/** Offers the layout panels, and restores them after a reload. They are loaded when first asked for. */
export function startPanel(
  { extensionUri, globalState }: Pick<ExtensionContext, 'extensionUri' | 'globalState'>,
  engine: EngineAtHand,
  parts: Parts,
): StartedPanels {
  let panels: LayoutPanels | null = null;
  const loaded = async () => {
    const { createLayoutPanels, studies } = await withStudies(engine, parts);
    panels ??= createLayoutPanels(extensionUri, studies, globalState);
    return panels;
  };
  const command = (name: string, run: (panels: LayoutPanels, ...parts: unknown[]) => unknown) =>
    commands.registerCommand(`slotwright.${name}`, async (...parts: unknown[]) =>
      run(await loaded(), ...parts),
    );
  const disposables = [
    { dispose: () => panels?.dispose() },
    command('showLayoutPanel', ({ show }, uri) => show(uri)),
    command('focusPanel', ({ focus }) => focus()),
    command('exploreVariants', ({ exploreVariants }, uri) => exploreVariants(uri)),
    command('chooseConnection', ({ chooseConnection }, uri) => chooseConnection(uri)),
    command('compareWhileTyping', ({ compareWhileTyping }, uri) => compareWhileTyping(uri)),
    command('drawPath', ({ drawPath }, uri) => drawPath(uri)),
    command('backToText', ({ backToText }) => backToText()),
    command('showPinnedPanel', ({ showPinned }, uri) => showPinned(uri)),
    command('pinPanel', ({ pin }) => pin(true)),
    command('unpinPanel', ({ pin }) => pin(false)),
    command('showOnDrawing', ({ showPlace }, uri, place) => showPlace(uri, place)),
    command('movePanelToNewWindow', ({ moveToNewWindow }) => moveToNewWindow()),
    window.registerWebviewPanelSerializer(layoutPanelType, {
      deserializeWebviewPanel: async (restored, state) => {
        restored.webview.html = waitingPage(l10n.t('Waiting for the winding …'));
        await (await loaded()).restore(restored, state);
      },
    }),
  ];
  return { disposables, focused: () => panels?.focused(), used: () => panels !== null };
}
