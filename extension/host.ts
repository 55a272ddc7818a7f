import type { ExtensionContext } from 'vscode';
import { activateSlotwright } from './activate.ts';
import { readGerman } from './loadOnDemand.ts';
import { speakWanted } from './wording.ts';

/** Called by the extension host, on the desktop and in the web, when the first winding file or panel opens. */
export async function activate(context: ExtensionContext): Promise<void> {
  await speakWanted(() => readGerman(context.extensionUri));
  activateSlotwright(context, undefined, undefined, () => {
    for (const each of context.subscriptions.splice(0)) each.dispose();
    void activate(context);
  });
}
