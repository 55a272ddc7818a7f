import MarkdownIt from 'markdown-it';
import { keeping } from './keeping.ts';

const reader = new MarkdownIt({ html: true, linkify: true });
reader.linkify.set({ fuzzyLink: false });

const keep = keeping<string>(40);

/** As a forge reads Markdown: raw HTML passes, and addresses with a scheme become links. Rendered once. */
export function html(markdown: string): string {
  return keep(markdown, () => reader.render(markdown));
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

/** What a reader sees of some HTML. */
export function shownText(markup: string): string {
  return markup
    .replace(/<[^>]*>/g, '')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&');
}

/**
 * What forges make of the text of a rendered page, code aside: mentions of people, references to issues,
 * merge requests, tickets, labels, milestones, commits, formulas, emoji, addresses (the reference pages of GitHub and
 * GitLab on their Markdown; from memory).
 */
const references: readonly RegExp[] = [
  /(?<![A-Za-z0-9])@[A-Za-z0-9]/,
  /#\d/,
  /\bGH-\d/i,
  /\b[A-Z][A-Z0-9_]+-\d/,
  /![0-9]/,
  /[~%&$]["\w]|\^alert/,
  /\$[^$]+\$/,
  /(?<![\w.])(?=\d*[a-f])[0-9a-f]{7,40}\b/,
  /:[a-z0-9_+-]+:/i,
  /\w:\/\/|\bwww\.|[a-z]\.example/i,
  /\[\^|\[vulnerability:|\*iteration:|\{[+-]/,
];

/** What a forge would act on in a Markdown text: words of `references`, and lines that give it orders. */
export function forgeActions(markdown: string): readonly string[] {
  const page = shownText(html(markdown).replace(/<code>[\s\S]*?<\/code>/g, '\u2423'));
  return [
    ...references.flatMap((pattern) => pattern.exec(page)?.[0] ?? []),
    ...markdown.split('\n').filter((line) => /^\s*\/[a-z]/i.test(line)),
  ];
}
