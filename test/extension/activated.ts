import type { ExtensionContext } from 'vscode';
import { format } from '../../core/language/formatter.ts';
import { study } from '../../core/study.ts';
import { activateSlotwright } from '../../extension/activate.ts';
import { resetStub, Uri } from './vscodeStub.ts';

/** A sound winding text: 12 slots, 2 poles, 3 phases, 2 layers. */
export const soundText = `winding "Tidal pump, trial"

machine {
  slots  12
  poles  2
  phases 3
}

layout {
  layers 2
  span   5
}

connect {
  star
}
`;

/** The same with a word that is none. */
export const brokenText = soundText.replace('poles  2', 'polse  2');

/** Starts the extension against the stub; returns what ends it. */
export function activateOnStub(): () => void {
  resetStub();
  const subscriptions: { dispose: () => unknown }[] = [];
  const context = { subscriptions, extensionUri: Uri.parse('memory:/extension') };
  activateSlotwright(context as unknown as ExtensionContext, { study, format });
  return () => {
    for (const subscription of subscriptions) subscription.dispose();
  };
}
