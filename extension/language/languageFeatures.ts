import {
  type CancellationToken,
  CodeActionKind,
  type Disposable,
  type Event,
  EventEmitter,
  languages,
  type TextDocument,
  window,
  workspace,
} from 'vscode';
import { foldingOf, symbolsOf } from '../engine/outline.ts';
import type { Studies } from '../engine/studies.ts';
import type { OnDemand, Parts } from '../loadOnDemand.ts';
import { wantedHints, wantedLenses } from '../settings.ts';
import { isWinding, windingLanguage } from '../windingDocument.ts';
import { tokenLegend } from './tokenLegend.ts';

type Lens = ReturnType<OnDemand['lensesOf']>[number];

/**
 * Outline and folding; and what is loaded when the editor first asks, which it does beside the typing: completion,
 * hovers, navigation, renaming, hints, lines above statements. What was asked for an older text, or is not wanted any
 * more, is not answered.
 */
export function startLanguageFeatures(studies: Studies, parts: Parts): Disposable[] {
  const selector = { language: windingLanguage };
  const ask = async <Answer>(
    token: CancellationToken,
    answer: (onDemand: OnDemand) => Answer,
  ): Promise<Awaited<Answer> | null> => {
    const onDemand = await parts.onDemand();
    return token.isCancellationRequested ? null : await answer(onDemand);
  };
  const of = (document: TextDocument) => studies.of(document);
  const changes = startChanges(studies);
  return [
    ...changes.disposables,
    languages.registerCompletionItemProvider(
      selector,
      {
        provideCompletionItems: async (document, position, _, { triggerCharacter }) => {
          const { completionsAt } = await parts.onDemand();
          return completionsAt(of(document), document, position, triggerCharacter === ' ');
        },
      },
      ' ',
    ),
    languages.registerHoverProvider(selector, {
      provideHover: (document, position, token) =>
        ask(token, ({ hoverAt }) => hoverAt(of(document), document, position, token)),
    }),
    languages.registerSignatureHelpProvider(
      selector,
      {
        provideSignatureHelp: (document, position, token) =>
          ask(token, ({ pathSignature }) => pathSignature(of(document), document, position)),
      },
      ' ',
    ),
    languages.registerDocumentSymbolProvider(selector, {
      provideDocumentSymbols: (document) => symbolsOf(of(document), document),
    }),
    languages.registerFoldingRangeProvider(selector, {
      provideFoldingRanges: (document) => foldingOf(of(document), document),
    }),
    languages.registerDefinitionProvider(selector, {
      provideDefinition: (document, position, token) =>
        ask(token, ({ definitionsAt }) => definitionsAt(of(document), document, position, token)),
    }),
    languages.registerReferenceProvider(selector, {
      provideReferences: (document, position, { includeDeclaration }, token) =>
        ask(token, ({ referencesAt }) =>
          referencesAt(of(document), document, position, includeDeclaration, token),
        ),
    }),
    languages.registerDocumentHighlightProvider(selector, {
      provideDocumentHighlights: (document, position, token) =>
        ask(token, ({ highlightsAt }) => highlightsAt(of(document), document, position, token)),
    }),
    languages.registerRenameProvider(selector, {
      prepareRename: (document, position, token) =>
        ask(token, ({ renamedRange }) => renamedRange(of(document), document, position)),
      provideRenameEdits: (document, position, name, token) =>
        ask(token, ({ renameEdit }) => renameEdit(of(document), document, position, name)),
    }),
    languages.registerSelectionRangeProvider(selector, {
      provideSelectionRanges: (document, positions, token) =>
        ask(token, ({ selectionRanges }) => selectionRanges(of(document), document, positions)),
    }),
    languages.registerDocumentSemanticTokensProvider(
      selector,
      {
        onDidChangeSemanticTokens: changes.found,
        provideDocumentSemanticTokens: (document, token) =>
          ask(token, ({ semanticTokens }) => semanticTokens(of(document))),
      },
      tokenLegend,
    ),
    languages.registerInlayHintsProvider(selector, {
      onDidChangeInlayHints: changes.hints,
      provideInlayHints: (document, range, token) =>
        ask(token, ({ hintsOf }) => hintsOf(of(document), document, range, wantedHints())),
    }),
    languages.registerCodeLensProvider(selector, {
      onDidChangeCodeLenses: changes.lenses,
      provideCodeLenses: (document, token) =>
        ask(token, ({ lensesOf }) => lensesOf(of(document), document, wantedLenses())),
      resolveCodeLens: (lens, token) =>
        ask(token, ({ resolvedLens }) => resolvedLens(of((lens as Lens).document), lens as Lens)),
    }),
    languages.registerOnTypeFormattingEditProvider(
      selector,
      {
        provideOnTypeFormattingEdits: (document, position, typed, _, token) =>
          ask(token, ({ onTypeEdits }) => onTypeEdits(of(document), document, position, typed)),
      },
      '\n',
      '}',
    ),
    languages.registerCodeActionsProvider(
      selector,
      {
        provideCodeActions: (document, range, { diagnostics }, token) =>
          ask(token, ({ meetingActions, remedyActions, rewriteActions }) => [
            ...meetingActions(of(document), document, range, diagnostics),
            ...remedyActions(of(document), document, range, diagnostics),
            ...rewriteActions(of(document), document, range),
          ]),
      },
      { providedCodeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorRewrite] },
    ),
  ];
}

interface Changes {
  readonly found: Event<void>;
  readonly hints: Event<void>;
  readonly lenses: Event<void>;
  readonly disposables: readonly Disposable[];
}

/** When hints and lines are to be asked for anew without a change of the text. */
function startChanges(studies: Studies): Changes {
  const [found, hints, lenses] = [
    new EventEmitter<void>(),
    new EventEmitter<void>(),
    new EventEmitter<void>(),
  ];
  const everything = () => {
    for (const emitter of [found, hints, lenses]) emitter.fire();
  };
  let path = '';
  return {
    found: found.event,
    hints: hints.event,
    lenses: lenses.event,
    disposables: [
      found,
      hints,
      lenses,
      { dispose: studies.onFound(everything) },
      workspace.onDidChangeConfiguration((event) => {
        if (event.affectsConfiguration('slotwright')) everything();
      }),
      window.onDidChangeTextEditorSelection(({ textEditor: { document, selection } }) => {
        if (!isWinding(document)) return;
        const offset = document.offsetAt(selection.active);
        const paths = studies.of(document).specification.connect?.paths ?? [];
        const own = paths.find(({ statement: { start, end } }) => start <= offset && offset <= end);
        // The hints within a path follow the cursor; they stand as long as it stays in its path.
        const next = own ? `${document.uri} ${own.value.phase.value} ${own.value.number.value}` : '';
        if (next !== path) hints.fire();
        path = next;
      }),
    ],
  };
}
