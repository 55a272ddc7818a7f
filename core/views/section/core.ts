import { filledShape, pathShape } from '../../picture/make.ts';
import type { PathPart, Primitive } from '../../picture/picture.ts';
import type { RoomPiece, SectionShape } from '../../sizes/slotShape/shape.ts';
import type { SectionPlace } from './place.ts';

/** Laminations with their slots, liners and wedges, of one place. `id` tells places apart. */
export function drawCore(shape: SectionShape, place: SectionPlace, id: string): readonly Primitive[] {
  const { liners, wedges, borders } = insides(shape, place);
  return [
    filledShape(`core${id}`, 'core', coreParts(shape, place)),
    ...(liners.length > 0 ? [filledShape(`liners${id}`, 'liner', liners)] : []),
    ...(wedges.length > 0 ? [filledShape(`wedges${id}`, 'wedge', wedges)] : []),
    pathShape(`core-edges${id}`, 'core-edge', [...edges(shape, place), ...borders]),
    ...breaks(shape, place, id),
  ];
}

const ends = (place: SectionPlace) => ({
  start: { position: -0.5, across: 0 },
  end: { position: place.count - 0.5, across: 0 },
});

/** The core's outline clockwise, and the slots against it, so that they stay open. */
function coreParts(shape: SectionShape, place: SectionPlace): readonly PathPart[] {
  const { start, end } = ends(place);
  const outer = place.along(shape.outer, start, end);
  const inner = place.along(shape.inner, end, start);
  const outline = place.closed ? [outer, inner] : [[...outer, ...inner]];
  const rooms = Array.from({ length: place.count }, (_, index) => {
    const { left, right } = walls(shape, place, index);
    return [...right, ...reversed(left)];
  });
  return [...outline, ...rooms];
}

/** Both walls of a slot's room, from the axis outwards; at a gap they end on its surface. */
function walls(
  shape: SectionShape,
  place: SectionPlace,
  index: number,
): { readonly left: PathPart; readonly right: PathPart } {
  const wall = (side: 1 | -1): PathPart => {
    const points: number[] = [];
    shape.pieces.forEach((piece, order) => {
      const across = (side * piece.width) / 2;
      const opensIn = order === 0 && piece.kind === 'opening';
      const opensOut = order > 0 && piece.kind === 'opening';
      points.push(
        ...(opensIn ? surface(place, index, across, shape.inner) : place.at(index, across, piece.from)),
      );
      points.push(
        ...(opensOut ? surface(place, index, across, shape.outer) : place.at(index, across, piece.to)),
      );
    });
    return points;
  };
  return { left: wall(-1), right: wall(1) };
}

/** The place `across` from a slot's middle on the surface of a gap. */
function surface(place: SectionPlace, index: number, across: number, outwards: number): PathPart {
  const spot = { position: index, across };
  return place.along(outwards, spot, spot).slice(0, 2);
}

function reversed(part: PathPart): PathPart {
  const points: number[] = [];
  for (let index = part.length - 2; index >= 0; index -= 2) points.push(part[index]!, part[index + 1]!);
  return points;
}

function edges(shape: SectionShape, place: SectionPlace): readonly PathPart[] {
  const parts: PathPart[] = [];
  const [opensIn, opensOut] = [shape.innerEnd === 'gap', shape.outerEnd === 'gap'];
  for (let index = 0; index < place.count; index++) {
    const { left, right } = walls(shape, place, index);
    if (opensIn && opensOut) parts.push(left, right);
    else if (opensIn) parts.push([...left, ...reversed(right)]);
    else parts.push([...reversed(left), ...right]);
  }
  parts.push(...surfaces(shape.innerEnd, shape.inner, shape.pieces[0]!, place));
  parts.push(...surfaces(shape.outerEnd, shape.outer, shape.pieces.at(-1)!, place));
  return parts;
}

/** The lines of a gap between the slots' openings, or of the core's back. */
function surfaces(
  end: SectionShape['innerEnd'],
  outwards: number,
  opening: RoomPiece,
  place: SectionPlace,
): readonly PathPart[] {
  const { start, end: last } = ends(place);
  if (end === 'break') return [];
  if (end === 'back') return [place.along(outwards, start, last)];
  const half = opening.width / 2;
  const stops = Array.from({ length: place.count }, (_, position) => ({ position, across: half }));
  return [
    place.along(outwards, start, { position: 0, across: -half }),
    ...stops.map((stop, index) =>
      place.along(outwards, stop, index + 1 < place.count ? { position: index + 1, across: -half } : last),
    ),
  ];
}

/** Where the drawing ends but the core does not. */
function breaks(shape: SectionShape, place: SectionPlace, id: string): readonly Primitive[] {
  const { start, end } = ends(place);
  const parts: PathPart[] = [];
  if (shape.innerEnd === 'break') parts.push(place.along(shape.inner, start, end));
  if (shape.outerEnd === 'break') parts.push(place.along(shape.outer, start, end));
  if (!place.closed)
    for (const { position } of [start, end])
      parts.push([...place.at(position, 0, shape.inner), ...place.at(position, 0, shape.outer)]);
  return parts.length > 0 ? [pathShape(`breaks${id}`, 'cut-edge', parts)] : [];
}

function insides(shape: SectionShape, place: SectionPlace) {
  const liners: PathPart[] = [];
  const wedges: PathPart[] = [];
  const borders: PathPart[] = [];
  for (let index = 0; index < place.count; index++) {
    const box = (left: number, right: number, from: number, to: number): PathPart =>
      [
        [left, from],
        [right, from],
        [right, to],
        [left, to],
      ].flatMap(([across, outwards]) => place.at(index, across!, outwards!));
    shape.rows.forEach((row, order) => {
      const { from, to, width, liner, wedge, opensInside, opensOutside } = row;
      const half = width / 2;
      if (liner > 0) {
        liners.push(box(-half, liner - half, from, to), box(half - liner, half, from, to));
        if (!opensInside && !opensOutside)
          liners.push(
            box(liner - half, half - liner, from, from + liner),
            box(liner - half, half - liner, to - liner, to),
          );
        else if (!opensInside) liners.push(box(liner - half, half - liner, from, from + liner));
        else if (!opensOutside) liners.push(box(liner - half, half - liner, to - liner, to));
      }
      if (wedge > 0 && opensInside) wedges.push(box(liner - half, half - liner, from, from + wedge));
      if (wedge > 0 && opensOutside) wedges.push(box(liner - half, half - liner, to - wedge, to));
      if (order > 0) borders.push([...place.at(index, -half, from), ...place.at(index, half, from)]);
    });
  }
  return { liners, wedges, borders };
}
