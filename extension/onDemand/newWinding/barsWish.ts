import { layerLetters } from '../../../core/language/layerLetters.ts';

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

/**
 * What a lean leaves of the working wave, the skew factor sin(g/2)/(g/2) of g electrical radians over the stack, which is
 * the same for either way; `polesPerSlot` is the slot pitch in half waves.
 */
export function leanFactor({ lean }: BarsWish, polesPerSlot: number): number {
  if (lean === null) return 1;
  const half = (lean.slots * polesPerSlot * Math.PI) / 2;
  return Math.sin(half) / half;
}

/** The statements of a lean, one for each way; none where no bar leans. */
export function leanStatements({ lean }: BarsWish): readonly string[] {
  if (lean === null) return [];
  return [
    `skew ${layerLetters(lean.ahead)} +${lean.slots} slot`,
    `skew ${layerLetters(lean.back)} -${lean.slots} slot`,
  ];
}
