import type { CheckedText } from '../../core/findings/checkedText.ts';
import type { Finding } from '../../core/language/finding.ts';
import type { Study } from '../../core/study.ts';
import type { PanelContent, PanelNotice, Place } from '../messages.ts';
import type { Wish } from '../wish.ts';

/** What the panel shows: the last good study of one text, and why it is not the present one, if it is not. */
export interface Shown {
  readonly source: string;
  /** The study whose winding is drawn; null where there is none. */
  readonly study: CheckedText | null;
  readonly notice: PanelNotice | null;
}

/** The stamp beside the title, and the sentence that explains it. */
interface Heading {
  readonly stamp: string;
  readonly headline: string;
}

/** The wording of the notices; the extension passes the words of the reader's language. */
export interface NoticeWords {
  readonly outOfDate: Heading;
  readonly partly: Heading;
  readonly nothing: Heading;
  readonly working: Heading;
  /** A view could not be drawn: why. */
  readonly undrawable: (reason: string) => Heading;
  readonly line: (line: number, message: string) => string;
  readonly more: (count: number) => string;
}

const placesShown = 5;

/**
 * What follows on `previous` when the text at `source` now has this study. A text that can be drawn replaces what
 * was shown. A broken one keeps the last good study of the same text under a notice; where there is none, what
 * could be read is drawn under a notice that says so.
 */
export function nextShown(
  previous: Shown | null,
  source: string,
  study: CheckedText,
  words: NoticeWords,
): Shown {
  const present = study.winding === null ? null : study;
  if (present !== null && !study.broken) {
    const notice = study.pending ? { kind: 'notice' as const, source, ...words.working, places: [] } : null;
    return { source, study: present, notice };
  }
  const lastGood = previous?.source === source ? previous.study : null;
  const notice = noticeOf(source, study, heading(lastGood, present, words), words);
  return { source, study: lastGood ?? present, notice };
}

function heading(lastGood: CheckedText | null, present: CheckedText | null, words: NoticeWords): Heading {
  if (lastGood !== null) return words.outOfDate;
  return present === null ? words.nothing : words.partly;
}

/** What the page is told of a study, with the view that was drawn of it. */
export function contentOf(
  source: string,
  study: Study,
  wish: Wish,
  drawn: Pick<PanelContent, 'picture' | 'table'>,
): PanelContent {
  return {
    kind: 'content',
    source,
    title: study.title,
    wish,
    phases: study.winding?.phases.names ?? [],
    paths: pathsOf(study),
    layers: study.winding?.layers ?? 0,
    picture: drawn.picture,
    table: drawn.table,
    keyFigures: study.keyFigures(),
    factorRows: study.factorRows(),
  };
}

/** Parallel paths of a phase that can be told apart; 0 where bars are not joined. */
function pathsOf({ facts }: CheckedText): number {
  return facts?.connection.kind === 'connected' ? facts.winding.parallelPaths : 0;
}

function noticeOf(
  source: string,
  study: CheckedText,
  { stamp, headline }: Heading,
  words: NoticeWords,
): PanelNotice {
  const errors = study.findings.filter(({ severity }) => severity === 'error');
  const places = errors.slice(0, placesShown).map((error) => placeOf(error, study.text, words));
  const left = errors.length - places.length;
  const sentence = left > 0 ? `${headline} ${words.more(left)}` : headline;
  return { kind: 'notice', source, stamp, headline: sentence, places };
}

function placeOf({ message, range }: Finding, text: string, words: NoticeWords): Place {
  return { text: words.line(lineAt(text, range.start), message), range };
}

/** The number of the line, from 1, on which the offset lies. */
function lineAt(text: string, offset: number): number {
  return text.slice(0, offset).split('\n').length;
}
