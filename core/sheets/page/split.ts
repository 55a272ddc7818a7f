import type { Block, Part } from './flow.ts';

/** Lines that are split between sheets where they must be. */
export interface SplitLines {
  readonly section: string;
  /** In mm. */
  readonly width: number;
  /** How many lines there are. */
  readonly count: number;
  /** Height above the lines of a part that begins with line `from`: its heading, and what stands under it. */
  readonly head: (from: number) => number;
  /** Height of a line; `first` where it is the first of its part. */
  readonly height: (line: number, first: boolean) => number;
  /** All lines stay together up to this height. */
  readonly wholeHeight: number;
  /** Fewer lines than these make no part, but at the end. */
  readonly least: number;
  readonly draw: (from: number, count: number) => Part['draw'];
}

/** The block of some lines: as many as there is room for, the others on the next sheet. */
export function splitBlock(lines: SplitLines, from = 0): Block {
  const { section, width, count: all, head, height: heightOf, wholeHeight, least, draw } = lines;
  return {
    section,
    width,
    take: (room) => {
      let height = head(from);
      if (from === 0) {
        let whole = height;
        for (let line = 0; line < all; line++) whole += heightOf(line, line === 0);
        if (whole > room && whole <= wholeHeight) return null;
      }
      let count = 0;
      while (from + count < all) {
        const next = heightOf(from + count, count === 0);
        if (height + next > room) break;
        height += next;
        count++;
      }
      if (count < Math.min(least, all - from)) return null;
      return {
        part: { height, draw: draw(from, count) },
        rest: from + count < all ? splitBlock(lines, from + count) : null,
      };
    },
  };
}

/** The block of what is not split. */
export function wholeBlock({ section, width }: Pick<Block, 'section' | 'width'>, part: Part): Block {
  return { section, width, take: (room) => (room < part.height ? null : { part, rest: null }) };
}
