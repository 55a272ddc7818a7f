import type { SolidThing } from '../../../core/views/space/solids.ts';
import type { Marked } from '../marking.ts';
import type { Coloring, Standing } from './liveSpace.ts';

/** What something shown belongs to: all that colors and marks go by. */
export interface Belonging {
  /** Index of the phase, -1 for none; the parallel path, 0 for none. */
  readonly phase: number;
  readonly path: number;
  /** Indices of the layers it lies in, from 0, nearest the axis first. */
  readonly layers: readonly number[];
  readonly bar: string | null;
  /** Null for a bar. */
  readonly thing: SolidThing | null;
}

/** The theme's colors take turns, as in the pictures. */
const colorsInTurn = 7;

/** Place among the theme's colors; null for what has no phase, path or layer of its own. */
export function colorIndex({ phase, path, layers, thing }: Belonging, coloring: Coloring): number | null {
  if (thing?.kind === 'ring') return null;
  const number = { phase, path: path - 1, layer: layers[0] ?? -1 }[coloring];
  return number < 0 ? null : number % colorsInTurn;
}

/** Whether something steps back behind what is to stand out; `side` null is within the stack. */
export function stepsBack(
  { phase, path, layers, thing }: Belonging,
  side: string | null,
  wanted: Standing,
): boolean {
  const isRing = thing?.kind === 'ring';
  return !(
    (wanted.phase === null || (!isRing && wanted.phase === phase)) &&
    (wanted.path === null || (!isRing && wanted.path === path)) &&
    (wanted.layer === null || layers.includes(wanted.layer)) &&
    (wanted.side === null || side === null || wanted.side === side)
  );
}

/** Whether something is among what is marked; `joint` is that of the part looked at, 0 for none. */
export function isMarked({ bar, phase, path }: Belonging, joint: number, marked: Marked): boolean {
  return (
    (bar !== null && marked.bars.includes(bar)) ||
    (joint > 0 && marked.joints.includes(joint)) ||
    marked.paths.some((one) => one.phase === phase && one.path === path)
  );
}

/** Whether something is seen while so many layers are taken away from the outside: only what ends in none of them. */
export function isSeen({ layers }: Belonging, layerCount: number, opened: number): boolean {
  return layers.every((layer) => layer < layerCount - opened);
}
