import { legApart } from '../../winding/joints/bars.ts';
import type { Bends } from '../../winding/joints/bends.ts';
import type { EndSide, Winding } from '../../winding/model.ts';
import { routedKind, shapeOf } from '../jointKind.ts';

/** Where special spans may lie: in the joints of the open legs, in the crowns, or on either side. */
export type SpecialsPlace = 'joined' | 'crowns' | 'either';

/** How a joint is made: bent as all its ring is, bent otherwise, by a piece, or not at all. */
export const rankOf = { regular: 0, bent: 1, piece: 2, refused: 3 } as const;

/**
 * The best joint from any layer to any other at any distance, on both sides: of the two ways round the
 * bore the one that is made more easily, then the shorter. Entries stand at `jointPlace`.
 */
export interface JointTable {
  readonly slots: number;
  readonly layers: number;
  /** Signed span in slots. */
  readonly span: Int16Array;
  /** A value of `rankOf`. */
  readonly rank: Uint8Array;
  /** Number of the special joint's shape, from 0; -1 for regular joints. */
  readonly shape: Int32Array;
  /** Legs of the joint that are bent otherwise than their ring. */
  readonly apart: Uint8Array;
  /** How many shapes `shape` numbers. */
  readonly shapes: number;
}

/** Place of a joint in the table: side 0 is the far side, 1 the connection side; distance 0 <= d < slots. */
export function jointPlace(
  { slots, layers }: Pick<JointTable, 'slots' | 'layers'>,
  side: 0 | 1,
  from: number,
  to: number,
  distance: number,
): number {
  return ((side * layers + from) * layers + to) * slots + distance;
}

/** All joints that a winding may have where its special spans lie at `specials`. */
export function jointTable(winding: Winding, bends: Bends, specials: SpecialsPlace): JointTable {
  const { slots, layers } = winding;
  const size = 2 * layers * layers * slots;
  const span = new Int16Array(size);
  const rank = new Uint8Array(size).fill(rankOf.refused);
  const shape = new Int32Array(size).fill(-1);
  const apart = new Uint8Array(size);
  const shapes = new Map<number, number>();
  for (const side of [0, 1] as const) {
    for (let from = 0; from < layers; from++) {
      for (let to = 0; to < layers; to++) {
        for (let distance = 0; distance < slots; distance++) {
          if (distance === 0 && from === to) continue;
          const place = jointPlace({ slots, layers }, side, from, to, distance);
          const best = bestJoint(winding, bends, specials, { side, from, to, distance });
          span[place] = best.span;
          rank[place] = best.rank;
          apart[place] = best.apart;
          if (best.rank === rankOf.regular) continue;
          const key = shapeOf(sideName(side), from, to, best.span);
          const number = shapes.get(key) ?? shapes.size;
          shapes.set(key, number);
          shape[place] = number;
        }
      }
    }
  }
  return { slots, layers, span, rank, shape, apart, shapes: shapes.size };
}

function sideName(side: 0 | 1): EndSide {
  return side === 0 ? 'far' : 'connection';
}

interface Way {
  readonly span: number;
  readonly rank: number;
  readonly apart: number;
}

function bestJoint(
  winding: Winding,
  bends: Bends,
  specials: SpecialsPlace,
  ends: { readonly side: 0 | 1; readonly from: number; readonly to: number; readonly distance: number },
): Way {
  const ways = [ends.distance, ends.distance - winding.slots]
    .filter((span) => Math.abs(span) < winding.slots)
    .map((span) => wayOf(winding, bends, specials, ends, span));
  return ways.reduce((a, b) =>
    b.rank < a.rank || (b.rank === a.rank && Math.abs(b.span) < Math.abs(a.span)) ? b : a,
  );
}

function wayOf(
  winding: Winding,
  bends: Bends,
  specials: SpecialsPlace,
  { side, from, to }: { readonly side: 0 | 1; readonly from: number; readonly to: number },
  span: number,
): Way {
  const joint = { side: sideName(side), from: { slot: 1, layer: from }, to: { slot: 1, layer: to }, span };
  const kind = routedKind(winding, bends, joint);
  if (kind === 'regular') return { span, rank: rankOf.regular, apart: 0 };
  const far = side === 0;
  if (kind === 'jumper') return { span, rank: far ? rankOf.refused : rankOf.piece, apart: 0 };
  const apart = far ? 0 : legApart(bends, from, span) + legApart(bends, to, -span);
  const allowed = far ? specials !== 'joined' : specials !== 'crowns' || apart === 0;
  return { span, rank: allowed ? rankOf.bent : rankOf.refused, apart };
}
