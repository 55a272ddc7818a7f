import { type Measurer, measureNow, type Work } from '../../core/figures/work.ts';
import { checkText } from '../../core/findings/checkedText.ts';
import { type Study, studyOf } from '../../core/study.ts';
import { shared } from './study.ts';

const ofEnds: readonly Work<unknown>['kind'][] = ['near-ends', 'nearest-ends', 'clearances', 'inductance'];
const noEnds: Measurer = (work) => (ofEnds.includes(work.kind) ? null : measureNow(work));

/**
 * Studies a text with nothing measured between bar ends: without the leakage of the end windings, for values computed
 * without it elsewhere, and without clearances.
 */
export const study: (text: string) => Study = shared((text) => studyOf(checkText(text, undefined, noEnds)));

/** Studies a text with nothing measured that takes its time: clearances, end windings, cycles. */
export const unmeasured: (text: string) => Study = shared((text) =>
  studyOf(checkText(text, undefined, () => null)),
);
