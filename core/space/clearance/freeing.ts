import type { Steps } from '../../figures/steps.ts';
import type { BarSpecification } from '../../language/specification/specification.ts';
import type { Given } from '../../language/specification/statements.ts';
import { buildSpace } from '../buildSpace.ts';
import type { BendRadii, SpaceInput } from '../space.ts';
import { type AskedClearance, type ClearancePlace, clearanceSteps } from './clearance.ts';

/** A length of the bar block that is written otherwise to free a collision. */
export interface FreeingStep {
  readonly word: 'end-clearance' | 'piece-clearance' | 'flat';
  /** The value from which on the collision is gone, m: from below or from above. */
  readonly value: number;
  readonly bound: 'least' | 'most';
}

/** What frees a collision: one statement, or several that do it together. */
export type Freed = readonly FreeingStep[];

interface Remedy extends Pick<FreeingStep, 'word' | 'bound'> {
  /** What is written before. */
  readonly before: Freed;
  /** Values further and further from the written one, m. */
  readonly values: readonly number[];
  /** The value nearest to them that is known not to free, m; null where none is. */
  readonly from: number | null;
}

/** Values are told to this, m. */
const fineness = 2e-5;

/**
 * What frees a side of collisions of a kind while its bars, bent by these radii, stay joined as they are: more
 * clearance, or for crowns a smaller flat radius, or both together; where tips are too near, less clearance. Null where
 * none within reason does.
 */
export function* freeingSteps(
  input: SpaceInput,
  { flat }: BendRadii,
  asked: AskedClearance,
  place: ClearancePlace,
): Steps<Freed | null> {
  const { bar } = input.specification;
  if (!bar) return null;
  for (const remedy of remediesOf(flat, asked, place)) {
    const { before, word, bound } = remedy;
    const value = yield* firstThatFrees(input, before.reduce(writeStep, bar), asked, place, remedy);
    if (value !== null) return [...before, { word, value, bound }];
  }
  return null;
}

const more = [0.2e-3, 0.5e-3, 1e-3, 1.6e-3, 2.4e-3, 3.5e-3, 5e-3, 7e-3];

function remediesOf(flat: number, asked: AskedClearance, { kind }: ClearancePlace): readonly Remedy[] {
  const clearance: Remedy = {
    before: [],
    word: 'end-clearance',
    bound: 'least',
    values: more.map((by) => asked.bars + by),
    from: asked.bars,
  };
  // Less clearance lays the ends flatter, and leads and bars under pieces find their places between the tips.
  const closer: Remedy = {
    ...clearance,
    bound: 'most',
    values: [0.8, 0.6, 0.4, 0.2].map((share) => share * asked.bars),
  };
  if (kind === 'piece') {
    const values = more.map((by) => asked.pieces + by);
    const pieces: Remedy = { ...clearance, word: 'piece-clearance', values, from: asked.pieces };
    return [pieces, clearance, closer];
  }
  if (kind === 'crown-leg') {
    const radii = (shares: readonly number[]) => (flat > 0 ? shares.map((share) => share * flat) : []);
    return [
      clearance,
      { before: [], word: 'flat', bound: 'most', values: radii([0.75, 0.5, 0.25, 0]), from: null },
      ...radii([0.5, 0.25]).map((value): Remedy => {
        return { ...clearance, before: [{ word: 'flat', value, bound: 'most' }] };
      }),
    ];
  }
  return [clearance, closer];
}

function writeStep(bar: BarSpecification, step: FreeingStep): BarSpecification {
  switch (step.word) {
    case 'end-clearance':
      return { ...bar, endClearance: written(bar.endClearance, bar, step.value) };
    case 'piece-clearance':
      return { ...bar, pieceClearance: written(bar.pieceClearance, bar, step.value) };
    case 'flat':
      return { ...bar, flatRadius: written(bar.flatRadius, bar, step.value) };
  }
}

function written(given: Given<number> | undefined, bar: BarSpecification, value: number): Given<number> {
  return { ...(given ?? { range: bar.range, statement: bar.range }), value };
}

/** The value nearest to the written one that frees; found between two of the remedy's by halving. */
function* firstThatFrees(
  input: SpaceInput,
  given: BarSpecification,
  asked: AskedClearance,
  place: ClearancePlace,
  { word, bound, values, from }: Remedy,
): Steps<number | null> {
  const at = (value: number) => frees(writeStep(given, { word, value, bound }));
  let bad = from;
  for (const value of values) {
    if (yield* at(value)) {
      let good = value;
      while (bad !== null && Math.abs(good - bad) > fineness) {
        const middle: number = (good + bad) / 2;
        if (yield* at(middle)) good = middle;
        else bad = middle;
      }
      return good;
    }
    bad = value;
  }
  return null;

  function* frees(bar: BarSpecification): Steps<boolean> {
    const { space, problems } = buildSpace({ ...input, specification: { ...input.specification, bar } });
    yield;
    if (!space.known || problems.some(({ kind }) => kind === 'lead-without-place')) return false;
    const { places } = yield* clearanceSteps(space.value, asked, place);
    return places.every(({ colliding }) => colliding === 0);
  }
}
