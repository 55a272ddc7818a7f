import { inEnglish, type Speech } from '../../core/figures/speech.ts';
import { spokenNow } from '../wording.ts';

/** What pictures, key figures and tables are labeled in, for the reader; what is exported stays English. */
export function engineSpeech(): Speech {
  const [, language] = spokenNow();
  return language?.speech ?? inEnglish;
}
