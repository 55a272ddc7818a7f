import { baseLine, filledShape, pathShape, text, textRow } from '../../picture/make.ts';
import type { Emphasis, PathPart, PathShape, Primitive, Role, Subject } from '../../picture/picture.ts';
import { barName, type EndSide } from '../../winding/model.ts';
import type { StackPlace } from './bars.ts';
import type { DrawnEnd, DrawnPathEnd } from './input.ts';
import type { PlannedBus, PlannedEnd } from './overhang.ts';

// How joints, coil ends, leads and star points beyond the stack are drawn, on the layout and on its rows on sheets.

/** Turns a line of an overhang, x y x y ... from the stack's left and outwards from its face, into one on paper. */
export type OnPaper = (run: readonly number[]) => readonly number[];

/** For the overhang of a side of a stack that lies there on paper. */
export function overhangOnPaper({ left, top, bottom }: StackPlace, side: EndSide): OnPaper {
  const base = side === 'far' ? bottom : top;
  const way = side === 'far' ? 1 : -1;
  return (run) => run.map((value, index) => ((index & 1) === 0 ? value + left : base + way * value));
}

/** A joint, or a coil end where nothing is joined; `parts` on paper. */
export function endShape(
  { end, level }: Pick<PlannedEnd, 'end' | 'level'>,
  parts: readonly PathPart[],
  emphasis?: Emphasis,
): PathShape {
  const { phase, path, source, number } = end;
  const coil = `${barName(end.from)}-${barName(end.to)}`;
  const subject: Subject = number === undefined ? { coil } : { joint: number };
  const id = number === undefined ? `coil-${end.side}-${coil}` : `joint-${number}`;
  const role = level ? 'connecting-piece' : roleOf(end);
  return pathShape(id, role, parts, { subject, phase, path, source, emphasis });
}

function roleOf({ kind }: DrawnEnd): Role {
  if (kind === 'coil-end') return 'coil-end';
  return kind === 'regular' ? 'joint' : 'special-joint';
}

/** A bar's line to its terminal or star point; `parts` on paper. */
export function pathEndShape(
  { name, star }: Pick<PlannedBus, 'name' | 'star'>,
  end: DrawnPathEnd,
  parts: readonly PathPart[],
  emphasis?: Emphasis,
): PathShape {
  const { phase, path, source, number } = end;
  const numbered = number === undefined ? {} : { joint: number };
  const subject: Subject = star ? { star: name, ...numbered } : { terminal: name, ...numbered };
  const id = `${star ? 'star' : 'lead'}-${name}-${barName(end.bar)}-${end.side}`;
  return pathShape(id, star ? 'star-point' : 'lead', parts, { subject, phase, path, source, emphasis });
}

/** The name of a terminal or star point at a place from the stack's left. */
export function busName(
  { name, nameHeight }: Pick<PlannedBus, 'name' | 'nameHeight'>,
  nameX: number,
  side: EndSide,
  onPaper: OnPaper,
): Primitive {
  const [x, y] = onPaper([nameX, nameHeight]) as [number, number];
  const base = side === 'far' ? y + baseLine : y - (textRow - baseLine);
  return text(`name-${name}-${side}`, 'terminal-name', x, base, name, { anchor: 'middle' });
}

/** Small squares where the lines of a terminal or star point are joined; `places` on paper, x y x y ... */
export function junctionShapes(
  { name }: Pick<PlannedBus, 'name'>,
  side: EndSide,
  places: readonly number[],
): readonly PathShape[] {
  if (places.length === 0) return [];
  const half = 0.45;
  const dots = Array.from({ length: places.length / 2 }, (_, index): PathPart => {
    const [x, y] = [places[2 * index]!, places[2 * index + 1]!];
    return [x - half, y - half, x + half, y - half, x + half, y + half, x - half, y + half];
  });
  return [filledShape(`junctions-${name}-${side}`, 'junction', dots)];
}
