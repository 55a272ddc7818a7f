// HTML in small pieces: escaped texts, pages, tables, pictures, and Markdown turned into it.
import { readFileSync } from 'node:fs';
import MarkdownIt from 'markdown-it';

const style = readFileSync(new URL('style.css', import.meta.url), 'utf8');

/** A text as it stands in HTML. */
export const escaped = (text) =>
  String(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');

/** Pages show pictures from beside them, and run nothing; tables of Markdown range their columns by attributes. */
const policy =
  "default-src 'none'; style-src 'unsafe-inline'; img-src 'self' file: data:; base-uri 'none'; form-action 'none'";

/** A whole page that needs nothing but itself. */
export function page({ title, body }) {
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>${escaped(title)}</title>
<link rel="icon" href="data:,">
<style>
${style}</style>
</head>
<body>
${body}
</body>
</html>
`;
}

/** Something wide that scrolls by itself, by keyboard too, so that the page never does so sideways. */
export const scroller = (name, content, kind = '') =>
  `<div class="scroll${kind && ` ${kind}`}" role="region" tabindex="0" aria-label="${escaped(name)}">${content}</div>`;

/** The text of a winding file, as it stands. */
export const sourceText = (name, text) =>
  scroller(`Text of ${name}`, `<pre><code>${escaped(text)}</code></pre>`, 'code tall');

/** A drawing on white paper: a `wide` one keeps a readable size and scrolls, of `sheets` the first is shown. */
export function picture({ file, alt, caption, kind = '', whole = 'Open the drawing by itself' }) {
  const image = `<img src="${escaped(file)}" alt="${escaped(alt)}">`;
  return `<figure>${scroller(`${alt}, scrolls sideways`, image, `paper${kind && ` ${kind}`}`)}
<figcaption>${caption} <a href="${escaped(file)}">${whole}</a></figcaption></figure>`;
}

/** A table of texts; the first row names the columns, the first column the rows. `kind` is a class for its style. */
export function table(name, [head = [], ...rows], kind = '') {
  const names = head.map((text) => `<th scope="col">${escaped(text)}</th>`).join('');
  const lines = rows.map((row) => {
    const [first, ...rest] = row.map(escaped);
    return `<tr><th scope="row">${first}</th>${rest.map((text) => `<td>${text}</td>`).join('')}</tr>`;
  });
  return scroller(
    name,
    `<table><thead><tr>${names}</tr></thead><tbody>\n${lines.join('\n')}\n</tbody></table>`,
    kind,
  );
}

/** A reader of Markdown whose tables scroll and have named heads; `html` lets elements in the text through. */
function reader({ html }) {
  const markdown = new MarkdownIt({ html });
  const { rules } = markdown.renderer;
  const plain = (tokens, index, options, _, self) => self.renderToken(tokens, index, options);
  rules.table_open = (tokens, index, _, env) => {
    env.tables = (env.tables ?? 0) + 1;
    const head = tokens.slice(
      index,
      tokens.findIndex(({ type }, at) => at > index && type === 'thead_close'),
    );
    const names = head.filter(({ type, content }) => type === 'inline' && content !== '');
    const label = `Table ${env.tables}: ${names.map(({ content }) => content).join(', ')}`;
    return `<div class="scroll" role="region" tabindex="0" aria-label="${escaped(label)}"><table>\n`;
  };
  rules.table_close = () => '</table></div>\n';
  rules.th_open = (tokens, index, ...rest) => {
    // A head without a word names nothing.
    const empty = tokens[index + 1]?.content === '';
    if (empty) tokens[index].tag = 'td';
    else tokens[index].attrSet('scope', 'col');
    const close = tokens.slice(index).find(({ type }) => type === 'th_close');
    if (empty && close) close.tag = 'td';
    return plain(tokens, index, ...rest);
  };
  return markdown;
}

/** A report as HTML; markup of its own it has none. */
export const reportHtml = (markdown) => reader({ html: false }).render(markdown);

/** A comparison as HTML; its long lists are folded by elements in the text. */
export const comparisonHtml = (markdown) => reader({ html: true }).render(markdown);

/** What stands in Markdown under a heading of the second level. */
export function sectionOf(markdown, heading) {
  const sections = markdown.split(/^## /m).slice(1);
  const found = sections.find((section) => section.startsWith(`${heading}\n`));
  return found === undefined ? null : found.slice(heading.length + 1).trim();
}

/** The rows of the first table of a Markdown text, its head first. */
export function tableRows(markdown) {
  const lines = markdown.split('\n').filter((line) => line.startsWith('|'));
  const cells = lines.map((line) =>
    line
      .replace(/^\||\|\s*$/g, '')
      .split(/(?<!\\)\|/)
      .map((cell) => cell.trim()),
  );
  return cells.filter((_, index) => index !== 1);
}
