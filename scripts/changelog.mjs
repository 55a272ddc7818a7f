// The changelog as the extension's package holds it, where the documents that it links to are not.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './shell.mjs';

export const packedChangelog = 'dist/CHANGELOG.md';

/** A Markdown text with the words of links to other files of the project in place of these links. */
export function withoutFileLinks(text) {
  return text.replace(/\[([^\]]+)\]\((?!\w+:)[^)]*\)/g, '$1');
}

/** The project's changelog without links to its files. */
export function changelogText() {
  return withoutFileLinks(readFileSync(join(root, 'CHANGELOG.md'), 'utf8'));
}
