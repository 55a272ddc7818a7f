import type { ShownVariants } from '../../protocol/shownVariants.ts';
import type { VariantsWords } from '../../protocol/variantsWords.ts';
import { filled, textElement } from '../parts.ts';
import type { VariantsPart } from './look.ts';

/** What is asked, and why candidates were refused: for those who open it. */
export function createAsked(words: VariantsWords): VariantsPart {
  const element = document.createElement('details');
  element.className = 'variants-asked';
  const list = document.createElement('ul');
  element.append(textElement('summary', words.asked), list);
  let listed = '';
  return {
    element,
    show: (variants) => {
      element.hidden = variants.question === null;
      const texts = askedWords(variants, words);
      const key = JSON.stringify(texts);
      if (variants.question === null || key === listed) return;
      listed = key;
      list.replaceChildren(...texts.map((text) => textElement('li', text)));
    },
  };
}

function askedWords({ question, standing }: ShownVariants, words: VariantsWords): readonly string[] {
  if (question === null) return [];
  const { held, unsettled, kept, ranked } = question;
  return [
    filled(words.held, held),
    ...unsettled.map((what) => filled(words.unsettled, what)),
    ...(kept.length > 0 ? [filled(words.kept, kept.join('; '))] : []),
    ranked.length > 0 ? filled(words.ranked, ranked.join(words.thenRank)) : words.notRanked,
    ...standing.refused.map(([why, count]) => filled(words.refused, count, why)),
  ];
}
