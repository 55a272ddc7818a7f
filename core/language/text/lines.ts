/** A place as people count it: line and column from 1, columns in UTF-16 units. */
export interface LineColumn {
  readonly line: number;
  readonly column: number;
}

/** Offsets of the first character of every line; CRLF, LF and lone CR end a line. */
export function lineStarts(text: string): readonly number[] {
  const starts = [0];
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 10 || (c === 13 && text.charCodeAt(i + 1) !== 10)) starts.push(i + 1);
  }
  return starts;
}

/** Index of the line that holds an offset, from 0; offsets outside the text are taken to its nearest end. */
export function lineIndex(starts: readonly number[], offset: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (starts[middle]! <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Line and column of an offset; likewise. */
export function lineColumn(starts: readonly number[], offset: number): LineColumn {
  const line = lineIndex(starts, offset);
  return { line: line + 1, column: Math.max(0, offset - starts[line]!) + 1 };
}

/** The end of the line that holds `offset`. */
export function lineEnd(text: string, offset: number): number {
  for (let i = offset; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 10 || c === 13) return i;
  }
  return text.length;
}

/** End of the text in quotes that opens at `offset`, or null where its line ends first. */
export function stringEnd(text: string, offset: number): number | null {
  for (let i = offset + 1; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 34) return i + 1;
    if (c === 10 || c === 13) return null;
    if (c === 92 && i + 1 < text.length && !/[\r\n]/.test(text.charAt(i + 1))) i++;
  }
  return null;
}
