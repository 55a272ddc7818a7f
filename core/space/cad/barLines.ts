import { type Curve, type Station, stationAt } from '../curve.ts';
import { type Piece, pieceOf } from '../piece.ts';
import type { Section } from '../section.ts';
import type { BarEnd, Space, SpaceBar } from '../space.ts';
import { negated } from '../vectors.ts';

/** As it stands in the machine; or as it is put in: crowns formed, all other ends straight. */
export type BarState = 'finished' | 'before';

/** A piece as a center line runs through it. */
export interface Stretch {
  readonly piece: Piece<unknown>;
  /** Against the piece's own direction. */
  readonly backwards: boolean;
  /** Radians about the axis at which it stands. */
  readonly turn: number;
}

/** A center line from cut end to cut end, with the section along it. */
export interface BarLine {
  readonly section: Section;
  readonly stretches: readonly Stretch[];
  /** m. */
  readonly length: number;
}

/** The place and frame at a fraction of a stretch, in the line's direction: width = height x tangent. */
export function stretchAt({ piece, backwards, turn }: Stretch, fraction: number): Station {
  const station = stationAt(piece.curve, backwards ? 1 - fraction : fraction, turn);
  if (!backwards) return station;
  return { ...station, tangent: negated(station.tangent), width: negated(station.width) };
}

/**
 * The center line of a bar or, of two legs, of a hairpin: from the connection side to the far side, and
 * back down the second leg. Turned so that its first leg stands in slot 1.
 */
export function barLine(space: Space, legs: readonly SpaceBar[], state: BarState): BarLine {
  const first = legs[0]!;
  const stretches = legs.flatMap((leg, index) => {
    const turn = leg.turn - first.turn;
    const up = [
      ...reversed(along(endPieces(space, leg.connection, state), turn)),
      { piece: space.slotParts[leg.bar.layer]!, backwards: false, turn },
      ...along(endPieces(space, leg.far, state), turn),
    ];
    return index === 0 ? up : reversed(up);
  });
  return lineOf(space.layers[first.bar.layer]!.section, stretches);
}

/** A center line of some pieces in their order. */
export function lineOf(section: Section, stretches: readonly Stretch[]): BarLine {
  return { section, stretches, length: stretches.reduce((sum, { piece }) => sum + piece.length, 0) };
}

/** Pieces in their own direction, all at one turn. */
export function along(pieces: readonly Piece<unknown>[], turn: number): readonly Stretch[] {
  return pieces.map((piece): Stretch => ({ piece, backwards: false, turn }));
}

function reversed(stretches: readonly Stretch[]): readonly Stretch[] {
  return [...stretches].reverse().map((stretch) => ({ ...stretch, backwards: !stretch.backwards }));
}

function endPieces(space: Space, end: BarEnd, state: BarState): readonly Piece<unknown>[] {
  return state === 'before' && end.use !== 'crown' ? [straightened(space, end)] : end.pieces;
}

/** A bar's end before it is bent: on along the bar's lean, as long as it will be. */
function straightened({ layers, stack }: Space, { side, layer, length }: BarEnd): Piece {
  const { radius, lean } = layers[layer]!;
  const sign = side === 'far' ? 1 : -1;
  const curve: Curve = {
    side: sign,
    face: stack / 2,
    path: {
      radius,
      angle: (sign * lean) / 2,
      height: 0,
      direction: Math.atan2(stack, sign * lean * radius),
      curvature: 0,
    },
    profile: { kind: 'level', radius, extent: length },
    radialSide: 'height',
  };
  return pieceOf('straight', curve);
}
