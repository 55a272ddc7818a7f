import type { VariantsAct } from '../../protocol/messages.ts';
import type { ShownVariants } from '../../protocol/shownVariants.ts';
import type { VariantsWords } from '../../protocol/variantsWords.ts';

/** Who hears of what the reader does with the variants. */
export interface VariantsHooks {
  readonly act: (act: VariantsAct, numbers: readonly number[]) => void;
  /** How they are seen has changed. */
  readonly changed: (look: unknown) => void;
}

/** The variants on the page. */
export interface VariantsTab {
  readonly show: (variants: ShownVariants) => void;
}

/** Builds the page's part for variants in an area; `look` is what `changed` told last. */
export type StartVariants = (
  area: HTMLElement,
  words: VariantsWords,
  look: unknown,
  hooks: VariantsHooks,
) => VariantsTab;

declare global {
  interface Window {
    /** Put here by the script of the variants. */
    slotwrightVariants?: StartVariants;
  }
}
