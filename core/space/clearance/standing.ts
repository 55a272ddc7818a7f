import { type Bar, barName, type EndSide } from '../../winding/model.ts';
import type { Piece } from '../piece.ts';
import { coatedWidth, type Section } from '../section.ts';
import type { Space, SpaceBar } from '../space.ts';
import { type Body, bodyOf } from './body.ts';

/** Bodies of one make on a side: bar ends bent alike, connecting pieces or rings of one shape. */
export interface Make {
  /** Place in the list of makes. */
  readonly index: number;
  readonly side: EndSide;
  readonly body: Body;
  readonly pieces: readonly Piece<string>[];
  readonly link: boolean;
}

/** A body where it stands. */
export interface Standing {
  readonly make: Make;
  /** Radians about the axis, and the same in slots, from 0. */
  readonly turn: number;
  readonly slot: number;
  /** What it is called: the bar, the two bars of a piece, or the ring. */
  readonly name: string;
  /** Those of one joint of a side touch each other by intent; -1 for none. */
  readonly joint: number;
  /** Place of the bar in the slot table; of pieces and rings those of the bars they stand on. */
  readonly places: readonly number[];
}

/** What pieces are marked as, in the order in which the sort of a pair is that of either: legs with their straights and bends. */
export const sorts = { leg: 0, crown: 1, joint: 2, lead: 3, link: 4 } as const;

/**
 * Every bar end, connecting piece and ring, of `only` one side where that is given, as bodies made once each: by `bodies`,
 * which may know some from before.
 */
export function standingBodies(
  space: Space,
  only: EndSide | null = null,
  bodies: typeof bodyOf = bodyOf,
): readonly Standing[] {
  const { slots, layers } = space;
  const isAsked = (side: EndSide) => only === null || side === only;
  const makes: Make[] = [];
  const make = (
    side: EndSide,
    pieces: readonly Piece<string>[],
    section: Section,
    link: boolean,
    layerAt: (piece: number) => number | null,
  ): Make => {
    const marks = pieces.map(({ kind }, piece) => ({
      sort: link ? sorts.link : (sorts[kind as keyof typeof sorts] ?? sorts.leg),
      layer: layerAt(piece) ?? -1,
    }));
    const made: Make = {
      index: makes.length,
      side,
      body: bodies(pieces, section, marks, { start: link, end: pieces.at(-1)!.kind !== 'crown' }),
      pieces,
      link,
    };
    makes.push(made);
    return made;
  };
  const ends = space.ends.map(({ side, pieces, layer }) =>
    isAsked(side) ? make(side, pieces, layers[layer]!.section, false, () => layer) : null,
  );
  const placeOf = ({ slot, layer }: Bar) => layer * slots + slot - 1;
  const standing: Standing[] = [];
  const stand = ({ bar, turn, ...of }: SpaceBar, side: EndSide, place: number) => {
    const end = of[side];
    const made = ends[end.index];
    if (!made) return;
    const number = side === 'far' ? of.farNumber : of.connectionNumber;
    const joined = end.use === 'joint' || end.use === 'crown';
    standing.push({
      make: made,
      turn,
      slot: bar.slot - 1,
      name: barName(bar),
      joint: joined ? number : -1,
      places: [place],
    });
  };
  space.bars.forEach((bar, place) => {
    if (!bar) return;
    stand(bar, 'connection', place);
    stand(bar, 'far', place);
  });
  const shared = new Map<readonly Piece<string>[], Make>();
  for (const { side, pieces, section, turn, from, to } of space.links) {
    if (!isAsked(side)) continue;
    // Up to its level part it stands on a bar of its layer, between its neighbors.
    const level = pieces.findIndex(({ kind }) => kind === 'arc');
    const layerAt = (piece: number) => (piece < level ? from.layer : piece > level ? to.layer : null);
    const known = shared.get(pieces) ?? make(side, pieces, section, true, layerAt);
    shared.set(pieces, known);
    const places = [placeOf(from), placeOf(to)];
    const name = `${barName(from)}–${barName(to)}`;
    standing.push({ make: known, turn, slot: from.slot - 1, name, joint: -1, places });
  }
  for (const { side, piece, section, name, bars } of space.rings) {
    if (!isAsked(side)) continue;
    const ring = make(side, [piece], section, true, () => null);
    standing.push({
      make: ring,
      turn: 0,
      slot: 0,
      name: `ring ${name}`,
      joint: -1,
      places: bars.map(placeOf),
    });
  }
  return standing;
}

/** How far flat bars that follow a cylinder reach into the layer beside them, m. */
export function flatBarSagitta({ layers }: Space): number {
  const widest = Math.max(...layers.map(({ section }) => coatedWidth(section)));
  const innermost = Math.min(...layers.map(({ radius }) => radius));
  return widest ** 2 / (8 * innermost);
}
