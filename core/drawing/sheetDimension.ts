import { pathShape } from './make.ts';
import type { PathPart, Primitive } from './picture.ts';
import { arrowHead } from './sheetConventions.ts';
import { line } from './sheetText.ts';

const headLength = 1.5;

/** A chain of dimensions along a vertical line: one text beside each stretch between two heights. */
export interface DimensionChain {
  readonly id: string;
  readonly x: number;
  /** Where texts stand. */
  readonly beside: 'left' | 'right';
  readonly stretches: readonly { readonly from: number; readonly to: number; readonly words: string }[];
}

/** Draws a chain of vertical dimensions. */
export function verticalChain({ id, x, beside, stretches }: DimensionChain): readonly Primitive[] {
  if (stretches.length === 0) return [];
  const lines: PathPart[] = [];
  const heads: PathPart[] = [];
  const texts = stretches.map(({ from, to, words }, index): Primitive => {
    const [top, bottom] = [Math.min(from, to), Math.max(from, to)];
    lines.push([x, top, x, bottom]);
    heads.push(arrowHead(x, top, -90, headLength), arrowHead(x, bottom, 90, headLength));
    const at = beside === 'left' ? x - 1.4 : x + 1.4;
    const base = (top + bottom) / 2 + 1.25;
    return line(
      `${id}-${index}`,
      'dimension-text',
      at,
      base,
      words,
      2.5,
      beside === 'left' ? 'end' : 'start',
    );
  });
  return [
    pathShape(`${id}-lines`, 'dimension-line', lines),
    pathShape(`${id}-heads`, 'dimension-arrow', heads, {}, true),
    ...texts,
  ];
}

/** A horizontal dimension with its text above; narrow ones have their arrows outside. */
export function horizontalDimension(
  id: string,
  from: number,
  to: number,
  y: number,
  words: string,
  textAt: 'above' | 'below' = 'above',
): readonly Primitive[] {
  const [left, right] = [Math.min(from, to), Math.max(from, to)];
  return [
    pathShape(`${id}-line`, 'dimension-line', [[left, y, right, y]]),
    pathShape(
      `${id}-heads`,
      'dimension-arrow',
      [arrowHead(left, y, 180, headLength), arrowHead(right, y, 0, headLength)],
      {},
      true,
    ),
    line(
      id,
      'dimension-text',
      (left + right) / 2,
      textAt === 'above' ? y - 0.9 : y + 3.4,
      words,
      2.5,
      'middle',
    ),
  ];
}
