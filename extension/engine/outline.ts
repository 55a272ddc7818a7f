import { DocumentSymbol, FoldingRange, Range, SymbolKind, type TextDocument } from 'vscode';
import type { CheckedText } from '../../core/findings/checkedText.ts';
import { foldedStretches, type OutlineEntry, outline } from '../../core/language/text/outline.ts';

/** The outline of a text. */
export function symbolsOf(study: CheckedText, document: TextDocument): DocumentSymbol[] {
  return outline(study.document).map((entry) => symbolOf(entry, document));
}

/** The stretches of a text that can be folded. */
export function foldingOf(study: CheckedText, document: TextDocument): FoldingRange[] {
  return foldedStretches(study.document).flatMap(({ start, end, closes }) => {
    const [first, last] = [document.positionAt(start).line, document.positionAt(end).line];
    return last > first ? [new FoldingRange(first, closes && last - 1 > first ? last - 1 : last)] : [];
  });
}

const kinds: Readonly<Record<OutlineEntry['kind'], SymbolKind>> = {
  winding: SymbolKind.File,
  block: SymbolKind.Namespace,
  statement: SymbolKind.Property,
};

function symbolOf({ kind, name, detail, range, word, children }: OutlineEntry, document: TextDocument) {
  const placed = ({ start, end }: { readonly start: number; readonly end: number }) =>
    new Range(document.positionAt(start), document.positionAt(end));
  const symbol = new DocumentSymbol(name, detail, kinds[kind], placed(range), placed(word));
  symbol.children = children.map((child) => symbolOf(child, document));
  return symbol;
}
