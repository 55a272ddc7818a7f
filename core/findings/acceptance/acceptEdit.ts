import type { Range } from '../../language/finding.ts';
import type { Document } from '../../language/text/document.ts';

/** An edit that writes an accept; the reason, which is still to be given, stands between its two parts. */
export interface AcceptEdit {
  readonly range: Range;
  readonly before: string;
  readonly after: string;
}

/**
 * The edit that accepts the warnings of a code: a line at the end of the require block, or a block of its own
 * behind the text. Null where the block is not closed, so that it has no end.
 */
export function acceptEdit({ text, blocks }: Document, code: string): AcceptEdit | null {
  const lineBreak = text.includes('\r\n') ? '\r\n' : '\n';
  const before = `accept ${code} "`;
  const block = blocks.find(({ name }) => name === 'require');
  if (!block) {
    const end = text.length;
    const lines = /(^|[\r\n])$/.test(text) ? '' : lineBreak;
    return {
      range: { start: end, end },
      before: `${lines}${text.trim() === '' ? '' : lineBreak}require {${lineBreak}  ${before}`,
      after: `"${lineBreak}}${lineBreak}`,
    };
  }
  const close = block.range.end - 1;
  const inside = text.slice(block.range.start, close);
  if (text.charAt(close) !== '}') return null;
  const blanks = /[ \t]*$/.exec(inside)![0].length;
  const start = close - blanks;
  if (!/[\r\n]/.test(inside)) {
    const gap = /\{[ \t]*$/.test(inside) ? ' ' : '  ';
    return { range: { start, end: close }, before: `${gap}${before}`, after: '" ' };
  }
  const startsLine = /[\r\n]$/.test(text.slice(0, start));
  return {
    range: startsLine ? { start, end: start } : { start, end: close },
    before: `${startsLine ? '' : lineBreak}  ${before}`,
    after: `"${lineBreak}`,
  };
}
