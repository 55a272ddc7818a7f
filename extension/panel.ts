import { commands, type Disposable, type Uri, window } from 'vscode';
import type { OnDemand, Parts } from './loadOnDemand.ts';
import { layoutPanelType } from './panelTypes.ts';
import type { Studies } from './studies.ts';

/** The command's name, also that of the button above the text. */
const showCommand = 'slotwright.showLayoutPanel';

type LayoutPanel = ReturnType<OnDemand['createLayoutPanel']>;

/** Offers the layout panel: opens it on command, and restores it after a reload. It is loaded when first asked for. */
export function startPanel(extensionUri: Uri, studies: Studies, parts: Parts): Disposable[] {
  let panel: LayoutPanel | null = null;
  const loaded = async () => {
    const { createLayoutPanel } = await parts.onDemand();
    panel ??= createLayoutPanel(extensionUri, studies, parts);
    return panel;
  };
  return [
    { dispose: () => panel?.dispose() },
    commands.registerCommand(showCommand, async (uri?: unknown) => (await loaded()).show(uri)),
    window.registerWebviewPanelSerializer(layoutPanelType, {
      deserializeWebviewPanel: async (restored, state) => (await loaded()).restore(restored, state),
    }),
  ];
}
