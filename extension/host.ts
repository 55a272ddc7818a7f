import type { ExtensionContext } from 'vscode';
import { checkText } from '../core/findings/checkedText.ts';
import { format } from '../core/language/format/formatter.ts';
import { activateSlotwright } from './activate.ts';

/** Called by the extension host, on the desktop and in the web, when the first winding file or panel opens. */
export function activate(context: ExtensionContext): void {
  activateSlotwright(context, { check: checkText, format });
}
