import { inEnglish, type Speech } from '../figures/speech.ts';
import { isOne } from '../language/lists.ts';
import { withSign } from '../language/numbers.ts';
import type { ChangedShapes } from './schema.ts';

/** A shape that is needed in another number of pieces than before, in words. */
export interface ShapeRow {
  readonly what: 'removed' | 'added' | 'count';
  /** `hairpin, crown +6, ends a −6, b straight` or `joint, far side, layers a b, +6 slots`. */
  readonly shape: string;
  readonly old: number;
  readonly now: number;
}

type Joint = ChangedShapes['joints']['counts'][number];
type Bar = ChangedShapes['bars']['counts'][number];

/** What changed in the shapes, those of bars first: gone, new, then those in another number. */
export function shapeRows({ bars, joints }: ChangedShapes, speech: Speech = inEnglish): readonly ShapeRow[] {
  return [
    ...rowsOf(bars, (shape) => barWords(shape, speech)),
    ...rowsOf(joints, (shape) => jointWords(shape, speech)),
  ];
}

type Form<Counted> = Omit<Counted, 'old' | 'new'>;

function rowsOf<Counted extends { readonly old: number; readonly new: number }>(
  {
    removed,
    added,
    counts,
  }: {
    readonly removed: readonly (Form<Counted> & { readonly count: number })[];
    readonly added: readonly (Form<Counted> & { readonly count: number })[];
    readonly counts: readonly Counted[];
  },
  words: (shape: Form<Counted>) => string,
): readonly ShapeRow[] {
  return [
    ...removed.map((shape) => ({ what: 'removed' as const, shape: words(shape), old: shape.count, now: 0 })),
    ...added.map((shape) => ({ what: 'added' as const, shape: words(shape), old: 0, now: shape.count })),
    ...counts.map((shape) => ({
      what: 'count' as const,
      shape: words(shape),
      old: shape.old,
      now: shape.new,
    })),
  ];
}

function jointWords({ side, lowerLayer, upperLayer, offset }: Form<Joint>, { say }: Speech): string {
  const layers = `${lowerLayer} ${upperLayer}`;
  const slots = withSign(String(offset));
  const reach = isOne(offset) ? say('{0} slot', slots) : say('{0} slots', slots);
  return side === 'far'
    ? say('joint, far side, layers {0}, {1}', layers, reach)
    : say('joint, connection side, layers {0}, {1}', layers, reach);
}

function barWords({ form, crown, ends }: Form<Bar>, { say, phrase }: Speech): string {
  const reaches = ends
    .map(({ layer, bend }) => `${layer} ${bend === null ? say('straight') : withSign(String(bend))}`)
    .join(', ');
  return crown === null
    ? say('{0}, ends {1}', phrase(form), reaches)
    : say('{0}, crown {1}, ends {2}', phrase(form), withSign(String(crown)), reaches);
}
