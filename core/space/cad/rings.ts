import { chordsFor, type Station } from '../curve.ts';
import { type BarLine, stretchAt } from './barLines.ts';
import { turnOf } from './sweep.ts';

/** How closely rings of points follow a center line. */
export interface Closeness {
  /** How far chords may leave the center line, m. */
  readonly tolerance: number;
  /** By how much the frame may turn from ring to ring, radians. */
  readonly mostTurn: number;
}

/** Frames along a line, close enough for chords; none where the line has no length. */
export function stationsOf({ stretches }: BarLine, { tolerance, mostTurn }: Closeness): readonly Station[] {
  const own = stretches.filter(({ piece }) => piece.length > 1e-9);
  return own.flatMap((stretch, index) => {
    const { curve, length } = stretch.piece;
    const chords = Math.max(
      chordsFor(curve, length, tolerance),
      Math.ceil(turnOf(stretch) / mostTurn - 1e-9),
    );
    const stations = Array.from({ length: chords }, (_, chord) => stretchAt(stretch, chord / chords));
    return index === own.length - 1 ? [...stations, stretchAt(stretch, 1)] : stations;
  });
}
