import type { ShownVariants } from '../../protocol/shownVariants.ts';
import type { VariantsWords } from '../../protocol/variantsWords.ts';
import { loadScript } from '../loadScript.ts';
import type { VariantsHooks, VariantsTab } from './tab.ts';

/** The page's part for variants; its script is loaded when it is first shown. */
export interface Variants {
  /** Shows them, or nothing. */
  readonly show: (variants: ShownVariants | null) => void;
  /** What is kept over a reload; taken up by `restore`. */
  readonly state: () => unknown;
  readonly restore: (saved: unknown) => void;
}

/** Controls the variants in their area; the page's policy lets in their script by `nonce`. */
export function controlVariants(
  area: HTMLElement,
  nonce: string,
  { act, changed }: { readonly act: VariantsHooks['act']; readonly changed: () => void },
): Variants {
  let tab: VariantsTab | null = null;
  let loading = false;
  let shown: ShownVariants | null = null;
  let look: unknown = null;

  const present = () => {
    if (shown === null) return;
    const start = window.slotwrightVariants;
    if (start === undefined) {
      load();
      return;
    }
    tab ??= start(area, JSON.parse(area.dataset.words ?? '{}') as VariantsWords, look, {
      act,
      changed: (next) => {
        look = next;
        changed();
      },
    });
    tab.show(shown);
  };
  const load = () => {
    if (loading) return;
    loading = true;
    area.textContent = '';
    loadScript({ address: area.dataset.script ?? '', nonce }, () => {
      loading = false;
      if (window.slotwrightVariants) present();
      else area.textContent = area.dataset.failed ?? '';
    });
  };
  return {
    show: (next) => {
      area.hidden = next === null;
      if (next === null || next === shown) return;
      shown = next;
      present();
    },
    state: () => look,
    restore: (saved) => {
      look = saved;
      tab = null;
      shown = null;
      area.textContent = '';
    },
  };
}
