import type { Piece } from '../piece.ts';
import type { Section } from '../section.ts';
import { type Filament, filamentOf } from './filaments.ts';
import { rectangleMeanDistance } from './meanDistance.ts';

/** Ends of one line up to their tips, by the numbers of its runs, and of one section. */
export interface Make {
  readonly runs: number[];
  /** Geometric, of the section from itself, m. */
  readonly meanDistance: number;
}

/** A piece of ends, and the numbers of the makes that have it. */
interface SharedPiece {
  readonly piece: Piece<string>;
  readonly by: number[];
}

/** Makes of ends as they become known, and their runs: lines of pieces that the same makes share. */
export function makesOfEnds() {
  const shared: SharedPiece[] = [];
  const makes: Make[] = [];
  /** By lists of pieces, and by the numbers of what these share. */
  const known = new Map<unknown, number>();
  const numberOf = (piece: Piece<string>): number => {
    const at = shared.findIndex((one) => isAlike(one.piece, piece));
    return at < 0 ? shared.push({ piece, by: [] }) - 1 : at;
  };
  /** The number of the make of pieces; no two sections share a line. */
  const makeOf = (pieces: readonly Piece<string>[], { width, height }: Section): number => {
    const before = known.get(pieces);
    if (before !== undefined) return before;
    // Beyond their tips ends may differ, as those of terminals and star points do.
    const own = pieces.flatMap((piece) => (piece.kind === 'lead' ? [] : numberOf(piece)));
    const key = own.join();
    let make = known.get(key);
    if (make === undefined) {
      make = makes.push({ runs: [], meanDistance: rectangleMeanDistance(width, height) }) - 1;
      for (const number of own) shared[number]!.by.push(make);
    }
    known.set(key, make).set(pieces, make);
    return make;
  };
  /** The runs of all makes, each told to those that have it; `finer` as for filaments. */
  const runs = (finer: number): readonly Filament[] => {
    const keys = shared.map(({ by }) => by.join());
    return [...new Set(keys)].map((key, run) => {
      const alike = shared.filter((_, number) => keys[number] === key);
      for (const make of alike[0]!.by) makes[make]!.runs.push(run);
      const pieces = alike.map(({ piece }) => piece);
      return filamentOf(pieces, finer);
    });
  };
  return { makeOf, makes, runs };
}

/** Whether the center lines of two pieces on one side are one. */
function isAlike(one: Piece<string>, other: Piece<string>): boolean {
  const a = one.curve;
  const b = other.curve;
  return one.length === other.length && hasSame(a.path, b.path) && hasSame(a.profile, b.profile);
}

function hasSame<Values extends object>(one: Values, other: Values): boolean {
  return (Object.keys(one) as (keyof Values)[]).every((key) => one[key] === other[key]);
}
