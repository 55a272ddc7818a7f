import type { Figure } from '../figures/figure.ts';
import { stated } from '../language/specification/defaults.ts';
import type { Specification } from '../language/specification/specification.ts';
import { barStatements } from '../language/vocabulary/blocks/copper.ts';
import type { Connections } from '../winding/joints/joints.ts';
import type { Bar } from '../winding/model.ts';

/** Resistance of a joint, ohm, whatever its temperature. */
export function jointResistance({ bar }: Specification): Figure<number> {
  return stated(barStatements, bar, 'jointResistance');
}

/**
 * How many joints each path has, and how many of them, as halves, each bar has at its ends, by place as
 * in the slot table's `cells`: a crown is no joint, a connecting piece has two.
 */
export interface JointCount {
  /** One a path. */
  readonly paths: readonly number[];
  /** Halves of joints; 0 where there is no bar. */
  readonly byPlace: Float64Array;
}

/** The joints of connected bars. */
export function countedJoints(
  { joints }: Pick<Connections, 'joints'>,
  paths: number,
  form: 'hairpin' | 'straight',
  { slots, cells }: { readonly slots: number; readonly cells: Int8Array },
): JointCount {
  const ofPaths = new Array<number>(paths).fill(0);
  const byPlace = new Float64Array(cells.length);
  const place = ({ layer, slot }: Bar) => layer * slots + slot - 1;
  for (const { path, side, kind, from, to } of joints) {
    if (form === 'hairpin' && side === 'far' && kind !== 'jumper') continue;
    const count = kind === 'jumper' ? 2 : 1;
    ofPaths[path]! += count;
    byPlace[place(from)]! += count / 2;
    byPlace[place(to)]! += count / 2;
  }
  return { paths: ofPaths, byPlace };
}
