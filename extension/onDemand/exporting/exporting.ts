import {
  CancellationError,
  type CancellationToken,
  type Progress,
  ProgressLocation,
  type TextDocument,
  Uri,
  window,
  workspace,
} from 'vscode';
import type { Studies } from '../../engine/studies.ts';
import { chosenWinding, fileName, lastPart } from '../../windingDocument.ts';
import { l10n } from '../../wording.ts';
import { createPause } from '../inSlices.ts';
import { type Drawable, isDrawable, type Making } from './drawingFiles.ts';
import type { FileParts } from './fileParts.ts';
import { offerToOpen, type Written } from './offerToOpen.ts';
import type { Advance, NamedFile } from './packageFiles.ts';
import { safeStem } from './safeName.ts';
import { settledStudy } from './settled.ts';
import { writeFiles } from './writeFiles.ts';

/** What an export works with. */
export interface Exporting {
  readonly studies: Studies;
  readonly parts: FileParts;
}

/** The winding an export was asked for; says what to do where there is none, before anything else is asked. */
export async function windingToExport({ studies }: Exporting, uri: unknown): Promise<TextDocument | null> {
  const document = await chosenWinding(uri);
  if (document === null) window.showInformationMessage(l10n.t('Open a winding file to export it.'));
  if (document === null || studies.of(document).facts !== null) return document;
  tellNothingToExport();
  return null;
}

function tellNothingToExport(): void {
  window.showErrorMessage(
    l10n.t('Nothing to export: the text does not yield a winding. Its errors say why.'),
  );
}

/** What names of exported files begin with: the winding's file name without its ending, safe on every system. */
export function stemOf(document: TextDocument): string {
  return safeStem(fileName(document).replace(/\.winding$/i, ''));
}

/** The folder a document lies in; a text without a file stands for the workspace's first folder. */
export function folderOf(document: TextDocument): Uri {
  if (document.uri.scheme !== 'untitled') return Uri.joinPath(document.uri, '..');
  return workspace.workspaceFolders?.[0]?.uri ?? Uri.joinPath(document.uri, '..');
}

/** Work on an export: what it works with, and how it tells the reader how far it is. */
export interface Work {
  readonly study: Drawable;
  readonly making: Making;
  /** Throws CancellationError once the reader has given up. */
  readonly advance: Advance;
}

/**
 * Makes files under a progress notice with a way to cancel, in slices so that typing goes on, writes them, and
 * offers to open the result. A canceled or failed export leaves no file of its own and every old one as it was, or
 * says what it left.
 */
export async function runExport(
  { studies, parts }: Exporting,
  document: TextDocument,
  folder: Uri,
  result: (files: readonly NamedFile[]) => Written,
  make: (work: Work) => Promise<readonly NamedFile[]>,
): Promise<void> {
  try {
    const files = await window.withProgress(
      {
        location: ProgressLocation.Notification,
        title: l10n.t('Exporting {0}', fileName(document)),
        cancellable: true,
      },
      async (progress, token) => {
        const study = await settledStudy(studies, document, token);
        if (!isDrawable(study)) return null;
        const pause = createPause(token);
        const making = { parts, pause, confirm };
        const made = await make({ study, making, advance: advanceBy(progress, token) });
        for (const { name } of made) refuseSource(document, Uri.joinPath(folder, name));
        await writeFiles(folder, made, pause);
        return made;
      },
    );
    if (files === null) tellNothingToExport();
    else await offerToOpen(result(files));
  } catch (error) {
    if (error instanceof CancellationError) return;
    const reason = error instanceof Error ? error.message : String(error);
    window.showErrorMessage(l10n.t('The export failed: {0}', reason));
  }
}

/** Asks before something very large is made. */
async function confirm(question: string): Promise<void> {
  const goOn = l10n.t('Export');
  if ((await window.showWarningMessage(question, { modal: true }, goOn)) !== goOn)
    throw new CancellationError();
}

/** Throws where an export would replace the text it is made from, which is its writer's to change. */
function refuseSource({ uri }: TextDocument, target: Uri): void {
  // Where large and small letters are different files, refusing one too many does no harm.
  if (uri.toString().toLowerCase() === target.toString().toLowerCase())
    throw new Error(l10n.t('{0} is the winding itself. Choose another place.', lastPart(uri.path)));
}

function advanceBy(progress: Progress<{ message?: string; increment?: number }>, token: CancellationToken) {
  let before = 0;
  return async (name: string, done: number) => {
    progress.report({ message: name, increment: 100 * (done - before) });
    before = done;
    // Gives the editor its turn, so that it shows the progress and hears of a press on Cancel.
    await new Promise<void>((resolve) => setTimeout(resolve, 0));
    if (token.isCancellationRequested) throw new CancellationError();
  };
}
