/** User text as plain Markdown: nothing in it can start markup, a table cell, a link or an HTML tag. */
export function plainText(text: string): string {
  return text
    .replace(/[\\`*_{}[\]#|<>~&@]/g, (c) =>
      c === '<' ? '&lt;' : c === '>' ? '&gt;' : c === '&' ? '&amp;' : `\\${c}`,
    )
    .replace(/:\/\//g, ':\\//')
    .replace(/www\./gi, (c) => `${c.slice(0, 3)}\\.`);
}

/** A Markdown table; numbers are best aligned right. Cells are Markdown already, without line breaks. */
export function markdownTable(
  head: readonly string[],
  align: readonly ('left' | 'right')[],
  rows: readonly (readonly string[])[],
): string {
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell) => cell.replace(/(?<!\\)\|/g, '\\|')).join(' | ')} |`;
  const rule = align.map((side) => (side === 'right' ? '---:' : '---'));
  return [line(head), line(rule), ...rows.map(line)].join('\n');
}
