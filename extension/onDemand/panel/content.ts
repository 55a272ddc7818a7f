import type { Facts } from '../../../core/facts/facts.ts';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { anotherOffered } from '../../../core/findings/connection/findingKinds.ts';
import type { Finding } from '../../../core/language/finding.ts';
import { designFigures, factorTableRows } from '../../../core/report/figures.ts';
import type { PanelState } from '../../protocol/panelState.ts';
import type { PanelHeading, PanelNotice, Place } from '../../protocol/shownParts.ts';
import { keptItems } from '../../protocol/stateParts.ts';
import type { Wish } from '../../protocol/wish.ts';
import { findingWords } from '../../wording.ts';
import { engineSpeech } from '../engineSpeech.ts';
import { findingPlaces } from '../places.ts';
import { drawShown } from './drawShown.ts';
import { createShownLimits, shownFindings } from './verdict.ts';

/** What the panel shows: the last good study of one text, and why it is not the present one, if it is not. */
export interface Shown {
  /** The text that is open, as it is now. */
  readonly heading: PanelHeading;
  /** That text as it was checked; null while it is not read. */
  readonly present: CheckedText | null;
  /** The study whose winding is drawn; null where there is none. */
  readonly study: CheckedText | null;
  readonly notice: PanelNotice | null;
}

/** The stamp beside the title, and the sentence that explains it. */
interface Words {
  readonly stamp: string;
  readonly headline: string;
}

/** The wording of the notices; the extension passes the words of the reader's language. */
export interface NoticeWords {
  readonly outOfDate: Words;
  readonly partly: Words;
  readonly nothing: Words;
  /** No winding is open. */
  readonly noText: Words;
  readonly working: Words;
  /** Another connection is the best one by now; and the way to it. */
  readonly offered: Words;
  readonly toOffer: string;
  /** A file cannot be read any more. */
  readonly lost: (file: string) => Words;
  /** A view could not be drawn: why. */
  readonly undrawable: (reason: string) => Words;
  readonly line: (line: number, message: string) => string;
  readonly more: (count: number) => string;
}

const placesShown = 5;

/** What is shown of a text that is still to be read; no text at all has an empty address. */
export function waitingFor(source: string, file: string): Shown {
  return { heading: { source, file, title: '', waiting: true }, present: null, study: null, notice: null };
}

/** What is shown while no winding is open. */
export function nothingOpen(words: NoticeWords): Shown {
  const heading = { source: '', file: '', title: '', waiting: false };
  return { heading, present: null, study: null, notice: { ...words.noText, places: [] } };
}

/**
 * What is shown when its text cannot be read any more: what was known of it. The editor empties an untitled text before
 * it closes: the name is that of the winding that is drawn.
 */
export function lostText(shown: Shown, words: NoticeWords): Shown {
  const { heading: last, study } = shown;
  const heading = { ...last, title: study?.title ?? last.title, waiting: false };
  return { ...shown, heading, notice: { ...words.lost(heading.file), places: [] } };
}

/**
 * What follows on `previous` when the text at `source` now has this study. A text that can be drawn replaces what
 * was shown. A broken one keeps the last good study of the same text under a notice; where there is none, what
 * could be read is drawn under a notice that says so.
 */
export function nextShown(
  previous: Shown | null,
  { source, file }: Pick<PanelHeading, 'source' | 'file'>,
  study: CheckedText,
  words: NoticeWords,
): Shown {
  const heading = { source, file, title: study.title, waiting: false };
  const drawable = study.winding === null ? null : study;
  const present = study;
  if (drawable !== null && !study.broken) {
    const notice = study.pending ? { ...words.working, places: [] } : offerNotice(study, words);
    return { heading, present, study: drawable, notice };
  }
  const lastGood = previous?.heading.source === source ? previous.study : null;
  const notice = noticeOf(study, noticeWordsFor(lastGood, drawable, words), words);
  return { heading, present, study: lastGood ?? drawable, notice };
}

/** What is shown is a connection found before, and another one is offered. */
function offerNotice({ facts, findings }: CheckedText, words: NoticeWords): PanelNotice | null {
  if (facts?.connection.kind !== 'connected' || !facts.connection.offered) return null;
  const index = findings.findIndex(({ code }) => code === anotherOffered.code);
  const place = findingPlaces(findings)[index];
  return { ...words.offered, places: place === undefined ? [] : [{ text: words.toOffer, place }] };
}

function noticeWordsFor(
  lastGood: CheckedText | null,
  present: CheckedText | null,
  words: NoticeWords,
): Words {
  if (lastGood !== null) return words.outOfDate;
  return present === null ? words.nothing : words.partly;
}

type Content = Pick<PanelState, 'view' | 'figures' | 'factors'> & {
  /** Why the view could not be drawn; null where it could. */
  readonly problem: string | null;
};

/** What a panel shows that does not follow from its text and its wish. */
export type Besides = Pick<PanelState, 'connections' | 'marks' | 'drawing' | 'difference'>;

/** Makes what a panel shows. Studies are drawn once: while neither text nor wish changes, its parts stay themselves. */
export function createPanelStates(
  words: NoticeWords,
): (shown: Shown, wish: Wish, besides: Besides) => PanelState {
  let drawn: { readonly study: CheckedText | null; readonly wish: Wish; readonly content: Content } | null =
    null;
  let judged: Judged = { present: null, study: null, findings: [], limits: [] };
  const tablesOf = createTables();
  const shownLimits = createShownLimits();
  return (shown, wish, besides) => {
    const { heading, present, study } = shown;
    if (judged.present !== present || judged.study !== study)
      judged = {
        present,
        study,
        findings: present === null ? [] : keptItems(judged.findings, shownFindings(present)),
        limits: study === null ? [] : shownLimits(study),
      };
    const { findings, limits } = judged;
    if (drawn?.study !== study || drawn.wish !== wish)
      drawn = { study, wish, content: contentOf(study, wish, tablesOf) };
    const { problem, ...content } = drawn.content;
    return {
      heading,
      notice: problem === null ? shown.notice : { ...words.undrawable(problem), places: [] },
      controls: {
        wish,
        phases: study?.winding?.phases.names ?? [],
        paths: study === null ? 0 : pathsOf(study),
        layers: study?.winding?.layers ?? 0,
      },
      ...content,
      findings,
      limits,
      ...besides,
    };
  };
}

/** What is found in the present text, and how the drawn winding stands to its limits. */
interface Judged extends Pick<PanelState, 'findings' | 'limits'>, Pick<Shown, 'present' | 'study'> {}

type Tables = Pick<PanelState, 'figures' | 'factors'>;

/**
 * Key figures and factors of facts. Texts with the same figures share the very functions that give them
 * (`core/facts/kept.ts`), and get the same lists then; of others what is told alike stays itself, too. So nothing is
 * looked for that changed in them.
 */
function createTables(): (facts: Facts) => Tables {
  const made = new WeakMap<Facts['emf'], Tables>();
  let last: Tables = { figures: [], factors: [] };
  return (facts) => {
    const known = made.get(facts.emf);
    if (known !== undefined) return known;
    const speech = engineSpeech();
    last = {
      figures: keptItems(last.figures, designFigures(facts, speech)),
      factors: keptItems(last.factors, factorTableRows(facts, speech)),
    };
    made.set(facts.emf, last);
    return last;
  };
}

function contentOf(study: CheckedText | null, wish: Wish, tablesOf: (facts: Facts) => Tables): Content {
  if (!study?.facts) return { view: null, figures: [], factors: [], problem: null };
  const tables = tablesOf(study.facts);
  try {
    return { view: drawShown(study, wish), ...tables, problem: null };
  } catch (error) {
    return { view: null, ...tables, problem: error instanceof Error ? error.message : String(error) };
  }
}

/** Parallel paths of a phase that can be told apart; 0 where bars are not joined. */
function pathsOf({ facts }: CheckedText): number {
  return facts?.connection.kind === 'connected' ? facts.winding.parallelPaths : 0;
}

function noticeOf(study: CheckedText, { stamp, headline }: Words, words: NoticeWords): PanelNotice {
  const names = findingPlaces(study.findings);
  const errors = study.findings.flatMap((finding, index) =>
    finding.severity === 'error' ? [{ finding, place: names[index]! }] : [],
  );
  // Limits that cannot be computed follow from the others, as a rule.
  const causes = errors.filter(({ finding }) => finding.code !== 'limit-not-computable');
  const places = (causes.length > 0 ? causes : errors)
    .slice(0, placesShown)
    .map(({ finding, place }) => placeOf(finding, place, study.text, words));
  const left = errors.length - places.length;
  const sentence = left > 0 ? `${headline} ${words.more(left)}` : headline;
  return { stamp, headline: sentence, places };
}

function placeOf(finding: Finding, place: string, text: string, words: NoticeWords): Place {
  return { text: words.line(lineAt(text, finding.range.start), findingWords(finding)), place };
}

/** The number of the line, from 1, on which the offset lies. */
function lineAt(text: string, offset: number): number {
  return text.slice(0, offset).split('\n').length;
}
