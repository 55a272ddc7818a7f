import { visible } from '../language/textFindingKinds.ts';

/**
 * User text as a Markdown code span, the only form in which a forge neither renders markup nor makes
 * links, mentions of people or references to issues of it. Fit for a table cell.
 */
export function code(text: string, most = 80): string {
  const line = visible(text.replace(/\s+/g, ' ').trim());
  const shown = line.length > most ? `${line.slice(0, most - 1).replace(/[\ud800-\udbff]$/, '')}…` : line;
  if (shown === '') return '';
  const longest = Math.max(0, ...[...shown.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = '`'.repeat(longest + 1);
  const pad = /^`|`$/.test(shown) ? ' ' : '';
  return `${fence}${pad}${shown.replaceAll('|', '\\|')}${pad}${fence}`;
}

/** Our own sentences, which may quote user text: nothing in them starts markup, a mention or a link. */
export function sentence(text: string): string {
  const safe = visible(text.replace(/\s+/g, ' ').trim())
    .replace(/[\\`*_{}[\]()#+!|<>~&]/g, (c) => {
      if (c === '<') return '&lt;';
      if (c === '>') return '&gt;';
      return c === '&' ? '&amp;' : `\\${c}`;
    })
    // A forge makes mentions and links from the rendered text, so an escape alone would not stop them.
    .replace(/@|\\#(?=\d)|:(?=\/\/)|(?<=\bwww)\./gi, '$&\u200b');
  return safe;
}
