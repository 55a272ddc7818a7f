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

/** Line and column of an offset; offsets outside the text are taken to its nearest end. */
export function lineColumn(starts: readonly number[], offset: number): LineColumn {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (starts[middle]! <= offset) low = middle;
    else high = middle - 1;
  }
  return { line: low + 1, column: Math.max(0, offset - starts[low]!) + 1 };
}
