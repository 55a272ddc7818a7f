import { type Figure, missing } from '../figures/figure.ts';
import {
  type AskedClearance,
  type ClearancePlace,
  type Clearances,
  clearanceSteps,
} from '../space/clearance/clearance.ts';
import { type Freed, freeingSteps } from '../space/clearance/freeing.ts';
import type { Space, SpaceInput } from '../space/space.ts';

/** The clearances of a winding's ends, and for each place that collides what frees it, null: nothing known. */
export interface MeasuredEnds {
  readonly clearances: Clearances;
  readonly freed: ReadonlyMap<ClearancePlace, Freed | null>;
}

/** The measuring of clearances: all they depend on as one text, and the work in small steps. */
export interface EndsToMeasure {
  readonly key: () => string;
  readonly steps: () => Generator<undefined, MeasuredEnds>;
}

/** Measures clearances, or null while it is still at work; the editor's gives way to typing. */
export type Measurer = (ends: EndsToMeasure) => MeasuredEnds | null;

/** Measures at once, however long it takes. */
export const measureNow: Measurer = ({ steps }) => {
  const work = steps();
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
};

/** The clearances that the text asks for, m. */
export function askedClearance({ specification }: SpaceInput): AskedClearance {
  const bars = specification.bar?.endClearance?.value ?? 0;
  return { bars, pieces: specification.bar?.pieceClearance?.value ?? bars };
}

/** What is to be measured of bars in space. What frees is looked for where the text gives the bend radius. */
export function endsToMeasure(input: SpaceInput, space: Space): EndsToMeasure {
  const asked = askedClearance(input);
  return {
    key: () => keyOf(space, asked),
    *steps() {
      const clearances = yield* clearanceSteps(space, asked);
      const freed = new Map<ClearancePlace, Freed | null>();
      for (const place of space.bends.assumed ? [] : clearances.places) {
        if (place.colliding > 0) freed.set(place, yield* freeingSteps(input, asked, place));
      }
      return { clearances, freed };
    },
  };
}

/** The clearances as figures; `null` measured ends are still at work. */
export function clearanceFigure(space: Figure<Space>, ends: () => MeasuredEnds | null): Figure<Clearances> {
  if (!space.known) return space;
  const measured = ends();
  return measured
    ? { known: true, value: measured.clearances, assumptions: [] }
    : missing('a moment: the clearances are being measured');
}

/** Everything that clearances and what frees them depend on. */
function keyOf(
  { slots, stack, layers, bends, ends, bars, links, rings, endStraight }: Space,
  asked: AskedClearance,
): string {
  const forms = ends.map(({ side, layer, use, turn, crownLayer, shift, plane, lead, top }) => [
    side,
    layer,
    use,
    turn,
    crownLayer,
    shift,
    plane,
    lead,
    top,
  ]);
  const standing = bars.map(
    (bar) => bar && [bar.connection.index, bar.far.index, bar.connectionNumber, bar.farNumber],
  );
  const above = links.map(({ from, to, level, section, height, length }) => [
    from,
    to,
    level,
    section,
    height,
    length,
  ]);
  const round = rings.map(({ name, section, piece, height }) => [name, section, piece.length, height]);
  return JSON.stringify([slots, stack, endStraight, layers, bends, forms, standing, above, round, asked]);
}
