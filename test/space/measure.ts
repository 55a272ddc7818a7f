import { type Curve, stationAt } from '../../core/space/curve.ts';
import { lengthOf, type Piece } from '../../core/space/piece.ts';
import { distance, dot } from '../../core/space/vectors.ts';

/** Length of a curve as a polyline through `chords` of its own points, m. */
export function polyline(curve: Curve, chords: number): number {
  let length = 0;
  let before = stationAt(curve, 0).point;
  for (let chord = 1; chord <= chords; chord++) {
    const point = stationAt(curve, chord / chords).point;
    length += distance(before, point);
    before = point;
  }
  return length;
}

/** A polyline's length without the error of its chords, which falls with the square of their number. */
export function walkedLength(curve: Curve, chords = 60): number {
  const coarse = polyline(curve, chords);
  const fine = polyline(curve, 2 * chords);
  return fine + (fine - coarse) / 3;
}

/** The worst that happens where each piece hands over to the next: gap in m, and 1 less the cosine between directions. */
export function worstMeeting(pieces: readonly Piece<unknown>[]): {
  readonly gap: number;
  readonly kink: number;
} {
  let [gap, kink] = [0, 0];
  for (let index = 1; index < pieces.length; index++) {
    const before = stationAt(pieces[index - 1]!.curve, 1);
    const after = stationAt(pieces[index]!.curve, 0);
    gap = Math.max(gap, distance(before.point, after.point));
    for (const direction of ['tangent', 'height', 'width'] as const)
      kink = Math.max(kink, 1 - dot(before[direction], after[direction]));
  }
  return { gap, kink };
}

/** Pieces' own lengths, by kind. */
export function lengthsByKind(pieces: readonly Piece<string>[]): Readonly<Record<string, number>> {
  const kinds = [...new Set(pieces.map(({ kind }) => kind))];
  return Object.fromEntries(
    kinds.map((kind) => [kind, lengthOf(pieces.filter((piece) => piece.kind === kind))]),
  );
}
