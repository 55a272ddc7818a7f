import { rangeWords } from '../../core/language/vocabulary/explain.ts';
import type { VocabularyEntry } from '../../core/language/vocabulary/vocabulary.ts';
import { expectedWords, l10n, meaningWords } from '../wording.ts';

/** What a word means, what its values may be, its default and an example, as paragraphs of Markdown. */
export function entryLines(entry: VocabularyEntry): readonly string[] {
  const ranges = rangeWords(entry).map(expectedWords);
  return [
    meaningWords(entry.meaning),
    ...(ranges.length > 0 ? [l10n.t('Values: {0}.', ranges.join('; '))] : []),
    ...(entry.default === undefined ? [] : [l10n.t('Default: {0}', `\`${entry.default}\``)]),
    `\`\`\`winding\n${entry.example}\n\`\`\``,
  ];
}
