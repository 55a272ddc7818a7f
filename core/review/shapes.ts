import { knownPaths } from './places.ts';
import type { Wound } from './reviewed.ts';
import type { ChangedShapes } from './schema.ts';

interface Counted {
  readonly number: number;
  readonly count: number;
}

/** Shapes of joints and bars that are on one side only, or are needed in another number. */
export function changedShapes(old: Wound | null, now: Wound | null): ChangedShapes {
  const none = { added: [], removed: [], counts: [] };
  if ([old, now].some((side) => side && knownPaths(side).kind === 'unknown'))
    return { joints: none, bars: none };
  const [before, after] = [old?.report({ orders: 1 }).shapes, now?.report({ orders: 1 }).shapes];
  return {
    joints: difference(
      before?.joints ?? [],
      after?.joints ?? [],
      ({ side, lowerLayer, upperLayer, offset }) => ({ side, lowerLayer, upperLayer, offset }),
    ),
    bars: difference(before?.bars ?? [], after?.bars ?? [], ({ form, crown, ends }) => ({
      form,
      crown,
      ends,
    })),
  };
}

function difference<Shape extends Counted, Form extends object>(
  old: readonly Shape[],
  now: readonly Shape[],
  formOf: (shape: Shape) => Form,
): { added: Shape[]; removed: Shape[]; counts: (Form & { old: number; new: number })[] } {
  const [before, after] = [byForm(old, formOf), byForm(now, formOf)];
  const counts: (Form & { old: number; new: number })[] = [];
  for (const [key, { shape, count }] of after) {
    const earlier = before.get(key);
    if (earlier && earlier.count !== count) counts.push({ ...formOf(shape), old: earlier.count, new: count });
  }
  const only = (some: ReadonlyMap<string, Total<Shape>>, others: ReadonlyMap<string, Total<Shape>>) =>
    [...some].flatMap(([key, { shape, count }]) => (others.has(key) ? [] : [{ ...shape, count }]));
  return { added: only(after, before), removed: only(before, after), counts };
}

interface Total<Shape> {
  readonly shape: Shape;
  readonly count: number;
}

/** Shapes by what they look like; joint shapes that differ only in how they are classed are one. */
function byForm<Shape extends Counted>(
  shapes: readonly Shape[],
  formOf: (shape: Shape) => object,
): ReadonlyMap<string, Total<Shape>> {
  const totals = new Map<string, Total<Shape>>();
  for (const shape of shapes) {
    const key = JSON.stringify(formOf(shape));
    const known = totals.get(key);
    totals.set(key, { shape: known?.shape ?? shape, count: (known?.count ?? 0) + shape.count });
  }
  return totals;
}
