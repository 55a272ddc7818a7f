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
import type { CheckedText } from '../../core/findings/checkedText.ts';
import { type EngineAtHand, withStudies } from '../engineAtHand.ts';
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
export function startLanguageFeatures(engine: EngineAtHand, parts: Parts): Disposable[] {
  const selector = { language: windingLanguage };
  const ask = async <Answer>(
    token: CancellationToken,
    document: TextDocument,
    answer: (onDemand: OnDemand, study: CheckedText) => Answer,
  ): Promise<Awaited<Answer> | null> => {
    const onDemand = await withStudies(engine, parts);
    return token.isCancellationRequested ? null : await answer(onDemand, onDemand.studies.of(document));
  };
  const changes = startChanges(engine);
  return [
    ...changes.disposables,
    languages.registerCompletionItemProvider(
      selector,
      {
        provideCompletionItems: async (document, position, _, { triggerCharacter }) => {
          const { completionsAt, studies } = await withStudies(engine, parts);
          return completionsAt(studies.of(document), document, position, triggerCharacter === ' ');
        },
      },
      ' ',
    ),
    languages.registerHoverProvider(selector, {
      provideHover: (document, position, token) =>
        ask(token, document, ({ hoverAt }, study) => hoverAt(study, document, position, token)),
    }),
    languages.registerSignatureHelpProvider(
      selector,
      {
        provideSignatureHelp: (document, position, token) =>
          ask(token, document, ({ pathSignature }, study) => pathSignature(study, document, position)),
      },
      ' ',
    ),
    languages.registerDocumentSymbolProvider(selector, {
      provideDocumentSymbols: (document) =>
        engine.ask(({ symbolsOf, studies }) => symbolsOf(studies.of(document), document)),
    }),
    languages.registerFoldingRangeProvider(selector, {
      provideFoldingRanges: (document) =>
        engine.ask(({ foldingOf, studies }) => foldingOf(studies.of(document), document)),
    }),
    languages.registerDefinitionProvider(selector, {
      provideDefinition: (document, position, token) =>
        ask(token, document, ({ definitionsAt }, study) => definitionsAt(study, document, position, token)),
    }),
    languages.registerReferenceProvider(selector, {
      provideReferences: (document, position, { includeDeclaration }, token) =>
        ask(token, document, ({ referencesAt }, study) =>
          referencesAt(study, document, position, includeDeclaration, token),
        ),
    }),
    languages.registerDocumentHighlightProvider(selector, {
      provideDocumentHighlights: (document, position, token) =>
        ask(token, document, ({ highlightsAt }, study) => highlightsAt(study, document, position, token)),
    }),
    languages.registerRenameProvider(selector, {
      prepareRename: (document, position, token) =>
        ask(token, document, ({ renamedRange }, study) => renamedRange(study, document, position)),
      provideRenameEdits: (document, position, name, token) =>
        ask(token, document, ({ renameEdit }, study) => renameEdit(study, document, position, name)),
    }),
    languages.registerSelectionRangeProvider(selector, {
      provideSelectionRanges: (document, positions, token) =>
        ask(token, document, ({ selectionRanges }, study) => selectionRanges(study, document, positions)),
    }),
    languages.registerDocumentSemanticTokensProvider(
      selector,
      {
        onDidChangeSemanticTokens: changes.found,
        provideDocumentSemanticTokens: (document, token) =>
          ask(token, document, ({ semanticTokens }, study) => semanticTokens(study)),
      },
      tokenLegend,
    ),
    languages.registerInlayHintsProvider(selector, {
      onDidChangeInlayHints: changes.hints,
      provideInlayHints: (document, range, token) =>
        ask(token, document, ({ hintsOf }, study) => hintsOf(study, document, range, wantedHints())),
    }),
    languages.registerCodeLensProvider(selector, {
      onDidChangeCodeLenses: changes.lenses,
      provideCodeLenses: (document, token) =>
        ask(token, document, ({ lensesOf }, study) => lensesOf(study, document, wantedLenses())),
      resolveCodeLens: (lens, token) =>
        ask(token, (lens as Lens).document, ({ resolvedLens }, study) => resolvedLens(study, lens as Lens)),
    }),
    languages.registerOnTypeFormattingEditProvider(
      selector,
      {
        provideOnTypeFormattingEdits: (document, position, typed, _, token) =>
          ask(token, document, ({ onTypeEdits }, study) => onTypeEdits(study, document, position, typed)),
      },
      '\n',
      '}',
    ),
    languages.registerCodeActionsProvider(
      selector,
      {
        provideCodeActions: (document, range, { diagnostics }) =>
          engine.ask(({ fixActions, studies }) => [
            ...fixActions(studies.of(document), document, range, diagnostics),
          ]),
      },
      { providedCodeActionKinds: [CodeActionKind.QuickFix] },
    ),
    languages.registerCodeActionsProvider(
      selector,
      {
        provideCodeActions: (document, range, { diagnostics }, token) =>
          ask(token, document, ({ meetingActions, remedyActions, rewriteActions }, study) => [
            ...meetingActions(study, document, range, diagnostics),
            ...remedyActions(study, document, range, diagnostics),
            ...rewriteActions(study, document, range),
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
function startChanges(engine: EngineAtHand): Changes {
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
      engine.onFound(everything),
      workspace.onDidChangeConfiguration((event) => {
        if (event.affectsConfiguration('slotwright')) everything();
      }),
      window.onDidChangeTextEditorSelection(({ textEditor: { document, selection } }) => {
        if (!isWinding(document)) return;
        const paths = engine.now()?.studies.of(document).specification.connect?.paths ?? [];
        const offset = paths.length > 0 ? document.offsetAt(selection.active) : 0;
        const own = paths.find(({ statement: { start, end } }) => start <= offset && offset <= end);
        // The hints within a path follow the cursor; they stand as long as it stays in its path.
        const next = own ? `${document.uri} ${own.value.phase.value} ${own.value.number.value}` : '';
        if (next !== path) hints.fire();
        path = next;
      }),
    ],
  };
}
