import {
  CompletionItem,
  CompletionItemKind,
  MarkdownString,
  type Position,
  Range,
  SnippetString,
  type TextDocument,
} from 'vscode';
import { canBeAccepted } from '../../core/findings/acceptance/acceptance.ts';
import type { CheckedText } from '../../core/findings/checkedText.ts';
import { type Completion, completions } from '../../core/language/vocabulary/completions.ts';
import { type Pattern, parsePattern } from '../../core/language/vocabulary/pattern.ts';
import type { VocabularyEntry } from '../../core/language/vocabulary/vocabulary.ts';
import { findingWords, l10n } from '../wording.ts';
import { entryLines } from './entryWords.ts';
import { meaningOf } from './reference.ts';

/**
 * The words that may stand at a position, likeliest first. Behind a blank that was just typed these are
 * only what goes on with a statement: indenting a line asks for nothing.
 */
export function completionsAt(
  study: CheckedText,
  document: TextDocument,
  position: Position,
  behindBlank: boolean,
): CompletionItem[] {
  const codes = [...new Set(study.findings.filter(canBeAccepted).map(({ code }) => code))];
  const found = completions(study.document, document.offsetAt(position), codes);
  if (found === null || (behindBlank && !found.goesOn)) return [];
  const { start, end } = found.range;
  const range = new Range(document.positionAt(start), document.positionAt(end));
  // Where a word is written anew before its values, they stay.
  const goesOn = /[ \t"]/.test(study.document.text.charAt(end));
  return found.items.map((completion, index) => itemOf(completion, study, range, index, goesOn));
}

function itemOf(
  completion: Completion,
  study: CheckedText,
  range: Range,
  index: number,
  goesOn: boolean,
): CompletionItem {
  const item = new CompletionItem(completion.word, kindOf(completion));
  item.range = range;
  item.sortText = String(index).padStart(4, '0');
  if (completion.kind === 'unit') {
    item.detail = l10n.t('unit of {0}', completion.dimension);
    return item;
  }
  if (completion.kind === 'code') {
    const { word, reasonFollows } = completion;
    const found = study.findings.find(({ code }) => code === word);
    item.detail = found ? findingWords(found) : '';
    item.documentation = new MarkdownString(meaningOf(word));
    if (!reasonFollows) item.insertText = new SnippetString(`${word} "$1"$0`);
    return item;
  }
  const { entry } = completion;
  item.detail = entry.pattern === '' ? entry.role : entry.pattern;
  item.documentation = new MarkdownString(entryLines(entry).join('\n\n'));
  if (entry.role === 'block') item.insertText = new SnippetString(`${entry.word} {\n\t$0\n}`);
  else if (entry.pattern === 'text' && !goesOn) item.insertText = new SnippetString(`${entry.word} "$1"$0`);
  else if (needsMore(entry) && !goesOn) {
    item.insertText = `${entry.word} `;
    // Words that may follow are offered at once, as behind a blank that is typed.
    if (entry.perOrder || entry.perPoint || beginsWithWord(parsePattern(entry.pattern)))
      item.command = { command: 'editor.action.triggerSuggest', title: '' };
  }
  return item;
}

/** Whether a word means nothing without what stands behind it: values, or the limit on a quantity. */
function needsMore({ role, pattern }: VocabularyEntry): boolean {
  return role === 'quantity' || (role === 'statement' && !mayBeEmpty(parsePattern(pattern)));
}

function beginsWithWord(pattern: Pattern): boolean {
  switch (pattern.kind) {
    case 'literal':
      return true;
    case 'series':
      return beginsWithWord(pattern.parts[0]!);
    case 'choice':
      return pattern.parts.some(beginsWithWord);
    case 'many':
      return beginsWithWord(pattern.part);
    default:
      return false;
  }
}

function mayBeEmpty(pattern: Pattern): boolean {
  switch (pattern.kind) {
    case 'empty':
      return true;
    case 'series':
      return pattern.parts.every(mayBeEmpty);
    case 'choice':
      return pattern.parts.some(mayBeEmpty);
    case 'many':
      return pattern.least === 0 || mayBeEmpty(pattern.part);
    default:
      return false;
  }
}

function kindOf(completion: Completion): CompletionItemKind {
  if (completion.kind === 'unit') return CompletionItemKind.Unit;
  if (completion.kind === 'code') return CompletionItemKind.EnumMember;
  switch (completion.entry.role) {
    case 'block':
      return CompletionItemKind.Module;
    case 'statement':
      return CompletionItemKind.Property;
    case 'quantity':
      return CompletionItemKind.Value;
    case 'choice':
      return CompletionItemKind.EnumMember;
    case 'keyword':
      return CompletionItemKind.Keyword;
  }
}
