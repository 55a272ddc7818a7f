import { modulo } from '../winding/integers.ts';
import { stationAt } from './curve.ts';
import type { ConnectingPiece } from './space.ts';

/** In which order pieces can be put on. */
export interface PieceOrder {
  /** Their joints, so that none comes to lie under one put on before; those that are locked are missing. */
  readonly order: readonly number[];
  /** Joints of pieces that lie over and under each other, and of those that come after them. */
  readonly locked: readonly number[];
}

/**
 * The order in which connecting pieces can be put on along the axis: of those that lie over each other the lower
 * comes first, then each after those that it `waits` for, else they keep the order given.
 */
export function pieceOrder(
  pieces: readonly ConnectingPiece[],
  waits: ReadonlyMap<number, ReadonlySet<number>>,
): PieceOrder {
  const under = piecesUnder(pieces);
  const order: number[] = [];
  let left = pieces.map(({ joint }) => joint);
  while (left.length > 0) {
    const blocked = new Set(left);
    const isFree = (joint: number) =>
      [under, waits].every((before) => ![...(before.get(joint) ?? [])].some((each) => blocked.has(each)));
    const next = left.find(isFree);
    if (next === undefined) break;
    order.push(next);
    left = left.filter((joint) => joint !== next);
  }
  return { order, locked: left };
}

/** By the joint of each piece those of the pieces of which some part lies under it. */
function piecesUnder(pieces: readonly ConnectingPiece[]): ReadonlyMap<number, ReadonlySet<number>> {
  // Squares in which it is seen what lies over what: a piece takes those whose middle it covers.
  const square = Math.min(...pieces.map(({ section }) => Math.min(section.width, section.height))) / 4;
  const places = new Map(pieces.map((piece) => [piece, placesAlong(piece, 2 * square)] as const));
  const under = new Map(pieces.map(({ joint }) => [joint, new Set<number>()] as const));
  const squares = new Map<string, Map<number, readonly [lowest: number, highest: number]>>();
  const radius = [...places.values()].flat().reduce((most, [out]) => Math.max(most, out), 0);
  const round = Math.max(1, Math.round((2 * Math.PI * radius) / square));
  for (const piece of pieces) {
    const { width, height } = piece.section;
    for (const [out, angle, above] of places.get(piece)!) {
      const along = (angle * round) / (2 * Math.PI);
      for (const i of wholes(out / square, width / square))
        for (const j of wholes(along, height / square)) {
          const name = `${piece.side} ${i} ${modulo(j, round)}`;
          const here = squares.get(name) ?? new Map<number, readonly [number, number]>();
          squares.set(name, here);
          const [lowest, highest] = here.get(piece.joint) ?? [above, above];
          here.set(piece.joint, [Math.min(lowest, above), Math.max(highest, above)]);
        }
    }
  }
  for (const here of squares.values())
    for (const [upper, [, highest]] of here)
      for (const [lower, [lowest]] of here)
        if (upper !== lower && highest > lowest) under.get(upper)!.add(lower);
  return under;
}

/** Whole numbers within half an extent of a middle. */
function wholes(middle: number, extent: number): readonly number[] {
  const first = Math.ceil(middle - extent / 2);
  const last = Math.floor(middle + extent / 2);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);
}

/** Distance from the axis, angle round it and height above the stack of places along a piece: m and radians. */
function placesAlong(
  { pieces, turn }: ConnectingPiece,
  pace: number,
): readonly (readonly [number, number, number])[] {
  return pieces.flatMap(({ curve, length }) => {
    const steps = Math.ceil(length / pace);
    return Array.from({ length: steps + 1 }, (_, step) => {
      const [x, y, z] = stationAt(curve, step / steps, turn).point;
      return [Math.hypot(x, y), Math.atan2(y, x), curve.side * z - curve.face] as const;
    });
  });
}
