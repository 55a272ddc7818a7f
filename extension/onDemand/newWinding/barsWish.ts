import { layerLetters } from '../../../core/language/layerLetters.ts';
import { skewFactor } from '../../../core/winding/skew.ts';

/** How the bars are made, and which layers lean. */
export interface BarsWish {
  readonly form: 'hairpin' | 'straight';
  /** Layers that lean one way and those that lean the other, over the stack; null where none leans. */
  readonly lean: Lean | null;
}

export interface Lean {
  readonly ahead: readonly number[];
  readonly back: readonly number[];
  /** Slot pitches over the stack. */
  readonly slots: number;
}

export const hairpins: BarsWish = { form: 'hairpin', lean: null };
export const straightBars: BarsWish = { form: 'straight', lean: null };

/** What a lean leaves of the working wave of so many pole pairs and slots; the same for either way. */
export function leanFactor({ lean }: BarsWish, polePairs: number, slots: number): number {
  if (lean === null) return 1;
  return skewFactor(polePairs, (2 * Math.PI * lean.slots) / slots, { angle: 0, steps: null });
}

/** The statements of a lean, one for each way; none where no bar leans. */
export function leanStatements({ lean }: BarsWish): readonly string[] {
  if (lean === null) return [];
  return [
    `skew ${layerLetters(lean.ahead)} +${lean.slots} slot`,
    `skew ${layerLetters(lean.back)} -${lean.slots} slot`,
  ];
}
