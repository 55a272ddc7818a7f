import type { Facts } from '../facts/facts.ts';
import type { Range } from '../language/finding.ts';
import { format } from '../language/format/formatter.ts';
import type { Block, Document } from '../language/text/document.ts';
import type { Path } from '../winding/model.ts';
import { writtenStatements } from '../winding/paths/writeOut.ts';

/**
 * The edit that writes the found paths into the connect block, in canonical form: it replaces `route`,
 * or is added where the route was the default. `chosen` are written instead of the found ones, where they
 * come from their candidates. Where special crowns were taken without a word, `specials` is written too.
 * Null where no paths were found, or they are written already.
 */
export function writeOutPaths(
  document: Document,
  facts: Facts | null,
  chosen?: readonly Path[],
): { readonly range: Range; readonly text: string } | null {
  const state = facts?.connection;
  const block = document.blocks.find(({ name }) => name === 'connect');
  if (!facts || !block || state?.kind !== 'connected' || state.facts.written) return null;
  const { explanation, paths } = state.facts;
  const lines = canonicalLines([
    ...(explanation?.crownsNeeded ? [`specials ${explanation.specials}`] : []),
    ...writtenStatements(chosen ?? paths, facts.winding.phases, facts.winding.slots),
  ]);
  return statementsOfConnect(document, block, lines);
}

/**
 * The edit that puts lines of statements into a connect block: in the place of `route`, or at the block's end where
 * none is written.
 */
export function statementsOfConnect(
  document: Document,
  block: Block,
  lines: readonly string[],
): { readonly range: Range; readonly text: string } {
  const { text } = document;
  const lineBreak = text.includes('\r\n') ? '\r\n' : '\n';
  const route = block.statements.find(({ entry }) => entry.word === 'route');
  if (/[\r\n]/.test(text.slice(block.range.start, block.range.end))) {
    if (route) return { range: route.range, text: lines.join(`${lineBreak}  `) };
    const close = block.range.end - 1;
    const startsLine = /[\r\n][ \t]*$/.test(text.slice(0, close));
    const before = startsLine ? '  ' : `${lineBreak}  `;
    return {
      range: { start: close, end: close },
      text: `${before}${lines.join(`${lineBreak}  `)}${lineBreak}`,
    };
  }
  const others = block.statements
    .filter((statement) => statement !== route)
    .map(({ range }) => text.slice(range.start, range.end));
  const inner = [...others, ...lines].map((line) => `  ${line}${lineBreak}`).join('');
  return { range: block.range, text: `connect {${lineBreak}${inner}}` };
}

/** The statements as the formatter writes them in a block, without the block's indent. */
export function canonicalLines(statements: readonly string[]): readonly string[] {
  const lines = format(`connect {\n${statements.join('\n')}\n}\n`)
    .trimEnd()
    .split('\n');
  return lines.slice(1, -1).map((line) => line.slice(2));
}
