import { listed } from '../language/lists.ts';
import { blockNames } from '../language/vocabulary/vocabulary.ts';

// Choices and lists, but not those within parentheses.
const betweenChoices = /(?:, | or )(?![^(]*\))/;

const blocks: ReadonlySet<string> = new Set(blockNames);

/**
 * What is missing, in words: statements in quotes, choices one by one (`'connect star', 'delta' or
 * 'open'`), anything else as it is.
 */
export function needsInWords(needs: readonly string[], quoted = (words: string) => `'${words}'`): string {
  return listed(needs.map((need) => needInWords(need, quoted)));
}

function needInWords(need: string, quoted: (words: string) => string): string {
  const choices = need.split(betweenChoices).map((choice, index) => {
    const isWord = index > 0 && !choice.includes(' ');
    return isWord || blocks.has(choice.split(' ')[0]!) ? quoted(choice) : choice;
  });
  const last = choices.pop()!;
  return choices.length === 0 ? last : `${choices.join(', ')} or ${last}`;
}
