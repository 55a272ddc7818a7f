import { group, pathShape } from '../../picture/make.ts';
import type { PathPart, Primitive } from '../../picture/picture.ts';
import type { SheetFormat } from './format.ts';
import { line } from './text.ts';

/** Width of the band round the frame that holds the grid reference. */
const zoneBand = 5;
/** Length of grid fields, counted from the centers of the sides. */
const zoneLength = 50;
/** How far centring marks reach into the drawing space. */
const centringInside = 5;
/** Letters of the zones, without I and O. */
const letters = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

/**
 * Frame, centring marks and grid reference after ISO 5457:1999. Where the middle of the bottom is
 * filled by the title block, the centring mark ends at the frame.
 */
export function drawSheetFrame(format: SheetFormat, filled: { readonly bottom: boolean }): Primitive {
  const { frame } = format;
  const { left, top, right, bottom } = frame;
  const outline = [left, top, right, top, right, bottom, left, bottom, left, top];
  return group('sheet', 'sheet-frame', [
    pathShape('sheet-frame', 'sheet-frame', [outline]),
    pathShape('sheet-centring', 'sheet-frame', centringMarks(format, filled.bottom)),
    ...zones(format),
  ]);
}

/** From the outer edge of the grid reference over the frame into the drawing space. */
function centringMarks({ width, height, frame }: SheetFormat, filledBottom: boolean): readonly PathPart[] {
  const [x, y] = [width / 2, height / 2];
  const { left, top, right, bottom } = frame;
  return [
    [x, top - zoneBand, x, top + centringInside],
    [x, bottom + zoneBand, x, filledBottom ? bottom : bottom - centringInside],
    [left - zoneBand, y, left + centringInside, y],
    [right + zoneBand, y, right - centringInside, y],
  ];
}

/** Number of zones along a side of a length: fields of 50 mm from the center, the rest in the corners. */
export function zoneCount(length: number): number {
  return 2 * Math.round(length / 2 / zoneLength);
}

/** On A4 the reference stands at the top and at the right only. */
function zones(format: SheetFormat): readonly Primitive[] {
  const { width, height, frame, size } = format;
  const { left, top, right, bottom } = frame;
  const everySide = size !== 'A4';
  const ticks: PathPart[] = [];
  const names: Primitive[] = [];
  const outer = {
    left: left - zoneBand,
    top: top - zoneBand,
    right: right + zoneBand,
    bottom: bottom + zoneBand,
  };
  const across = fields(width, outer.left, outer.right);
  const down = fields(height, outer.top, outer.bottom);
  for (const x of across.borders) {
    ticks.push([x, outer.top, x, top]);
    if (everySide) ticks.push([x, bottom, x, outer.bottom]);
  }
  for (const y of down.borders) {
    ticks.push([right, y, outer.right, y]);
    if (everySide) ticks.push([outer.left, y, left, y]);
  }
  across.middles.forEach((x, index) => {
    const name = String(index + 1);
    names.push(zoneName(`zone-top-${name}`, x, top - zoneBand / 2, name));
    if (everySide) names.push(zoneName(`zone-bottom-${name}`, x, bottom + zoneBand / 2, name));
  });
  down.middles.forEach((y, index) => {
    const name = letters[index]!;
    names.push(zoneName(`zone-right-${name}`, right + zoneBand / 2, y, name));
    if (everySide) names.push(zoneName(`zone-left-${name}`, left - zoneBand / 2, y, name));
  });
  const border = [
    outer.left,
    outer.top,
    outer.right,
    outer.top,
    outer.right,
    outer.bottom,
    outer.left,
    outer.bottom,
    outer.left,
    outer.top,
  ];
  return [pathShape('sheet-zones', 'sheet-zone', [border, ...ticks]), ...names];
}

function zoneName(id: string, x: number, y: number, name: string): Primitive {
  return line(id, 'zone-name', x, y + 1.75, name, { height: 3.5, anchor: 'middle' });
}

/** Borders between the fields of a side (but for the center, where the centring mark is) and their middles. */
function fields(
  length: number,
  from: number,
  to: number,
): { readonly borders: readonly number[]; readonly middles: readonly number[] } {
  const half = zoneCount(length) / 2;
  const all = Array.from(
    { length: 2 * half - 1 },
    (_, index) => length / 2 + (index + 1 - half) * zoneLength,
  );
  const ends = [from, ...all, to];
  return {
    borders: all.filter((_, index) => index + 1 !== half),
    middles: ends.slice(1).map((end, index) => (end + ends[index]!) / 2),
  };
}
