import { type TextDocument, WorkspaceEdit, window, workspace } from 'vscode';
import {
  type ChangedPaths,
  changeJoint,
  type JointPlace,
  otherPartners,
} from '../../../../core/drawnPaths/changeJoint.ts';
import {
  barsToTake,
  beginDrawing,
  type Drawing,
  drawnPaths,
  endPath,
  firstBars,
  freeKept,
  stepBack,
  takeBar,
  unusedBars,
} from '../../../../core/drawnPaths/drawing.ts';
import type { MadeJoint, NextBar } from '../../../../core/drawnPaths/nextBars.ts';
import { type DrawingSource, drawingSource } from '../../../../core/drawnPaths/source.ts';
import { followersOf, pathChanges, withDrawn } from '../../../../core/drawnPaths/writeDrawn.ts';
import { unfinishedConnection } from '../../../../core/facts/connection.ts';
import type { CheckedText } from '../../../../core/findings/checkedText.ts';
import { valueOrDefault } from '../../../../core/language/specification/defaults.ts';
import { barStatements } from '../../../../core/language/vocabulary/blocks/copper.ts';
import { type Bar, barName, cellAt, type Path, phaseOfCell } from '../../../../core/winding/model.ts';
import type { Studies } from '../../../engine/studies.ts';
import { nothingMarked, type PanelMarks, type ShownDrawing } from '../../../protocol/shownParts.ts';
import type { DrawAct, Subject } from '../../../protocol/subject.ts';
import { l10n } from '../../../wording.ts';
import { barNamed, barUse, connectionOf } from '../../barUse.ts';
import { editorRange } from '../../reveal.ts';
import type { Shown } from '../content.ts';
import { changeLines, changeWords, noDrawingWords, standingLines, takenWords, waitsFor } from './words.ts';

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

interface Common {
  readonly study: CheckedText;
  readonly source: DrawingSource;
  readonly marked: number;
  /** What was done last. */
  readonly said: string;
}

type State =
  | (Common & { readonly kind: 'path'; readonly drawing: Drawing })
  | (Common & { readonly kind: 'joint'; readonly place: JointPlace; readonly partners: readonly NextBar[] });

/** No drawing yet. */
export function createPathDrawing(hooks: DrawingHooks): PathDrawing {
  let state: State | null = null;
  /** A drawing that was left with bars in it, and its text. */
  let left: { readonly text: string; readonly drawing: Drawing } | null = null;
  let trial: {
    readonly of: State;
    readonly study: CheckedText;
    readonly view: ShownDrawing;
    readonly marks: PanelMarks;
  } | null = null;

  const enter = (next: State | null) => {
    state = next;
    hooks.changed();
  };
  const end = (words: string) => {
    enter(null);
    hooks.ended(words);
  };
  const say = (said: string) => {
    if (state !== null) enter({ ...state, said });
  };
  /** The text of now, with its found paths written out; null, and a word about it, where nothing can be drawn. */
  const begin = async (): Promise<(Common & { readonly told: string }) | null> => {
    const document = hooks.document();
    if (document === undefined) return null;
    let study = hooks.studies.of(document);
    let source = drawingSource(study);
    let told = '';
    if (source === 'pending') {
      hooks.ended(l10n.t('The paths are still being found; the drawing begins when they are there.'));
      study = await whenFound(document, hooks.studies);
      source = drawingSource(study);
    }
    if (source === 'found') {
      const edit = study.writeOutPaths();
      if (edit !== null) await applied(document, [edit]);
      study = hooks.studies.of(document);
      source = drawingSource(study);
      told = l10n.t('The found paths were written into the text first; undo in the text takes that back.');
    }
    if (typeof source !== 'string') return { study, source, marked: 0, said: told, told };
    window.showInformationMessage(noDrawingWords(source === 'found' ? 'errors' : source));
    return null;
  };
  const startPath = async (subject: Subject | null, whole: boolean) => {
    const common = await begin();
    if (common === null) return;
    const { study, source, told } = common;
    const { winding, base, connection } = source;
    const bar = subject !== null && 'bar' in subject ? barNamed(winding, subject.bar) : null;
    const cell = bar === null ? 0 : cellAt(winding.table, bar.slot, bar.layer);
    if (
      left !== null &&
      left.text === study.text &&
      (bar === null || sameBar(bar, left.drawing.current.bars.at(-1)))
    ) {
      const said = l10n.t('Going on with the drawing that was left.');
      enter({ kind: 'path', study, source, drawing: left.drawing, marked: 0, said });
      return;
    }
    const phase = cell === 0 ? Math.min(hooks.phase(), winding.phases.names.length - 1) : phaseOfCell(cell);
    const own = source.paths.filter((path) => path.phase === phase);
    const holder = bar && own.find(({ bars }) => bars.some((each) => sameBar(each, bar)));
    const numbers = own.map(({ number }) => number);
    const all =
      own.length > 0 ? numbers : Array.from({ length: winding.parallelPaths }, (_, index) => index + 1);
    const free = own.length > 0 ? [Math.max(...numbers) + 1] : all;
    const anew = whole || bar === null ? all : holder ? [holder.number] : free;
    const drawing = beginDrawing(base, connection, phase, own, anew);
    const started = bar && cell > 0 ? takeBar(drawing, bar) : null;
    const said =
      started !== null
        ? takenWords(started, null)
        : bar !== null && cell < 0
          ? l10n.t('{0} leads back to the connection side, so no path starts with it.', barName(bar))
          : '';
    const first = started ?? drawing;
    const followers = followersOf(winding, source.paths, phase).map(
      (each) => winding.phases.names[each.phase],
    );
    const follow =
      followers.length > 0
        ? l10n.t('{0} follow, as copies of {1}.', followers.join(', '), winding.phases.names[phase] ?? '')
        : '';
    const kept = first.kept.length > 0 ? l10n.t('The other paths keep their bars; A frees them.') : '';
    enter({
      kind: 'path',
      study,
      source,
      drawing: first,
      marked: 0,
      said: [told, said, kept, follow].filter(Boolean).join(' '),
    });
  };
  const startJoint = async (subject: Subject | null) => {
    const common = await begin();
    if (common === null || subject === null) return;
    const { study, source, told } = common;
    const place = placeOfJoint(study, subject);
    if (place === null) {
      window.showInformationMessage(
        l10n.t('No joint of a path leads on from there: choose a joint, or the bar before it.'),
      );
      return;
    }
    const partners = otherPartners(source.base, source.paths, place);
    if (partners.length === 0) {
      window.showInformationMessage(l10n.t('There is no other bar that this joint could lead to.'));
      return;
    }
    enter({ kind: 'joint', study, source, place, partners, marked: 0, said: told });
  };
  const write = async (next: readonly Path[], phase: number) => {
    const from = state;
    const document = hooks.document();
    if (from === null || document === undefined) return;
    const { source, study } = from;
    state = null;
    left = null;
    const all = withDrawn(source.winding, source.connection, source.paths, phase, next);
    const changes = pathChanges(study.document, source.winding, source.written, all);
    if (document.getText() !== study.text) {
      end(textChanged());
      return;
    }
    if (changes.length > 0 && !(await applied(document, changes))) {
      end(l10n.t('The editor refused the change: nothing was written.'));
      return;
    }
    const name = source.winding.phases.names[phase] ?? '';
    end(
      changes.length === 0
        ? l10n.t('Nothing to write: the text has these paths already.')
        : l10n.t('Written: the paths of {0}. Undo in the text takes it back.', name),
    );
  };
  const take = async (subject: Subject | null) => {
    if (state === null) return;
    const wanted =
      subject === null ? null : 'bar' in subject ? barNamed(state.source.winding, subject.bar) : null;
    if (subject !== null && wanted === null) return;
    const { marked } = state;
    if (state.kind === 'joint') {
      const partner = wanted ?? state.partners[marked]?.bar;
      const next = partner ? changed(state, partner) : null;
      if (next === null) say(l10n.t('The joint cannot lead to that bar.'));
      else await write(ofPhase(next.paths, phaseOf(state)), phaseOf(state));
      return;
    }
    const { drawing } = state;
    const offers = offersOf(drawing);
    const bar = wanted ?? offers[marked]?.bar;
    const next = bar ? takeBar(drawing, bar) : null;
    if (next === null) {
      if (bar) say(l10n.t('{0} cannot follow here.', barName(bar)));
      return;
    }
    const made = offers.find((each) => sameBar(each.bar, bar))?.made ?? null;
    enter({ ...state, drawing: next, marked: 0, said: takenWords(next, made) });
  };
  const finish = async () => {
    if (state?.kind === 'joint') return take(null);
    if (state === null) return;
    const { drawing, source } = state;
    const hairpins = valueOrDefault(barStatements, state.study.specification.bar, 'form') === 'hairpin';
    const { bars } = drawing.current;
    if (hairpins && bars.length % 2 === 1) {
      say(l10n.t('A path of hairpins ends on the connection side: take one more bar, or go a step back.'));
      return;
    }
    const next = endPath(drawing);
    if (bars.length > 0 && unusedBars(next).length > 0) {
      const words = l10n.t(
        'Path {0} ends.',
        `${source.winding.phases.names[drawing.phase]} ${drawing.current.number}`,
      );
      enter({ ...state, drawing: next, marked: 0, said: words });
      return;
    }
    if (drawnPaths(next).length === 0) leave();
    else await write(drawnPaths(next), drawing.phase);
  };
  const leave = () => {
    if (state?.kind === 'path' && (state.drawing.done.length > 0 || state.drawing.current.bars.length > 1)) {
      left = { text: state.study.text, drawing: state.drawing };
      end(l10n.t('The drawing was left; nothing was written. D goes on with it.'));
    } else end(l10n.t('Nothing was written.'));
  };
  const made = (of: State) => {
    if (trial?.of === of) return trial;
    const { study, source } = of;
    const paths = tryPaths(of);
    const growing = of.kind === 'path' ? paths.indexOf(of.drawing.current) : -1;
    const connection = unfinishedConnection(
      study.specification,
      source.winding,
      source.connection,
      paths,
      source.base.bends,
      growing < 0 ? null : growing,
    );
    const facts = study.facts && {
      ...study.facts,
      connection: { kind: 'connected' as const, facts: connection },
    };
    const lit = of.kind === 'path' ? connection.joints().joints.filter(({ path }) => path === growing) : [];
    trial = {
      of,
      study: { ...study, facts },
      view: viewOf(of),
      marks: {
        ...nothingMarked,
        bars: of.kind === 'path' ? of.drawing.current.bars.map(barName) : [barName(barBefore(of))],
        joints: lit.map(({ number }) => number),
        chosen: viewOf(of).next[of.marked]?.bar ?? null,
      },
    };
    return trial;
  };
  return {
    answer: async (act, subject, by) => {
      if (act === 'path' || act === 'phase') return startPath(subject, act === 'phase');
      if (act === 'joint') return startJoint(subject);
      if (state === null) return;
      if (act === 'take') return take(subject);
      if (act === 'end') return finish();
      if (act === 'leave') return leave();
      if (act === 'mark') {
        const count = viewOf(state).next.length;
        if (count > 0) enter({ ...state, marked: (state.marked + by + count) % count, said: '' });
        return;
      }
      if (state.kind === 'joint') return leave();
      const { drawing } = state;
      if (act === 'all') {
        const said = drawing.kept.length > 0 ? l10n.t('All paths of the phase are drawn anew.') : '';
        enter({ ...state, drawing: freeKept(drawing), marked: 0, said });
        return;
      }
      const back = stepBack(drawing);
      if (back === null) say(l10n.t('There is no step to take back.'));
      else enter({ ...state, drawing: back, marked: 0, said: l10n.t('A step back.') });
    },
    follow: (study) => {
      if (state === null) return;
      if (study === null || study.text !== state.study.text) {
        state = null;
        hooks.ended(textChanged());
      } else if (study !== state.study) state = { ...state, study };
    },
    tried: (shown) => {
      if (state === null || shown.study !== state.study) return shown;
      const notice = { stamp: l10n.t('Drawing by hand'), headline: '', places: [] };
      return { ...shown, study: made(state).study, notice };
    },
    shown: () => (state === null ? null : made(state).view),
    marks: () => (state === null ? null : made(state).marks),
  };
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

function textChanged(): string {
  return l10n.t('The text changed: the drawing was left, and nothing was written.');
}

function sameBar(one: Bar, other: Bar | undefined): boolean {
  return other !== undefined && one.slot === other.slot && one.layer === other.layer;
}

function ofPhase(paths: readonly Path[], phase: number): readonly Path[] {
  return paths.filter((path) => path.phase === phase);
}

function phaseOf(state: State): number {
  return state.kind === 'path' ? state.drawing.phase : state.source.paths[state.place.path]!.phase;
}

/** The bar that stays where a joint is changed. */
function barBefore({ source, place }: Extract<State, { kind: 'joint' }>): Bar {
  return source.paths[place.path]!.bars[place.position]!;
}

function changed({ source, place }: Extract<State, { kind: 'joint' }>, partner: Bar): ChangedPaths | null {
  return changeJoint(source.base, source.paths, place, partner);
}

/** The bars that can be taken: those a path may start with, or that may follow. */
function offersOf(drawing: Drawing): readonly { readonly bar: Bar; readonly made: MadeJoint | null }[] {
  return drawing.current.bars.length === 0
    ? firstBars(drawing).map((bar) => ({ bar, made: null }))
    : barsToTake(drawing).map((next) => ({ bar: next.bar, made: next }));
}

/** All paths of the winding as they would be. */
function tryPaths(state: State): readonly Path[] {
  const { source } = state;
  if (state.kind === 'path') {
    const { phase } = state.drawing;
    return [...source.paths.filter((path) => path.phase !== phase), ...drawnPaths(state.drawing)];
  }
  const partner = state.partners[state.marked]?.bar;
  return (partner && changed(state, partner)?.paths) || source.paths;
}

function viewOf(state: State): ShownDrawing {
  const { said, marked } = state;
  if (state.kind === 'joint') {
    const { source, place, partners } = state;
    const partner = partners[marked]!;
    const next = changed(state, partner.bar);
    return {
      phase: phaseOf(state),
      words: [said, changeWords(source.paths, place, partner, marked, partners.length)]
        .filter(Boolean)
        .join(' '),
      lines: changeLines(source, next, phaseOf(state)),
      next: partners.map(({ bar, kind }) => ({ bar: barName(bar), kind })),
      marked,
      joint: true,
    };
  }
  const { drawing } = state;
  return {
    phase: drawing.phase,
    words: [said, waitsFor(drawing, marked)].filter(Boolean).join(' '),
    lines: standingLines(drawing),
    next: offersOf(drawing).map(({ bar, made }) => ({ bar: barName(bar), kind: made?.kind ?? 'regular' })),
    marked,
    joint: false,
  };
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

/** Makes all changes of a text as one edit, which one undo takes back. */
async function applied(
  document: TextDocument,
  changes: readonly {
    readonly range: { readonly start: number; readonly end: number };
    readonly text: string;
  }[],
): Promise<boolean> {
  const edit = new WorkspaceEdit();
  for (const { range, text } of changes) edit.replace(document.uri, editorRange(document, range), text);
  return workspace.applyEdit(edit);
}
