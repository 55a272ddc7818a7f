import { Range as EditorRange, type Position, SelectionRange, type TextDocument } from 'vscode';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import type { Range } from '../../../core/language/finding.ts';
import { tokenAt } from '../../../core/language/vocabulary/explain.ts';
import { editorRange } from '../../edits.ts';
import { groups, holds, statementAt, valueAt } from './leaves.ts';

/** What a selection grows to at each position: token, group, value, statement, block, text. */
export function selectionRanges(
  study: CheckedText,
  document: TextDocument,
  positions: readonly Position[],
): SelectionRange[] {
  return positions.map((position) => {
    let chain: SelectionRange | undefined;
    for (const stretch of stretchesAt(study, document.offsetAt(position)).reverse())
      chain = new SelectionRange(editorRange(document, stretch), chain);
    return chain ?? new SelectionRange(new EditorRange(position, position));
  });
}

/** The stretches round an offset, the smallest first, each larger than the one before. */
function stretchesAt(study: CheckedText, offset: number): Range[] {
  const { document, text } = study;
  const token = tokenAt(document.tokens, offset);
  const { block, statement } = statementAt(document, offset);
  const value = statement && valueAt(statement, offset);
  const nested: readonly Range[] =
    value?.kind === 'row'
      ? groups(value.places).map(({ range }) => range)
      : value?.kind === 'walk'
        ? groups(value.steps).map(({ range }) => range)
        : [];
  const whole = { start: 0, end: text.length };
  const around = [
    ...(token ? [{ start: token.start, end: token.end }] : []),
    ...nested,
    ...(value ? [value.range] : []),
    ...(statement ? [statement.range] : []),
    ...(block ? [block.range] : []),
    whole,
  ].filter((range) => holds(range, offset));
  around.sort((a, b) => a.end - a.start - (b.end - b.start));
  const out: Range[] = [];
  for (const range of around) {
    const inner = out.at(-1);
    const grows = !inner || (range.start <= inner.start && range.end >= inner.end);
    if (grows && (range.start !== inner?.start || range.end !== inner.end)) out.push(range);
  }
  return out;
}
