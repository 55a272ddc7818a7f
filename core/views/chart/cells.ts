import type { Figure } from '../../figures/figure.ts';
import type { Speech } from '../../figures/speech.ts';
import { fitText, wrapText } from '../../picture/fontMetrics.ts';
import { baseLine, drawingTitle, group, headingSize, text, textRow, textSize } from '../../picture/make.ts';
import type { Primitive } from '../../picture/picture.ts';
import type { Room } from '../room.ts';
import { frameFor } from './page.ts';

/** The box of a chart, in millimeters. */
export interface ChartPlace {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

const cell = { width: 126, height: 76, gap: 8 };

/** A chart; null where data for it lack. */
export interface ChartCell {
  readonly id: string;
  readonly title: string;
  readonly draw: ((place: ChartPlace) => readonly Primitive[]) | null;
  /** What it lacks: `needs machine voltage`. */
  readonly lacks: string;
}

/** The charts' size, and how many stand in a row: two on paper, as many as are legible in a panel. */
function cellsFor(room: Room | undefined) {
  const { margin, top, width } = frameFor(room);
  if (room === undefined || width === null) return { ...cell, margin, top, columns: 2 };
  const inner = width - 2 * margin;
  const columns = Math.max(1, Math.floor((inner + cell.gap) / (104 + cell.gap)));
  const each = (inner - (columns - 1) * cell.gap) / columns;
  return { ...cell, width: Math.min(each, 160), margin, top, columns };
}

/** Charts in rows, and below them which statements the others need: what a page is made of. */
export function chartCells(
  cells: readonly ChartCell[],
  room?: Room,
): { readonly items: readonly Primitive[]; readonly width: number; readonly bottom: number } {
  const grid = cellsFor(room);
  const drawn = cells.flatMap(({ id, draw }) => (draw ? [{ id, draw }] : []));
  const charts = drawn.map(({ id, draw }, index): Primitive => {
    const place = {
      left: grid.margin + (index % grid.columns) * (grid.width + grid.gap),
      top: grid.top + Math.floor(index / grid.columns) * (grid.height + grid.gap),
      width: grid.width,
      height: grid.height,
    };
    return group(id, 'curve', draw(place));
  });
  const bottom = grid.top + Math.ceil(drawn.length / grid.columns) * (grid.height + grid.gap);
  const width = 2 * grid.margin + grid.columns * (grid.width + grid.gap) - grid.gap;
  const needs = cells.filter(({ draw }) => !draw);
  const missing =
    room === undefined
      ? drawNeeds(needs, bottom, grid.margin, width - 2 * grid.margin)
      : wrapNeeds(needs, bottom, grid);
  const end = missing.items.length > 0 ? bottom + missing.height : bottom - grid.gap;
  return {
    items: [...charts, ...(missing.items.length > 0 ? [group('missing', 'note', missing.items)] : [])],
    width,
    // In a panel few words begin at the top, too, instead of standing in the middle.
    bottom: Math.max(end, room === undefined ? 0 : room.height - grid.top),
  };
}

/** A chart that is not there. */
type Need = Pick<ChartCell, 'id' | 'title' | 'lacks'>;

/** What the missing charts need, a row each. */
function drawNeeds(needs: readonly Need[], top: number, left: number, width: number) {
  const items = needs.map(({ id, title, lacks }, index): Primitive => {
    const y = top + index * (textRow + 1) + baseLine;
    return text(`${id}-needs`, 'value', left, y, fitText(`${title}: ${lacks}`, textSize, width));
  });
  return { items, height: needs.length * (textRow + 1) };
}

/** The same in a panel: charts that need the same together, their titles over what they need. */
function wrapNeeds(needs: readonly Need[], top: number, grid: ReturnType<typeof cellsFor>) {
  const width = grid.columns * (grid.width + grid.gap) - grid.gap;
  const row = textRow + 1;
  const items: Primitive[] = [];
  let y = top;
  for (const lacks of new Set(needs.map((need) => need.lacks))) {
    const alike = needs.filter((need) => need.lacks === lacks);
    const id = `${alike[0]!.id}-needs`;
    const titles = alike.map(({ title }) => title).join('; ');
    for (const [index, line] of wrapText(titles, headingSize, width).entries()) {
      items.push(drawingTitle(`${id}-title-${index + 1}`, grid.margin, y, line));
      y += row;
    }
    for (const [index, line] of wrapText(lacks, textSize, width).entries()) {
      items.push(text(`${id}-${index + 1}`, 'value', grid.margin, y + baseLine, line));
      y += row;
    }
    y += row;
  }
  return { items, height: y - top };
}

/** What supplies the figures that a chart shows, or why nothing does. */
export function lacking({ say, phrase }: Speech, ...figures: readonly Figure<unknown>[]): string {
  const absent = figures.filter((figure) => !figure.known);
  const needs = new Set(absent.flatMap((figure) => figure.needs));
  if (needs.size > 0) return say('needs {0}', [...needs].map(phrase).join(', '));
  const reason = absent.find((figure) => figure.reason !== undefined)?.reason;
  return reason === undefined ? say('cannot be computed') : phrase(reason);
}
