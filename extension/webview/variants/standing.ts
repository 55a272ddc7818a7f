import type { ShownVariants, VariantStanding } from '../../protocol/shownVariants.ts';
import type { VariantsWords } from '../../protocol/variantsWords.ts';
import { filled, textElement } from '../parts.ts';
import { button, element } from './controls.ts';

/** How far the run is, with what begins and ends it. */
export interface StandingPart {
  readonly acts: HTMLElement;
  /** Says that the text has changed since. */
  readonly stale: HTMLElement;
  /** Says why figures are missing. */
  readonly missing: HTMLElement;
  readonly show: (standing: VariantStanding) => void;
}

export function createStanding(
  words: VariantsWords,
  act: (what: 'run' | 'cancel' | 'vary') => void,
): StandingPart {
  const acts = element('div', 'variants-acts');
  const run = button(words.run, () => act('run'));
  run.classList.add('variants-main');
  const cancel = button(words.cancel, () => act('cancel'));
  const vary = button(words.vary, () => act('vary'));
  const sentence = element('p', 'variants-standing');
  const heard = element('p', 'unseen');
  heard.setAttribute('role', 'status');
  acts.append(run, cancel, vary, sentence, heard);
  const stale = element('p', 'variants-stale');
  stale.textContent = words.stale;
  const missing = element('ul', 'variants-missing');
  let told = '';
  return {
    acts,
    stale,
    missing,
    show: (standing) => {
      const { status, inText, trouble } = standing;
      sentence.textContent = standingWords(standing, words);
      // Numbers that run are not read out; beginning and end are.
      const reasons = standing.missing;
      const state = `${status} ${standing.stale} ${inText} ${trouble} ${reasons.join(' ')}`;
      const more = [...(standing.stale ? [words.stale] : []), ...reasons];
      if (state !== told) heard.textContent = [sentence.textContent, ...more].join(' ');
      told = state;
      missing.hidden = reasons.length === 0;
      if (missing.textContent !== reasons.join(''))
        missing.replaceChildren(...reasons.map((why) => textElement('li', why)));
      const ran = ['done', 'stopped', 'running'].includes(status);
      const focused = document.activeElement;
      run.hidden = status === 'none' || status === 'faulty' || status === 'running';
      run.textContent = ran ? words.runAgain : words.run;
      cancel.hidden = status !== 'running';
      vary.hidden = status !== 'none';
      // The focus goes on from a button that goes to the one that comes in its place.
      const buttons = [run, cancel, vary];
      if (buttons.some((each) => each === focused && each.hidden))
        buttons.find(({ hidden }) => !hidden)?.focus();
      stale.hidden = !standing.stale;
    },
  };
}

/** How far the run is, in sentences. */
function standingWords(
  { status, candidates, judged, kept, leftOut, refused, trouble, inText }: VariantStanding,
  words: VariantsWords,
): string {
  const refusals = refused.reduce((sum, [, count]) => sum + count, 0);
  const sentence =
    status === 'none'
      ? words.none
      : status === 'faulty'
        ? filled(words.faulty, trouble)
        : status === 'ready'
          ? filled(words.ready, candidates)
          : status === 'done'
            ? filled(words.done, candidates, candidates, kept, refusals, leftOut)
            : filled(
                status === 'running' ? words.running : words.stopped,
                judged,
                candidates,
                kept,
                refusals,
                leftOut,
              );
  return [
    sentence,
    ...(status === 'done' && kept === 0 ? [words.nothingKept] : []),
    ...(status !== 'faulty' && trouble !== '' ? [trouble] : []),
    ...(inText > 0 ? [filled(words.inText, inText)] : []),
  ].join(' ');
}

/** How many of the candidates that were kept are listed. */
export function listedWords(
  { rows, standing: { kept, front } }: Pick<ShownVariants, 'rows' | 'standing'>,
  words: VariantsWords,
): string {
  return front === null
    ? filled(words.listed, rows.length, kept)
    : filled(words.listedFront, rows.length, kept, front);
}
