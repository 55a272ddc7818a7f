// What every keystroke needs of the engine: the entry of a bundle of its own, read when a text is first to be studied.

import { checkText } from '../../core/findings/checkedText.ts';
import { createStudies as createStudiesBy, type Studies } from './studies.ts';
import type { Surroundings } from './surroundings.ts';

export { format } from '../../core/language/format/formatter.ts';
export { speak } from '../wording.ts';
export { createCheckFile } from './checkFile.ts';
export { diagnosticsOf, unknownCodes } from './diagnosticsOf.ts';
export { foldingOf, symbolsOf } from './outline.ts';
export { fixActions } from './quickFixes.ts';

/** Studies of winding texts, each again when its paths have been found and its bar ends measured. */
export const createStudies = (surroundings: Surroundings): Studies =>
  createStudiesBy(checkText, surroundings);
