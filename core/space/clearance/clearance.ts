import type { Steps } from '../../figures/steps.ts';
import type { EndSide } from '../../winding/model.ts';
import type { Space } from '../space.ts';
import { rotated, type Vector } from '../vectors.ts';
import type { Mark, Segment } from './body.ts';
import { facing, type Meeting, nothing, pairDistances, roomForPairs } from './pairDistance.ts';
import { nearPairs, type Pair } from './pairs.ts';
import { flatBarSagitta, type Standing, standingBodies } from './standing.ts';

/**
 * What comes near what: two legs (with their straights and bends), a crown and anything, a joint's straight
 * part and anything, a connecting piece or ring and anything, a lead and anything.
 */
export type ClearanceKind = 'leg-leg' | 'crown-leg' | 'tip-tip' | 'piece' | 'lead';

const clearanceKinds: readonly ClearanceKind[] = ['leg-leg', 'crown-leg', 'tip-tip', 'piece', 'lead'];

/** The nearest place of a kind on a side; lengths in m, negative distances are depths of penetration. */
export interface ClearancePlace {
  readonly kind: ClearanceKind;
  readonly side: EndSide;
  /** Between coated faces. */
  readonly distance: number;
  /** Where, on the edge of one of the two; m. */
  readonly at: Vector;
  /** The two bars, `3a`; of a connecting piece its bars, `3a–9b`; of a ring `ring N`. */
  readonly bars: readonly [string, string];
  /** The kinds of the two pieces. */
  readonly pieces: readonly [string, string];
  /** Pairs of bars that collide, and that are nearer than the clearance but do not. */
  readonly colliding: number;
  /** Pairs that come nearer than asked for. */
  readonly close: number;
}

/** How much room the coated bar ends, connecting pieces and rings leave each other. */
export interface Clearances {
  /** Of each kind on each side that has one within a slot pitch. */
  readonly places: readonly ClearancePlace[];
  /** Least distance between bars of different layers, m; null where none lie near each other. */
  readonly layerContact: number | null;
}

/** What is asked for: within a layer, and of connecting pieces and rings; m. */
export interface AskedClearance {
  /** Between bar ends of a layer. */
  readonly bars: number;
  /** Of connecting pieces and rings from all. */
  readonly pieces: number;
}

/** Lengths that making does not tell apart from touching or from the clearance, m. */
const making = 1e-5;

/** The kind of a pair of pieces: by whichever of the two sorts counts more (standing.ts). */
const kindOfSort: readonly ClearanceKind[] = ['leg-leg', 'crown-leg', 'tip-tip', 'lead', 'piece'];

/** Groups of pairs of pieces: by kind, and by kind again for bars of different layers. */
const layersApart = kindOfSort.length;

function groupOf(a: Mark, b: Mark): number {
  const sort = Math.max(a.sort, b.sort);
  return a.layer >= 0 && b.layer >= 0 && a.layer !== b.layer ? sort + layersApart : sort;
}

/**
 * What is looked for: all places; those that are too small, or the nearest of all, for a fourth of the work; or whether
 * bars collide in one kind on one side alone.
 */
type Looked = 'all' | 'near' | 'nearest' | Pick<ClearancePlace, 'kind' | 'side'>;

/**
 * Clearances of coated sections over all pairs that symmetry leaves, a pair at a time. Within a layer the
 * distance counts; between layers, which lie on each other, only penetration beyond what flat bars on a
 * cylinder have anyway. Where not all is looked for, some other places may be told too, and no contact of layers.
 * Pairs that are told as something else, `isTold`, have places of their own, beside which others are told.
 */
export function* clearanceSteps(
  space: Space,
  asked: AskedClearance,
  looked: Looked = 'all',
  isTold: (place: Pick<ClearancePlace, 'side' | 'bars'>) => boolean = () => false,
): Steps<Clearances> {
  const only = typeof looked === 'string' ? null : looked;
  const isNearest = looked === 'nearest';
  const standing = standingBodies(space, only?.side);
  yield;
  const outermost = Math.max(...space.layers.map(({ radius }) => radius));
  const pitch = (2 * Math.PI * outermost) / space.slots;
  const most = Math.max(asked.bars, asked.pieces);
  const widest = only ? 0 : looked === 'near' ? most : Math.max(pitch, most);
  const allowance = flatBarSagitta(space) + making;
  /** How far apart pieces of a kind are worth a look while nothing nearer is known. */
  const farthest = (kind: ClearanceKind) =>
    looked === 'near' ? Math.max(facing, clearanceOf(kind, asked)) : widest;
  const best = new Map<string, ClearancePlace>();
  let least = widest;
  let layerContact: number | null = null;
  const nearestOf = new Float64Array(layersApart);
  const reach = new Float64Array(2 * layersApart);
  const groups = { count: 2 * layersApart, of: groupOf, reach };
  const room = roomForPairs();
  for (const pair of nearPairs(space.slots, standing, widest)) {
    const { side } = pair.first.make;
    const told = isTold({ side, bars: [pair.first.name, pair.second.name] });
    const keyOf = (kind: ClearanceKind) => `${kind} ${side} ${told}`;
    kindOfSort.forEach((kind, sort) => {
      const nearest = isNearest ? least : (best.get(keyOf(kind))?.distance ?? farthest(kind));
      nearestOf[sort] = nearest;
      reach[sort] = only ? 0 : Math.max(nearest, isNearest ? facing : clearanceOf(kind, asked));
      // How far layers are apart that do not lie on each other is of no interest.
      reach[sort + layersApart] = looked === 'all' ? Math.max(0, layerContact ?? pitch / 10) : -allowance;
      if (only && kind !== only.kind) reach[sort] = reach[sort + layersApart] = nothing;
    });
    const found = pairDistances(
      room,
      pair.first.make.body,
      pair.second.make.body,
      pair.turn,
      groups,
      (sought, group, distance) => {
        // Where another pair is nearer, only how many collide or are too near.
        const kind = kindOfSort[group % layersApart]!;
        const nearest = group < layersApart ? nearestOf[group]! : Number.POSITIVE_INFINITY;
        sought.below[group] =
          distance < nearest || nearest < 0
            ? distance
            : Math.max(nearest, nextJudgment(distance, clearanceOf(kind, asked)));
      },
    );
    found.forEach((meeting, group) => {
      if (!meeting) return;
      if (group >= layersApart) {
        layerContact = Math.min(layerContact ?? meeting.distance, meeting.distance);
        if (meeting.distance >= -allowance) return;
      }
      const kind = kindOfSort[group % layersApart]!;
      const key = keyOf(kind);
      least = Math.min(least, meeting.distance);
      best.set(key, nearer(best.get(key), kind, pair, meeting, clearanceOf(kind, asked)));
    });
    yield;
  }
  return { places: [...best.values()].sort(inOrder), layerContact };
}

/** The clearance asked for places of a kind, m. Crowns leave their layer: of them only penetration counts. */
export function clearanceOf(kind: ClearanceKind, asked: AskedClearance): number {
  if (kind === 'crown-leg') return 0;
  return kind === 'piece' ? asked.pieces : asked.bars;
}

/** Distances below this collide, m. */
const colliding = -making / 10;

/** What pairs are to each other. */
export type Judged = 'collides' | 'close' | 'clear';

/** What a distance is where so much is asked for, m. */
function judgedDistance(distance: number, clearance: number): Judged {
  if (distance < colliding) return 'collides';
  return distance < clearance - making ? 'close' : 'clear';
}

/** The distance below which one would be judged otherwise than this one, m. */
function nextJudgment(distance: number, clearance: number): number {
  if (distance < colliding) return Number.NEGATIVE_INFINITY;
  return distance < clearance - making ? colliding : clearance - making;
}

/** Tells what two bodies are to each other by their nearest pieces, as `clearanceSteps` counts them. */
export function pairJudge(space: Space, asked: AskedClearance): (pair: Pair) => Judged {
  const allowance = flatBarSagitta(space) + making;
  const reach = Float64Array.from({ length: 2 * layersApart }, (_, group) =>
    group < layersApart ? clearanceOf(kindOfSort[group]!, asked) : -allowance,
  );
  const groups = { count: 2 * layersApart, of: groupOf, reach };
  const room = roomForPairs();
  return ({ first, second, turn }) => {
    let worst: Judged = 'clear';
    pairDistances(room, first.make.body, second.make.body, turn, groups, (sought, group, distance) => {
      const judged = judgedDistance(distance, clearanceOf(kindOfSort[group % layersApart]!, asked));
      if (judged === 'clear') return;
      worst = judged;
      // What is close may still collide elsewhere.
      sought.below.fill(colliding);
      sought.isFound = judged === 'collides';
    });
    return worst;
  };
}

function nearer(
  known: ClearancePlace | undefined,
  kind: ClearanceKind,
  { first, second, count }: Pair,
  { distance, at, first: one, second: other }: Meeting,
  clearance: number,
): ClearancePlace {
  const judged = judgedDistance(distance, clearance);
  const counts = {
    colliding: (known?.colliding ?? 0) + (judged === 'collides' ? count : 0),
    close: (known?.close ?? 0) + (judged === 'close' ? count : 0),
  };
  if (known && known.distance <= distance) return { ...known, ...counts };
  return {
    kind,
    side: first.make.side,
    distance,
    at: rotated(at, second.turn),
    bars: [first.name, second.name],
    pieces: [pieceOf(first, one), pieceOf(second, other)],
    ...counts,
  };
}

function pieceOf({ make }: Standing, { piece }: Segment): string {
  return make.pieces[piece]!.kind;
}

function inOrder(a: ClearancePlace, b: ClearancePlace): number {
  return clearanceKinds.indexOf(a.kind) - clearanceKinds.indexOf(b.kind) || (a.side < b.side ? -1 : 1);
}
