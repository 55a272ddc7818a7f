import type { Facts } from '../facts/facts.ts';
import type { SpaceFigures } from '../facts/spaceFigures.ts';
import { type Figure, orNull } from '../figures/figure.ts';
import { barKinds } from '../space/cad/bentBars.ts';
import type { ClearancePlace, Clearances } from '../space/clearance/clearance.ts';
import type { PhaseEndInductance } from '../space/inductance/endInductance.ts';
import type { BarPieceKind, Piece } from '../space/piece.ts';
import type { BarEnd, HeightRange, Space, SpaceBar } from '../space/space.ts';
import type { BarShape } from '../winding/joints/bars.ts';
import type { Report } from './schema.ts';

type ReportedSpace = NonNullable<Report['space']>;

/** The bars in space; null where a size or a path is missing. */
export function reportedSpace(facts: Facts): Report['space'] {
  const { space, endInductance, endSpread, ...figures } = facts.spaceFigures();
  if (!space.known || facts.connection.kind !== 'connected') return null;
  const { connection, far } = space.value.jointPlanes;
  const clearances = figures.clearances();
  return {
    bars: facts.connection.facts.barShapes().map((shape) => reportedBar(space.value, shape)),
    clearance: clearances.known ? reportedClearance(clearances.value) : null,
    endInductance: reportedEnds(endInductance(), endSpread),
    jointPlane: { connection: copied(connection), far: copied(far) },
    assumptions: [...space.assumptions],
  };
}

function reportedEnds(
  inductance: Figure<PhaseEndInductance>,
  endSpread: SpaceFigures['endSpread'],
): ReportedSpace['endInductance'] {
  if (!inductance.known) return null;
  const { phase, matrix } = inductance.value;
  const spread = orNull(endSpread());
  return {
    phase,
    low: spread?.low ?? null,
    high: spread?.high ?? null,
    matrix: matrix.map((row) => [...row]),
  };
}

function copied(range: HeightRange | null): HeightRange | null {
  return range && { lowest: range.lowest, highest: range.highest };
}

function reportedClearance(clearances: Clearances): ReportedSpace['clearance'] {
  const least = smallestPlace(clearances);
  return {
    smallest: least?.distance ?? null,
    bars: least && [...least.bars],
    pieces: least && [...least.pieces],
    side: least?.side ?? null,
    kinds: clearances.places.map(({ kind, side, distance, bars }) => ({
      kind,
      side,
      smallest: distance,
      bars: [...bars],
    })),
    layerContact: clearances.layerContact,
  };
}

type Stretch = ReportedSpace['bars'][number]['pieces'][number];

/** A bar of a shape from end to end, as most of it are; what follows on its own kind counted as one piece. */
function reportedBar(space: Space, shape: BarShape): ReportedSpace['bars'][number] {
  // Of the kinds of a shape that with the most bars is the first.
  const [first, second] = barKinds(space, [shape])[0]!.legs;
  const pieces: Stretch[] = [];
  for (const { kind, length } of second ? hairpin(space, first!, second) : straightBar(space, first!)) {
    const last = pieces.at(-1);
    if (last?.kind === kind) last.length += length;
    else pieces.push({ kind, length });
  }
  return { shape: shape.number, length: pieces.reduce((sum, { length }) => sum + length, 0), pieces };
}

type Pieces = readonly Piece<BarPieceKind>[];

/** Two legs, from the joined end of the first through the crown to that of the second. */
function hairpin(space: Space, first: SpaceBar, second: SpaceBar): Pieces {
  return [
    ...inwards(first.connection),
    slotPart(space, first),
    ...first.far.pieces,
    ...inwards(second.far),
    slotPart(space, second),
    ...second.connection.pieces,
  ];
}

function straightBar(space: Space, bar: SpaceBar): Pieces {
  return [...inwards(bar.connection), slotPart(space, bar), ...bar.far.pieces];
}

function slotPart({ slotParts }: Space, { bar }: SpaceBar) {
  return slotParts[bar.layer]!;
}

/** An end's pieces from its tip to the stack. */
function inwards({ pieces }: BarEnd): Pieces {
  return [...pieces].reverse();
}

/** The place with the least distance; null where no bar ends lie near each other. */
function smallestPlace({ places }: Clearances): ClearancePlace | null {
  return places.reduce<ClearancePlace | null>(
    (least, place) => (least && least.distance <= place.distance ? least : place),
    null,
  );
}
