import { plural } from '../../language/lists.ts';
import { fixed } from '../../language/numbers.ts';
import type { Report } from '../schema.ts';
import { figuresTable } from './machine.ts';
import type { Sources } from './sources.ts';
import { markdownTable } from './table.ts';

/** Bar shapes listed with their pieces. */
const mostShapes = 40;

/** What the bars in space measure, or that it is missing. */
export function spaceText({ space, shapes }: Report, sources: Sources): string {
  if (!space) return 'Nothing of it can be computed yet; see what is not computed below.';
  const shown = space.bars.slice(0, mostShapes);
  const form = new Map(shapes.bars.map((shape) => [shape.number, shape.form.replace('-', ' ')]));
  const table = markdownTable(
    ['shape', 'form', 'length mm', 'pieces in mm, from end to end'],
    ['right', 'left', 'right', 'left'],
    shown.map(({ shape, length, pieces }) => [
      String(shape),
      form.get(shape) ?? '',
      millimeters(length),
      pieces.map((piece) => `${piece.kind} ${millimeters(piece.length)}`).join(', '),
    ]),
  );
  const rest = space.bars.length - shown.length;
  return [
    figuresTable('space', { space }, sources),
    ...clearanceText(space),
    `Developed lengths along the center line, of each shape the bar that most of it are${rest > 0 ? `; ${plural(rest, 'further shape')} left out` : ''}:`,
    table,
  ].join('\n\n');
}

const kindWords = {
  'leg-leg': 'leg and leg, with their bends',
  'crown-leg': 'crown and leg or crown',
  'tip-tip': 'joint and joint or leg',
  piece: 'connecting piece or ring and anything',
  lead: 'lead and anything',
} as const;

/** The nearest places of each kind on each side. */
function clearanceText({ clearance }: NonNullable<Report['space']>): readonly string[] {
  if (!clearance || clearance.kinds.length === 0) return [];
  const table = markdownTable(
    ['between', 'side', 'smallest mm', 'bars'],
    ['left', 'left', 'right', 'left'],
    clearance.kinds.map(({ kind, side, smallest, bars }) => [
      kindWords[kind],
      side,
      millimeters(smallest),
      bars.join(', '),
    ]),
  );
  return ['Clearances of coated bar ends within a slot pitch, negative for penetration:', table];
}

function millimeters(length: number): string {
  return fixed(length * 1e3, 2);
}
