import {
  CodeAction,
  CodeActionKind,
  commands,
  type Disposable,
  languages,
  Range,
  type TextDocument,
  type WorkspaceEdit,
  window,
  workspace,
} from 'vscode';
import { changeInSight, editOf } from '../edits.ts';
import type { Studies } from '../engine/studies.ts';
import type { EngineAtHand } from '../engineAtHand.ts';
import { isWinding, windingLanguage } from '../windingDocument.ts';
import { l10n } from '../wording.ts';

/** The command's name, as in package.json. */
const writeOutCommand = 'slotwright.writeOutPaths';
const chooseCommand = 'slotwright.chooseConnection';
const takeCommand = 'slotwright.takeConnection';

/** Offers to write the found paths into the text or to choose others, in the connect block and as commands. */
export function startPathActions(engine: EngineAtHand): Disposable[] {
  return [
    languages.registerCodeActionsProvider(
      { language: windingLanguage },
      {
        provideCodeActions: (document, range) =>
          engine.ask(({ studies }) => actionsAt(document, range, studies)),
      },
      { providedCodeActionKinds: [CodeActionKind.RefactorRewrite] },
    ),
    commands.registerCommand(takeCommand, (uri?: unknown) => {
      const document = workspace.textDocuments.find((each) => each.uri.toString() === String(uri));
      if (document !== undefined && isWinding(document)) engine.now()?.studies.take(document);
    }),
    commands.registerCommand(writeOutCommand, async () => {
      const document = window.activeTextEditor?.document;
      const isAtHand = document !== undefined && isWinding(document);
      if (isAtHand && (await writeOut(document, (await engine.ready()).studies))) return;
      window.showInformationMessage(
        l10n.t('There are no found paths to write out: open a winding file whose paths are routed.'),
      );
    }),
  ];
}

function actionsAt(document: TextDocument, range: Range, studies: Studies): CodeAction[] {
  const study = studies.of(document);
  const block = study.document.blocks.find(({ name }) => name === 'connect');
  if (!block) return [];
  const stretch = new Range(document.positionAt(block.range.start), document.positionAt(block.range.end));
  const edit = stretch.intersection(range) ? editFor(document, studies) : null;
  if (!edit) return [];
  const action = new CodeAction(l10n.t('Write out the found paths'), CodeActionKind.RefactorRewrite);
  action.edit = edit;
  return [action, ...choosing(document, studies)];
}

function choosing(document: TextDocument, studies: Studies): CodeAction[] {
  const state = studies.of(document).facts?.connection;
  if (state?.kind !== 'connected' || state.facts.candidates === null) return [];
  const action = (command: string, title: string) => {
    const made = new CodeAction(title, CodeActionKind.RefactorRewrite);
    made.command = { command, title, arguments: [document.uri] };
    return made;
  };
  return [
    ...(state.offered ? [action(takeCommand, l10n.t('Take the best connection by now'))] : []),
    action(chooseCommand, l10n.t('Choose a connection ...')),
  ];
}

/** Writes the found paths into the text and brings them into sight; false where there are none. */
async function writeOut(document: TextDocument, studies: Studies): Promise<boolean> {
  const found = studies.of(document).writeOutPaths();
  if (found) await changeInSight(document, [found]);
  return found !== null;
}

function editFor(document: TextDocument, studies: Studies): WorkspaceEdit | null {
  const found = studies.of(document).writeOutPaths();
  return found && editOf(document, [found]);
}
