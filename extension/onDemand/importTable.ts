import { commands, Uri, window, workspace } from 'vscode';
import { format } from '../../core/language/format/formatter.ts';
import { capitalized } from '../../core/language/numbers.ts';
import type { TableWishes } from '../../core/tables/import/head.ts';
import { lastPart } from '../windingDocument.ts';
import { l10n } from '../wording.ts';
import { newText } from './newText.ts';

/** What reads tables, without the formatter of what it makes; from a file of its own when it is first needed. */
export type TableReader = typeof import('../../core/tables/import/tableReader.ts');

/** Larger files are no tables of a winding: the largest takes less than 2 MB. */
const mostBytes = 8 * 1024 * 1024;
/** Troubles that a notice tells; all of them are in a text. */
const mostTold = 3;

/**
 * A winding from a table of a spreadsheet: a slot table, a list of bars, or the bars of each path. What the table does
 * not tell is asked for; what is wrong in it is told at row and column. The winding is a new text.
 */
export async function importTable(tableReader: () => Promise<TableReader>, uri?: unknown): Promise<void> {
  const file = uri instanceof Uri ? uri : await pickedTable();
  if (file === null) return;
  const csv = await readTable(file);
  if (csv === null) return;
  const reader = await tableReader();
  let wishes: TableWishes = {};
  let made = reader.readWinding(csv, wishes);
  while (made.kind === 'lacking') {
    const answer = made.what === 'poles' ? await askForPoles(made.words) : await askForConnection(reader);
    if (answer === null) return;
    wishes = { ...wishes, ...answer };
    made = reader.readWinding(csv, wishes);
  }
  if (made.kind === 'refused') return tellTroubles(file, made.troubles.map(reader.troubleWords));
  const document = await newText(format(made.text), lastPart(file.path).replace(/\.[^.]*$/, ''));
  await window.showTextDocument(document);
  await commands.executeCommand('slotwright.showLayoutPanel');
}

async function pickedTable(): Promise<Uri | null> {
  const title = l10n.t('Import a slot table');
  const filters = { [l10n.t('Tables')]: ['csv', 'tsv', 'txt'] };
  const picked = await window.showOpenDialog({
    canSelectMany: false,
    filters,
    title,
    openLabel: l10n.t('Import'),
  });
  return picked?.[0] ?? null;
}

/** The text of a table; null, and said why, where it cannot be read. */
async function readTable(file: Uri): Promise<string | null> {
  const name = lastPart(file.path);
  try {
    const { size } = await workspace.fs.stat(file);
    if (size > mostBytes) throw new Error(l10n.t('it is larger than 8 MB'));
    const bytes = await workspace.fs.readFile(file);
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (error) {
    const reason =
      error instanceof TypeError
        ? l10n.t('it is not UTF-8 text; save it as CSV UTF-8')
        : error instanceof Error
          ? error.message
          : String(error);
    window.showErrorMessage(l10n.t('{0} cannot be read: {1}.', name, reason));
    return null;
  }
}

async function askForPoles(words: string): Promise<TableWishes | null> {
  const answer = await window.showInputBox({
    title: l10n.t('Import a slot table: poles'),
    prompt: words,
    placeHolder: '8',
    ignoreFocusOut: true,
    validateInput: (text) =>
      polesOf(text) === null ? l10n.t('An even number from 2 to 2400 is expected.') : null,
  });
  const poles = answer === undefined ? null : polesOf(answer);
  return poles === null ? null : { poles };
}

function polesOf(text: string): number | null {
  const poles = /^\s*\d{1,4}\s*$/.test(text) ? Number(text) : 0;
  return poles >= 2 && poles <= 2400 && poles % 2 === 0 ? poles : null;
}

async function askForConnection({ connectionWords }: TableReader): Promise<TableWishes | null> {
  const title = l10n.t('Import a slot table: connection');
  const placeHolder = l10n.t('How are the phases joined?');
  const word = await window.showQuickPick([...connectionWords], { title, placeHolder });
  const connection = connectionWords.find((each) => each === word);
  return connection === undefined ? null : { connection };
}

/** Tells the first troubles; the others in a text of their own, where the reader asks for it. */
async function tellTroubles(file: Uri, troubles: readonly string[]): Promise<void> {
  const words = troubles.map(capitalized);
  const more = words.length - mostTold;
  // A notice is one line, whatever breaks are in it.
  const told = [`${lastPart(file.path)}:`, ...words.slice(0, mostTold)].join(' ');
  if (more <= 0) {
    window.showErrorMessage(told);
    return;
  }
  const showAll = l10n.t('Show All');
  const answer = await window.showErrorMessage(`${told} ${l10n.t('… and {0} more.', more)}`, showAll);
  if (answer !== showAll) return;
  const content = [lastPart(file.path), ...words, ''].join('\n');
  await window.showTextDocument(await workspace.openTextDocument({ language: 'plaintext', content }));
}
