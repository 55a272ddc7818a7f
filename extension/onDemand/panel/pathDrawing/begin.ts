import { type TextDocument, window } from 'vscode';
import { type JointPlace, otherPartners } from '../../../../core/drawnPaths/changeJoint.ts';
import { beginDrawing, type Drawing, takeBar } from '../../../../core/drawnPaths/drawing.ts';
import { drawingSource } from '../../../../core/drawnPaths/source.ts';
import { followersOf } from '../../../../core/drawnPaths/writeDrawn.ts';
import type { CheckedText } from '../../../../core/findings/checkedText.ts';
import { type Bar, barName, cellAt, phaseOfCell, sameBar } from '../../../../core/winding/model.ts';
import { changeText } from '../../../edits.ts';
import type { Studies } from '../../../engine/studies.ts';
import type { Subject } from '../../../protocol/subject.ts';
import { l10n } from '../../../wording.ts';
import { barNamed, barUse, connectionOf } from '../../barUse.ts';
import { type DrawnText, type JointStanding, type PathStanding, sentences } from './standing.ts';
import { noDrawingWords, takenWords } from './words.ts';

/**
 * The text of now, with its found paths written out, which `said` tells; null, and a word about it, where nothing can
 * be drawn. `waits` hears why nothing happens while paths are still being found.
 */
export async function beginText(
  document: TextDocument | undefined,
  studies: Studies,
  waits: (words: string) => void,
): Promise<DrawnText | null> {
  if (document === undefined) return null;
  let study = studies.of(document);
  let source = drawingSource(study);
  let said = '';
  if (source === 'pending') {
    waits(l10n.t('The paths are still being found; the drawing begins when they are there.'));
    study = await whenFound(document, studies);
    source = drawingSource(study);
  }
  if (source === 'found') {
    const edit = study.writeOutPaths();
    if (edit !== null) await changeText(document, [edit]);
    study = studies.of(document);
    source = drawingSource(study);
    said = l10n.t('The found paths were written into the text first; undo in the text takes that back.');
  }
  if (typeof source !== 'string') return { study, source, marked: 0, said };
  window.showInformationMessage(noDrawingWords(source === 'found' ? 'errors' : source));
  return null;
}

/** The study of a text once its paths are found, or it has changed. */
function whenFound(document: TextDocument, studies: Studies): Promise<CheckedText> {
  const { version } = document;
  return new Promise((resolve) => {
    const end = studies.onFound((found) => {
      const isIt = found === document;
      if (!isIt || (document.version === version && studies.of(document).pending)) return;
      end();
      resolve(studies.of(document));
    });
  });
}

/** Which paths are to be drawn. */
interface WantedPaths {
  /** The bar at which the drawing begins; null where the reader takes it first. */
  readonly bar: Bar | null;
  /** Index of the phase where no bar tells it. */
  readonly phase: number;
  /** All paths of the phase are drawn anew. */
  readonly anew: boolean;
}

/** The bar that a subject is; null for any other subject, or none. */
export function barOf({ source }: DrawnText, subject: Subject | null): Bar | null {
  return subject !== null && 'bar' in subject ? barNamed(source.winding, subject.bar) : null;
}

/** Goes on with a drawing that was left, where it is of the same text and nothing else is asked for; else null. */
export function goOn(
  text: DrawnText,
  left: { readonly text: string; readonly drawing: Drawing } | null,
  bar: Bar | null,
): PathStanding | null {
  if (left?.text !== text.study.text) return null;
  if (bar !== null && !sameBar(bar, left.drawing.current.bars.at(-1))) return null;
  const said = l10n.t('Going on with the drawing that was left.');
  return { ...text, kind: 'path', drawing: left.drawing, said };
}

/** Begins to draw paths. */
export function beginPaths(text: DrawnText, wanted: WantedPaths): PathStanding {
  const { source, said } = text;
  const { winding, base, connection } = source;
  const { bar } = wanted;
  const cell = bar === null ? 0 : cellAt(winding.table, bar.slot, bar.layer);
  const phase = cell === 0 ? Math.min(wanted.phase, winding.phases.names.length - 1) : phaseOfCell(cell);
  const own = source.paths.filter((path) => path.phase === phase);
  const empty = beginDrawing(base, connection, phase, own, numbersToDraw(text, phase, wanted));
  const started = bar && cell > 0 ? takeBar(empty, bar) : null;
  const drawing = started ?? empty;
  const taken = started && takenWords(started, null);
  const away =
    bar !== null && cell < 0
      ? l10n.t('{0} leads back to the connection side, so no path starts with it.', barName(bar))
      : '';
  const kept = drawing.kept.length > 0 ? l10n.t('The other paths keep their bars; A frees them.') : '';
  return {
    ...text,
    kind: 'path',
    drawing,
    said: sentences(said, taken ?? away, kept, followersWords(text, phase)),
  };
}

/**
 * Numbers of the paths that are drawn: all of the phase, or that to which the bar belongs, or a further one for a bar
 * of none.
 */
function numbersToDraw({ source }: DrawnText, phase: number, { bar, anew }: WantedPaths): readonly number[] {
  const own = source.paths.filter((path) => path.phase === phase);
  const all = own.map(({ number }) => number);
  if (all.length === 0) return Array.from({ length: source.winding.parallelPaths }, (_, index) => index + 1);
  if (anew || bar === null) return all;
  const holder = own.find(({ bars }) => bars.some((each) => sameBar(each, bar)));
  return [holder?.number ?? Math.max(...all) + 1];
}

/** Which phases are copies of the one that is drawn; empty where none are. */
function followersWords({ source: { winding, paths } }: DrawnText, phase: number): string {
  const nameOf = (index: number) => winding.phases.names[index] ?? '';
  const followers = followersOf(winding, paths, phase).map((each) => nameOf(each.phase));
  return followers.length > 0
    ? l10n.t('{0} follow, as copies of {1}.', followers.join(', '), nameOf(phase))
    : '';
}

/** Begins to change the joint that a subject is, or that leads on from a bar; null, and a word about it, for none. */
export function beginJoint(text: DrawnText, subject: Subject): JointStanding | null {
  const { study, source } = text;
  const place = placeOfJoint(study, subject);
  if (place === null) {
    window.showInformationMessage(
      l10n.t('No joint of a path leads on from there: choose a joint, or the bar before it.'),
    );
    return null;
  }
  const partners = otherPartners(source.base, source.paths, place);
  if (partners.length > 0) return { ...text, kind: 'joint', place, partners };
  window.showInformationMessage(l10n.t('There is no other bar that this joint could lead to.'));
  return null;
}

/** The joint that a subject is, or that leads on from a bar. */
function placeOfJoint(study: CheckedText, subject: Subject): JointPlace | null {
  const connection = connectionOf(study);
  if (connection === null || study.winding === null) return null;
  if ('joint' in subject) {
    const joint = connection.joints().joints.find(({ number }) => number === subject.joint);
    return joint ? { path: joint.path, position: joint.position } : null;
  }
  const bar = 'bar' in subject ? barNamed(study.winding, subject.bar) : null;
  const place = bar && barUse(study, bar)?.place;
  if (!place || place.index + 1 >= place.path.bars.length) return null;
  return { path: place.pathIndex, position: place.index };
}
