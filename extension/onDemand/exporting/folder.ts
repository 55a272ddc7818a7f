import { Uri, window } from 'vscode';
import { l10n } from '../../wording.ts';
import { type Exporting, folderOf, runExport, stemOf, windingToExport } from './exporting.ts';
import { packageFiles, scheduleFiles } from './packageFiles.ts';
import { isThere } from './writeFiles.ts';

/** Asks for a folder and writes every schedule into it as CSV. */
export async function exportSchedules(exporting: Exporting, uri: unknown): Promise<void> {
  const document = await windingToExport(exporting, uri);
  const folder = document && (await pickedFolder(folderOf(document), l10n.t('Write the schedules here')));
  if (!document || !folder) return;
  const stem = stemOf(document);
  await runExport(
    exporting,
    document,
    folder,
    (files) => ({
      open: Uri.joinPath(folder, files[0]?.name ?? ''),
      words: l10n.t('Wrote {0} schedules.', files.length),
    }),
    async ({ study, making, advance }) => {
      await advance(stem, 0);
      return scheduleFiles(study, stem, making);
    },
  );
}

/** Asks for a folder and writes a folder of its own into it with all that goes to the shop. */
export async function exportPackage(exporting: Exporting, uri: unknown): Promise<void> {
  const document = await windingToExport(exporting, uri);
  const parent =
    document && (await pickedFolder(folderOf(document), l10n.t('Write the handover package here')));
  if (!document || !parent) return;
  const stem = stemOf(document);
  const folder = Uri.joinPath(parent, `${stem}-handover`);
  // What cannot be looked at is told when it is written to.
  if ((await isThere(folder).catch(() => false)) && !(await mayReplace(`${stem}-handover`))) return;
  let errors = 0;
  await runExport(
    exporting,
    document,
    folder,
    (files) => ({
      open: Uri.joinPath(folder, `${stem}-report.md`),
      words: [
        l10n.t('Wrote the handover package {0}: {1} files.', `${stem}-handover`, files.length),
        ...stampWords(errors),
      ].join(' '),
    }),
    ({ study, making, advance }) => {
      errors = study.findings.filter(({ severity }) => severity === 'error').length;
      return packageFiles(study, stem, making, advance);
    },
  );
}

/** The stamp that the sheets of a winding with errors bear. */
function stampWords(errors: number): readonly string[] {
  if (errors === 0) return [];
  const stamp = errors === 1 ? l10n.t('Not released: 1 error') : l10n.t('Not released: {0} errors', errors);
  return [`${stamp}.`];
}

async function pickedFolder(defaultUri: Uri, openLabel: string): Promise<Uri | null> {
  const picked = await window.showOpenDialog({
    canSelectFolders: true,
    canSelectFiles: false,
    defaultUri,
    openLabel,
    title: openLabel,
  });
  return picked?.[0] ?? null;
}

async function mayReplace(name: string): Promise<boolean> {
  const replace = l10n.t('Replace');
  const question = l10n.t('The folder {0} is there already. Replace the files of the package in it?', name);
  return (await window.showWarningMessage(question, { modal: true }, replace)) === replace;
}
