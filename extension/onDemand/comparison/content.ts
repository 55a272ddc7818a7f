import type { Speech } from '../../../core/figures/speech.ts';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { lineColumn, lineStarts } from '../../../core/language/text/lines.ts';
import type { Picture, Primitive } from '../../../core/picture/picture.ts';
import { compare } from '../../../core/review/compare.ts';
import { overlayPicture } from '../../../core/review/overlay.ts';
import type { Comparison } from '../../../core/review/schema.ts';
import { spaceChange } from '../../../core/review/space/spaceChange.ts';
import { details, headline } from '../../../core/review/summary.ts';
import { placeWords } from '../../../core/review/words.ts';
import type { Study } from '../../../core/study.ts';
import { connectedLayout } from '../../../core/views/layout/connectedLayout.ts';
import type { Room } from '../../../core/views/room.ts';
import { foldedSlot } from '../../../core/winding/model.ts';
import type {
  ComparedPlace,
  ComparisonContent,
  ComparisonNotice,
  Difference,
} from '../../protocol/comparisonMessages.ts';
import { findingWords, l10n } from '../../wording.ts';
import { engineSpeech } from '../engineSpeech.ts';
import { noticeWords } from '../panel/words.ts';
import { findingPlaces } from '../places.ts';
import { comparisonTables } from './tables.ts';

/** One of the two texts with what is compared of it. */
export interface StudiedSide {
  readonly source: string;
  readonly name: string;
  readonly about: string;
  /** It cannot be read any more: its texts are those that were known of it. */
  readonly lost: boolean;
  /** The text as it is now. */
  readonly present: CheckedText;
  /** What is compared: the present text, or the last one that could be drawn while the present one is broken. */
  readonly study: Study;
}

/** What the drawings are laid out for: names and numbers are legible on the page of a usual window. */
const room: Room = { width: 200, height: 92 };

/** What the comparison panel shows of two texts. */
export function comparisonContent(old: StudiedSide, now: StudiedSide): ComparisonContent {
  const comparison = compare(old.study, now.study);
  const speech = engineSpeech();
  const pending = old.study.pending || now.study.pending;
  const measuring = old.study.measuring || now.study.measuring;
  const side = ({ source, name, about, study }: StudiedSide, prefix: string) => {
    const { facts, title } = study;
    const picture = facts && connectedLayout(facts, title, { speech, room });
    return { source, name, about, picture: picture && renamed(picture, prefix) };
  };
  const differences = differencesOf(comparison, old.study.winding?.slots ?? 0);
  return {
    kind: 'comparison',
    headline: headline(comparison, 'changed', speech),
    details: [
      ...(pending ? [l10n.t('Paths are being found; joints follow.')] : []),
      ...(measuring
        ? [l10n.t('Bar ends and temperatures are being computed; more limits, numbers and findings follow.')]
        : []),
      ...details(comparison, 'changed', speech),
      ...comparison.notes
        .map(speech.phrase)
        .map((note) => `${note.charAt(0).toUpperCase()}${note.slice(1)}${/[.!?]$/.test(note) ? '' : '.'}`),
    ],
    old: side(old, 'old-'),
    now: side(now, 'new-'),
    notice: noticeOf([old, now]),
    overlay: overlayPicture(old.study, now.study, speech, room),
    ...spaceOf(old.study, now.study, speech),
    differences,
    counted: countedWords(differences.length),
    tables: comparisonTables(comparison),
  };
}

/** Most bars of a winding that are drawn in space here: more would hold up the editor. */
const mostBars = 500;

function spaceOf(old: Study, now: Study, speech: Speech): Pick<ComparisonContent, 'space' | 'noSpace'> {
  const bars = [old, now].map(({ winding }) => (winding ? winding.slots * winding.layers : 0));
  if (Math.max(...bars) > mostBars)
    return {
      space: null,
      noSpace: l10n.t(
        'Windings of more than {0} bars are drawn by the command line: slotwright compare OLD NEW --format svg --view space',
        mostBars,
      ),
    };
  const change = spaceChange(old, now, { coarse: true, speech, room });
  switch (change.kind) {
    case 'changed':
      return { space: renamed(change.picture, 'space-'), noSpace: '' };
    case 'same':
      return { space: null, noSpace: l10n.t('All bars stand in space as they did.') };
    case 'unknown':
      return { space: null, noSpace: l10n.t('Not drawn: {0}.', change.why) };
  }
}

const placesShown = 5;

/** Says of each text that is broken or lost what is compared in its stead, and where its errors are; null where none is. */
function noticeOf(sides: readonly StudiedSide[]): ComparisonNotice | null {
  const broken = sides.filter(({ lost, present }) => lost || isBroken(present));
  if (broken.length === 0) return null;
  const words = noticeWords();
  const old = broken.some(isOutOfDate);
  const places = broken.flatMap(placesOf);
  const left = places.length - placesShown;
  return {
    stamp: (old ? words.outOfDate : words.partly).stamp,
    headline: [...broken.map(brokenWords), ...(left > 0 ? [words.more(left)] : [])].join(' '),
    places: places.slice(0, placesShown),
  };
}

/** Whether a text has no winding that it could stand for. */
export function isBroken({ broken, winding }: CheckedText): boolean {
  return broken || winding === null;
}

/** Whether something older than the present text is compared. */
function isOutOfDate({ lost, present, study }: StudiedSide): boolean {
  return lost || (isBroken(present) && !isBroken(study));
}

function brokenWords(side: StudiedSide): string {
  if (side.lost) return l10n.t('{0} cannot be read any more. Compared is what was known of it.', side.name);
  if (isOutOfDate(side))
    return l10n.t('{0} has errors. Compared is its last winding that could be drawn.', side.name);
  if (side.present.winding === null) return l10n.t('{0} does not yield a winding.', side.name);
  return l10n.t('{0} has errors. Compared is what could be read of it.', side.name);
}

function placesOf({ source, name, lost, present }: StudiedSide): readonly ComparedPlace[] {
  if (lost) return [];
  const names = findingPlaces(present.findings);
  const starts = lineStarts(present.text);
  return present.findings.flatMap((finding, index) => {
    if (finding.severity !== 'error') return [];
    const { line } = lineColumn(starts, finding.range.start);
    const text = l10n.t('{0}, line {1}: {2}', name, line, findingWords(finding));
    return [{ source, place: names[index]!, text }];
  });
}
/** The picture with other ids, so that several can stand on one page. */
function renamed(picture: Picture, prefix: string): Picture {
  const rename = (item: Primitive): Primitive => {
    const id = `${prefix}${item.id}`;
    return item.kind === 'group' ? { ...item, id, items: item.items.map(rename) } : { ...item, id };
  };
  return { ...picture, items: picture.items.map(rename) };
}

/** The changed bars by their slots, then joints and leads that are gone and that are new. */
function differencesOf({ bars, joints, rotation }: Comparison, oldSlots: number): readonly Difference[] {
  const speech = engineSpeech();
  const words = (text: string | null) =>
    text === null ? l10n.t('empty') : placeWords(text, speech).replace('-', '−');
  return [
    ...bars.map(({ bar, old, new: now }) => ({
      words: l10n.t('{0}: {1} → {2}', bar, words(old), words(now)),
      old: { bar: turnedBack(bar, rotation ?? 0, oldSlots) },
      now: { bar },
    })),
    ...joints.removed.map(({ number, from, to }) => ({
      words: l10n.t('Removed: joint {0} from {1} to {2}', number, from, to),
      old: { joint: number },
      now: null,
    })),
    ...joints.added.map(({ number, from, to }) => ({
      words: l10n.t('Added: joint {0} from {1} to {2}', number, from, to),
      old: null,
      now: { joint: number },
    })),
  ];
}

function countedWords(count: number): string {
  if (count === 0) return l10n.t('No bar and no joint differs.');
  return count === 1 ? l10n.t('1 difference') : l10n.t('{0} differences', count);
}

/** A bar's name before slots were renumbered by `rotation`. */
function turnedBack(bar: string, rotation: number, slots: number): string {
  const slot = Number.parseInt(bar, 10);
  if (rotation === 0 || slots === 0) return bar;
  return `${foldedSlot(slot - rotation, slots)}${bar.replace(/^\d+/, '')}`;
}
