import MarkdownIt from 'markdown-it';

/** As GitHub reads Markdown: raw HTML, and links without brackets where a scheme or an address stands. */
function html(markdown: string): string {
  const reader = new MarkdownIt({ html: true, linkify: true });
  reader.linkify.set({ fuzzyLink: false });
  return reader.render(markdown);
}

/** Names of all HTML elements a Markdown text becomes, raw HTML in it included. */
export function htmlElements(markdown: string): ReadonlySet<string> {
  return new Set(
    [...html(markdown).matchAll(/<([a-zA-Z!?][^\s>/]*)/g)].map((match) => match[1]!.toLowerCase()),
  );
}

/** Rows of the tables of a Markdown text, cells as HTML. */
export function tableRows(markdown: string): readonly (readonly string[])[] {
  return [...html(markdown).matchAll(/<tr>(.*?)<\/tr>/gs)].map((row) =>
    [...row[1]!.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gs)].map((cell) => cell[1]!),
  );
}

/** The texts of the headings of a level. */
export function headings(markdown: string, level: number): readonly string[] {
  return [...html(markdown).matchAll(new RegExp(`<h${level}>(.*?)</h${level}>`, 'gs'))].map(
    (match) => match[1]!,
  );
}
