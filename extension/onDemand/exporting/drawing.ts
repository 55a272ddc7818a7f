import { type QuickPickItem, Uri, window } from 'vscode';
import { type ViewName, viewNames } from '../../../core/views/views.ts';
import { lastPart } from '../../windingDocument.ts';
import { l10n } from '../../wording.ts';
import { type DrawingFormat, drawingFile, drawingFormats, picturesOf } from './drawingFiles.ts';
import { type Exporting, folderOf, runExport, stemOf, windingToExport } from './exporting.ts';
import { type SolidFormat, solidFile, solidFormats } from './solidFiles.ts';

type DrawingName = ViewName | 'sheet';

/** Asks for a view, a format and a place, and writes that drawing. */
export async function exportDrawing(exporting: Exporting, uri: unknown): Promise<void> {
  const document = await windingToExport(exporting, uri);
  if (document === null) return;
  const view = await picked(viewItems(), l10n.t('What to draw'));
  if (view === null) return;
  const format = await picked(formatItems(view), l10n.t('Format of the drawing'));
  if (format === null) return;
  const name = `${stemOf(document)}-${view}.${format}`;
  const target = await window.showSaveDialog({
    defaultUri: Uri.joinPath(folderOf(document), name),
    filters: { [format.toUpperCase()]: [format] },
    title: l10n.t('Export drawing'),
  });
  if (target === undefined) return;
  if (/\.winding$/i.test(target.path)) {
    window.showErrorMessage(
      l10n.t('A drawing cannot replace a winding. Choose a name that ends with .{0}.', format),
    );
    return;
  }
  const written = lastPart(target.path);
  await runExport(
    exporting,
    document,
    Uri.joinPath(target, '..'),
    () => ({ open: target, words: l10n.t('Wrote {0}.', written) }),
    async ({ study, making, advance }) => {
      await advance(written, 0);
      const bytes =
        format === 'step' || format === 'stl'
          ? await solidFile(study, format, making)
          : await drawingFile(study, await picturesOf(study, view, format, making), format, making);
      return [{ name: written, bytes }];
    },
  );
}

interface Item<Value> extends QuickPickItem {
  readonly value: Value;
}

async function picked<Value>(items: readonly Item<Value>[], placeHolder: string): Promise<Value | null> {
  return (await window.showQuickPick(items, { title: l10n.t('Export drawing'), placeHolder }))?.value ?? null;
}

function viewItems(): readonly Item<DrawingName>[] {
  const words: Readonly<Record<DrawingName, string>> = {
    sheet: l10n.t('Handover sheets'),
    layout: l10n.t('Layout'),
    section: l10n.t('Section'),
    phasors: l10n.t('Phasors'),
    field: l10n.t('Field'),
    copper: l10n.t('Copper'),
    operation: l10n.t('Operation'),
    space: l10n.t('Bars in space'),
  };
  return (['sheet', ...viewNames] as const).map((value) => ({ value, label: words[value] }));
}

/** The formats of a view; the bars in space are solids, too. */
function formatItems(view: DrawingName): readonly Item<DrawingFormat | SolidFormat>[] {
  const words: Readonly<Record<DrawingFormat | SolidFormat, string>> = {
    pdf: l10n.t('for print: exact sizes, text that can be searched'),
    svg: l10n.t('for documents and browsers'),
    dxf: l10n.t('for CAD: millimeters, sections 1:1, layers by what is drawn'),
    step: l10n.t('for CAD: the bars as solids, each kind a product'),
    stl: l10n.t('for viewers and printers: the bars as triangles'),
  };
  const formats = view === 'space' ? [...drawingFormats, ...solidFormats] : drawingFormats;
  return formats.map((value) => ({ value, label: value.toUpperCase(), description: words[value] }));
}
