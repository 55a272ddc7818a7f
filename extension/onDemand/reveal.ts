import {
  type TabGroup,
  TabInputText,
  TabInputWebview,
  type TextDocument,
  type Uri,
  ViewColumn,
  window,
  workspace,
} from 'vscode';
import type { Range as TextRange } from '../../core/language/finding.ts';
import { editorRange } from '../edits.ts';
import type { Studies } from '../engine/studies.ts';
import { comparisonPanelType, layoutPanelType } from '../panelTypes.ts';
import { addressNamed, lastPart } from '../windingDocument.ts';
import { l10n } from '../wording.ts';
import { rangeOfPlace } from './places.ts';

/** The text of this address; null where it cannot be read any more, which is said. */
async function readable(uri: Uri): Promise<TextDocument | null> {
  const open = workspace.textDocuments.find((document) => document.uri.toString() === uri.toString());
  if (open !== undefined) return open;
  try {
    // An untitled text that is closed is gone: opened by its name it would be a new one.
    if (uri.scheme !== 'untitled') return await workspace.openTextDocument(uri);
  } catch {
    // Told of below.
  }
  window.showInformationMessage(l10n.t('{0} cannot be read any more.', lastPart(uri.path)));
  return null;
}

/**
 * Selects a place of the text where that text is open, else beside the panels; the reader asked for it. The focus goes
 * there too, unless it is to stay where it is.
 */
export async function reveal(
  uri: Uri,
  range: TextRange,
  { preserveFocus = false }: { readonly preserveFocus?: boolean } = {},
): Promise<void> {
  const document = await readable(uri);
  if (document === null) return;
  await window.showTextDocument(document, {
    selection: editorRange(document, range),
    viewColumn: columnFor(uri.toString()),
    preserveFocus,
  });
}

/** Gives the focus to a text, where it is open, else beside the panels. */
export async function showText(uri: Uri): Promise<void> {
  const document = await readable(uri);
  if (document !== null) await window.showTextDocument(document, { viewColumn: columnFor(uri.toString()) });
}

/** Selects a place that a page named, where it stands now; a place that is gone by now is left alone. */
export async function revealPlace(studies: Studies, source: string, place: string): Promise<void> {
  const uri = addressNamed(source);
  const document = await readable(uri);
  if (document === null) return;
  const range = rangeOfPlace(studies.of(document), place);
  if (range !== null) await reveal(uri, range);
}

/** The column where the text is on the screen, else where it has a tab, else one without panels, else a new one. */
function columnFor(source: string): ViewColumn {
  const visible = window.visibleTextEditors.find(({ document }) => document.uri.toString() === source);
  if (visible?.viewColumn !== undefined) return visible.viewColumn;
  const groups = window.tabGroups.all;
  const isOpen = ({ tabs }: TabGroup) =>
    tabs.some(({ input }) => input instanceof TabInputText && input.uri.toString() === source);
  const group = groups.find(isOpen) ?? groups.find((one) => !isPanels(one));
  return group?.viewColumn ?? ViewColumn.Beside;
}

/** The column for a new panel: where panels stand already, else beside the text. */
export function panelColumn(columns: readonly (ViewColumn | undefined)[]): ViewColumn {
  return columns.find((column) => column !== undefined) ?? ViewColumn.Beside;
}

/** Whether a text opened in this group would cover a panel. */
function isPanels({ tabs, activeTab }: TabGroup): boolean {
  const shows = (input: unknown, type: string) =>
    input instanceof TabInputWebview && input.viewType.endsWith(type);
  return (
    tabs.some(({ input }) => shows(input, layoutPanelType)) || shows(activeTab?.input, comparisonPanelType)
  );
}
