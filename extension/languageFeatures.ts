import { type Disposable, languages } from 'vscode';
import type { Parts } from './loadOnDemand.ts';
import { foldingOf, symbolsOf } from './outline.ts';
import type { Studies } from './studies.ts';
import { windingLanguage } from './windingDocument.ts';

/** Outline and folding; completion and hovers, which are loaded when the editor first asks. */
export function startLanguageFeatures(studies: Studies, parts: Parts): Disposable[] {
  const selector = { language: windingLanguage };
  return [
    languages.registerCompletionItemProvider(
      selector,
      {
        provideCompletionItems: async (document, position, _, { triggerCharacter }) => {
          const { completionsAt } = await parts.onDemand();
          return completionsAt(studies.of(document), document, position, triggerCharacter === ' ');
        },
      },
      ' ',
    ),
    languages.registerHoverProvider(selector, {
      provideHover: async (document, position) =>
        (await parts.onDemand()).hoverAt(studies.of(document), document, position),
    }),
    languages.registerDocumentSymbolProvider(selector, {
      provideDocumentSymbols: (document) => symbolsOf(studies.of(document), document),
    }),
    languages.registerFoldingRangeProvider(selector, {
      provideFoldingRanges: (document) => foldingOf(studies.of(document), document),
    }),
  ];
}
