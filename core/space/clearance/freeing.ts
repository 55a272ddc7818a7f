import type { BarSpecification } from '../../language/specification/specification.ts';
import type { Given } from '../../language/specification/statements.ts';
import { buildSpace } from '../buildSpace.ts';
import type { SpaceInput } from '../space.ts';
import { type AskedClearance, type ClearancePlace, clearanceSteps } from './clearance.ts';

/** A statement of the bar block, and the value from which on a collision is gone, m: from below or from above. */
export interface Freed {
  readonly word: 'end-clearance' | 'piece-clearance' | 'flat';
  /** m. */
  readonly value: number;
  readonly bound: 'least' | 'most';
}

interface Remedy {
  readonly word: Freed['word'];
  /** Values further and further from the written one, m. */
  readonly values: readonly number[];
  readonly write: (bar: BarSpecification, value: number) => BarSpecification;
}

/** Values are told to this, m. */
const fineness = 2e-5;

/**
 * The first statement that frees a side of collisions of a kind while its bars stay joined as they are: more
 * clearance, or for crowns a smaller flat radius. Null where none within reason does.
 */
export function* freeingSteps(
  input: SpaceInput,
  asked: AskedClearance,
  place: ClearancePlace,
): Generator<undefined, Freed | null> {
  const { bar } = input.specification;
  if (!bar) return null;
  for (const remedy of remediesOf(bar, asked, place)) {
    const value = yield* firstThatFrees(input, asked, place, remedy);
    if (value !== null) return { word: remedy.word, value, bound: remedy.word === 'flat' ? 'most' : 'least' };
  }
  return null;
}

function remediesOf(
  bar: BarSpecification,
  asked: AskedClearance,
  { kind }: ClearancePlace,
): readonly Remedy[] {
  const more = [0.2e-3, 0.5e-3, 1e-3, 1.6e-3, 2.4e-3, 3.5e-3, 5e-3, 7e-3];
  const clearance: Remedy = {
    word: 'end-clearance',
    values: more.map((by) => asked.bars + by),
    write: (own, value) => ({ ...own, endClearance: written(own.endClearance, own, value) }),
  };
  if (kind === 'piece') {
    const pieces: Remedy = {
      word: 'piece-clearance',
      values: more.map((by) => asked.pieces + by),
      write: (own, value) => ({ ...own, pieceClearance: written(own.pieceClearance, own, value) }),
    };
    return [pieces, clearance];
  }
  const flat = bar.flatRadius?.value ?? bar.bendRadius?.value ?? 0;
  const sharper: Remedy = {
    word: 'flat',
    values: [0.75, 0.5, 0.25, 0].map((share) => share * flat),
    write: (own, value) => ({ ...own, flatRadius: written(own.flatRadius, own, value) }),
  };
  return kind === 'crown-leg' && flat > 0 ? [clearance, sharper] : [clearance];
}

function written(given: Given<number> | undefined, bar: BarSpecification, value: number): Given<number> {
  return { ...(given ?? { range: bar.range, statement: bar.range }), value };
}

/** The value nearest to the written one that frees; found between two of the remedy's by halving. */
function* firstThatFrees(
  input: SpaceInput,
  asked: AskedClearance,
  place: ClearancePlace,
  { word, values, write }: Remedy,
): Generator<undefined, number | null> {
  let bad = word === 'flat' ? null : word === 'end-clearance' ? asked.bars : asked.pieces;
  for (const value of values) {
    if (yield* frees(value)) {
      let good = value;
      while (bad !== null && Math.abs(good - bad) > fineness) {
        const middle: number = (good + bad) / 2;
        if (yield* frees(middle)) good = middle;
        else bad = middle;
      }
      return good;
    }
    bad = value;
  }
  return null;

  function* frees(value: number): Generator<undefined, boolean> {
    const bar = write(input.specification.bar!, value);
    const { space, problems } = buildSpace({ ...input, specification: { ...input.specification, bar } });
    yield;
    if (!space.known || problems.some(({ kind }) => kind === 'lead-without-place')) return false;
    const { places } = yield* clearanceSteps(space.value, asked, place);
    return places.every(({ colliding }) => colliding === 0);
  }
}
