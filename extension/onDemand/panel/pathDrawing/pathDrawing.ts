import type { TextDocument } from 'vscode';
import {
  type Drawing,
  drawnPaths,
  endPath,
  freeKept,
  stepBack,
  takeBar,
  unusedBars,
} from '../../../../core/drawnPaths/drawing.ts';
import { pathChanges, withDrawn } from '../../../../core/drawnPaths/writeDrawn.ts';
import type { CheckedText } from '../../../../core/findings/checkedText.ts';
import { valueOrDefault } from '../../../../core/language/specification/defaults.ts';
import { barStatements } from '../../../../core/language/vocabulary/blocks/copper.ts';
import { barName, type Path, sameBar } from '../../../../core/winding/model.ts';
import { changeInSight } from '../../../edits.ts';
import type { Studies } from '../../../engine/studies.ts';
import type { PanelMarks, ShownDrawing } from '../../../protocol/shownParts.ts';
import type { DrawAct, Subject } from '../../../protocol/subject.ts';
import { l10n } from '../../../wording.ts';
import type { Shown } from '../content.ts';
import { barOf, beginJoint, beginPaths, beginText, goOn } from './begin.ts';
import {
  changedJoint,
  countOffers,
  type JointStanding,
  offersOf,
  type PathStanding,
  phaseOf,
  type Standing,
  type Trial,
  trialOf,
} from './standing.ts';
import { takenWords } from './words.ts';

/** What a drawing by hand needs of its panel. */
export interface DrawingHooks {
  /** The open document of the text that the panel shows. */
  readonly document: () => TextDocument | undefined;
  /** Index of the phase that stands out in the panel, else 0. */
  readonly phase: () => number;
  readonly studies: Studies;
  /** There is something else to show. */
  readonly changed: () => void;
  /** It is over, with what came of it. */
  readonly ended: (words: string) => void;
}

/** Paths and joints of one panel's text, drawn by hand. Nothing is written before the reader says so. */
export interface PathDrawing {
  readonly answer: (act: DrawAct, subject: Subject | null, by: number) => Promise<void>;
  /** The text has been checked again; one that has changed ends the drawing. */
  readonly follow: (study: CheckedText | null) => void;
  /** What the panel shows, with the paths as they are drawn by now. */
  readonly tried: (shown: Shown) => Shown;
  readonly shown: () => ShownDrawing | null;
  /** What stands out meanwhile; null while nothing is drawn. */
  readonly marks: () => PanelMarks | null;
}

/** No drawing yet. */
export function createPathDrawing(hooks: DrawingHooks): PathDrawing {
  let standing: Standing | null = null;
  /** A drawing that was left with bars in it, and its text. */
  let left: { readonly text: string; readonly drawing: Drawing } | null = null;
  let trial: { readonly of: Standing; readonly made: Trial } | null = null;

  const enter = (next: Standing | null) => {
    standing = next;
    hooks.changed();
  };
  const end = (words: string) => {
    enter(null);
    hooks.ended(words);
  };
  const begin = () => beginText(hooks.document(), hooks.studies, hooks.ended);
  const startPaths = async (subject: Subject | null, anew: boolean) => {
    const text = await begin();
    if (text === null) return;
    const bar = barOf(text, subject);
    enter(goOn(text, left, bar) ?? beginPaths(text, { bar, phase: hooks.phase(), anew }));
  };
  const startJoint = async (subject: Subject | null) => {
    const text = await begin();
    const next = text && subject && beginJoint(text, subject);
    if (next !== null) enter(next);
  };
  /** Writes the paths of a phase into the text, which ends the drawing. */
  const write = async (of: Standing, paths: readonly Path[], phase: number) => {
    const document = hooks.document();
    if (document === undefined) return;
    const { source, study } = of;
    // From here on a change of the text is this one.
    standing = null;
    left = null;
    const all = withDrawn(source.winding, source.connection, source.paths, phase, paths);
    const changes = pathChanges(study.document, source.winding, source.written, all);
    if (document.getText() !== study.text) end(textChanged());
    else if (changes.length === 0) end(l10n.t('Nothing to write: the text has these paths already.'));
    else if (await changeInSight(document, changes)) {
      const name = source.winding.phases.names[phase] ?? '';
      end(l10n.t('Written: the paths of {0}. Undo in the text takes it back.', name));
    } else end(l10n.t('The editor refused the change: nothing was written.'));
  };
  const takePartner = async (of: JointStanding, subject: Subject | null) => {
    const partner = subject === null ? of.partners[of.marked]?.bar : barOf(of, subject);
    if (subject !== null && !partner) return;
    const phase = phaseOf(of);
    const next = partner ? changedJoint(of, partner) : null;
    if (next === null) enter({ ...of, said: l10n.t('The joint cannot lead to that bar.') });
    else
      await write(
        of,
        next.paths.filter((path) => path.phase === phase),
        phase,
      );
  };
  const takeNext = (of: PathStanding, subject: Subject | null) => {
    const offers = offersOf(of.drawing);
    const bar = subject === null ? offers[of.marked]?.bar : barOf(of, subject);
    if (!bar) return;
    const drawing = takeBar(of.drawing, bar);
    if (drawing === null) {
      enter({ ...of, said: l10n.t('{0} cannot follow here.', barName(bar)) });
      return;
    }
    const made = offers.find((each) => sameBar(each.bar, bar))?.made ?? null;
    enter({ ...of, drawing, marked: 0, said: takenWords(drawing, made) });
  };
  /** Ends the path that is drawn; where none is left to draw, writes them all. */
  const finish = async (of: PathStanding) => {
    const { drawing, source } = of;
    const { bars, number } = drawing.current;
    if (isHairpin(of.study) && bars.length % 2 === 1) {
      const said = l10n.t(
        'A path of hairpins ends on the connection side: take one more bar, or go a step back.',
      );
      enter({ ...of, said });
      return;
    }
    const next = endPath(drawing);
    if (bars.length > 0 && unusedBars(next).length > 0) {
      const said = l10n.t('Path {0} ends.', `${source.winding.phases.names[drawing.phase]} ${number}`);
      enter({ ...of, drawing: next, marked: 0, said });
    } else if (drawnPaths(next).length === 0) leave(of);
    else await write(of, drawnPaths(next), drawing.phase);
  };
  const leave = (of: Standing) => {
    if (of.kind === 'path' && (of.drawing.done.length > 0 || of.drawing.current.bars.length > 1)) {
      left = { text: of.study.text, drawing: of.drawing };
      end(l10n.t('The drawing was left; nothing was written. D goes on with it.'));
    } else end(l10n.t('Nothing was written.'));
  };
  const moveMark = (of: Standing, by: number) => {
    const count = countOffers(of);
    if (count > 0) enter({ ...of, marked: (of.marked + by + count) % count, said: '' });
  };
  const freeAll = (of: PathStanding) => {
    const said = of.drawing.kept.length > 0 ? l10n.t('All paths of the phase are drawn anew.') : '';
    enter({ ...of, drawing: freeKept(of.drawing), marked: 0, said });
  };
  const goBack = (of: PathStanding) => {
    const drawing = stepBack(of.drawing);
    if (drawing === null) enter({ ...of, said: l10n.t('There is no step to take back.') });
    else enter({ ...of, drawing, marked: 0, said: l10n.t('A step back.') });
  };
  const answer = async (act: DrawAct, subject: Subject | null, by: number): Promise<void> => {
    if (act === 'path' || act === 'phase') return startPaths(subject, act === 'phase');
    if (act === 'joint') return startJoint(subject);
    if (standing === null) return;
    if (act === 'mark') return moveMark(standing, by);
    if (act === 'leave') return leave(standing);
    if (standing.kind === 'joint') {
      if (act === 'take') return takePartner(standing, subject);
      return act === 'end' ? takePartner(standing, null) : leave(standing);
    }
    switch (act) {
      case 'take':
        return takeNext(standing, subject);
      case 'end':
        return finish(standing);
      case 'all':
        return freeAll(standing);
      case 'back':
        return goBack(standing);
    }
  };
  const made = (of: Standing): Trial => {
    if (trial?.of !== of) trial = { of, made: trialOf(of) };
    return trial.made;
  };
  return {
    answer,
    follow: (study) => {
      if (standing === null) return;
      if (study === null || study.text !== standing.study.text) {
        standing = null;
        hooks.ended(textChanged());
      } else if (study !== standing.study) standing = { ...standing, study };
    },
    tried: (shown) => {
      if (standing === null || shown.study !== standing.study) return shown;
      const notice = { stamp: l10n.t('Drawing by hand'), headline: '', places: [] };
      return { ...shown, study: made(standing).study, notice };
    },
    shown: () => standing && made(standing).view,
    marks: () => standing && made(standing).marks,
  };
}

function isHairpin({ specification }: CheckedText): boolean {
  return valueOrDefault(barStatements, specification.bar, 'form') === 'hairpin';
}

function textChanged(): string {
  return l10n.t('The text changed: the drawing was left, and nothing was written.');
}
