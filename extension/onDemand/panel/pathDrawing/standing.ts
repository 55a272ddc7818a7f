import { type ChangedPaths, changeJoint, type JointPlace } from '../../../../core/drawnPaths/changeJoint.ts';
import { barsToTake, type Drawing, drawnPaths, firstBars } from '../../../../core/drawnPaths/drawing.ts';
import type { MadeJoint, NextBar } from '../../../../core/drawnPaths/nextBars.ts';
import type { DrawingSource } from '../../../../core/drawnPaths/source.ts';
import { unfinishedConnection } from '../../../../core/facts/connection.ts';
import type { CheckedText } from '../../../../core/findings/checkedText.ts';
import { type Bar, barName, type Path } from '../../../../core/winding/model.ts';
import { nothingMarked, type PanelMarks, type ShownDrawing } from '../../../protocol/shownParts.ts';
import { changeLines, changeWords, standingLines, waitsFor } from './words.ts';

/** The text that is drawn on, and how its drawing stands. */
export interface DrawnText {
  readonly study: CheckedText;
  readonly source: DrawingSource;
  /** Index of the bar that a key takes, among those that can be taken. */
  readonly marked: number;
  /** What was done last. */
  readonly said: string;
}

/** Paths that are drawn. */
export interface PathStanding extends DrawnText {
  readonly kind: 'path';
  readonly drawing: Drawing;
}

/** A joint that is to lead elsewhere. */
export interface JointStanding extends DrawnText {
  readonly kind: 'joint';
  readonly place: JointPlace;
  readonly partners: readonly NextBar[];
}

/** How a drawing by hand stands. */
export type Standing = PathStanding | JointStanding;

/** What a panel shows of a drawing. */
export interface Trial {
  /** The winding with its paths as they are drawn by now. */
  readonly study: CheckedText;
  readonly view: ShownDrawing;
  readonly marks: PanelMarks;
}

/** Index of the phase that is drawn. */
export function phaseOf(standing: Standing): number {
  return standing.kind === 'path'
    ? standing.drawing.phase
    : standing.source.paths[standing.place.path]!.phase;
}

/** All paths with the joint leading to another partner; null where it cannot. */
export function changedJoint({ source, place }: JointStanding, partner: Bar): ChangedPaths | null {
  return changeJoint(source.base, source.paths, place, partner);
}

/** The bars that can be taken: those a path may start with, or that may follow. */
export function offersOf(
  drawing: Drawing,
): readonly { readonly bar: Bar; readonly made: MadeJoint | null }[] {
  return drawing.current.bars.length === 0
    ? firstBars(drawing).map((bar) => ({ bar, made: null }))
    : barsToTake(drawing).map((next) => ({ bar: next.bar, made: next }));
}

/** How many bars can be taken. */
export function countOffers(standing: Standing): number {
  return standing.kind === 'path' ? offersOf(standing.drawing).length : standing.partners.length;
}

/** What the panel shows of it. */
export function trialOf(standing: Standing): Trial {
  const { study, source } = standing;
  const paths = triedPaths(standing);
  const growing = standing.kind === 'path' ? paths.indexOf(standing.drawing.current) : -1;
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
    // What was drawn of the text's own paths is another drawing.
    drawn: <T>(_: string, draw: () => T) => draw(),
  };
  const lit = growing < 0 ? [] : connection.joints().joints.filter(({ path }) => path === growing);
  const view = standing.kind === 'path' ? drawingView(standing) : jointView(standing);
  const bars =
    standing.kind === 'path' ? standing.drawing.current.bars : [barBefore(standing.source, standing.place)];
  return {
    study: { ...study, facts },
    view,
    marks: {
      ...nothingMarked,
      bars: bars.map(barName),
      joints: lit.map(({ number }) => number),
      chosen: view.next[standing.marked]?.bar ?? null,
    },
  };
}

/** All paths of the winding as they would be. */
function triedPaths(standing: Standing): readonly Path[] {
  const { source } = standing;
  if (standing.kind === 'path') {
    const { phase } = standing.drawing;
    return [...source.paths.filter((path) => path.phase !== phase), ...drawnPaths(standing.drawing)];
  }
  const partner = standing.partners[standing.marked]?.bar;
  return (partner && changedJoint(standing, partner)?.paths) || source.paths;
}

/** The bar that stays where a joint is changed. */
function barBefore({ paths }: DrawingSource, place: JointPlace): Bar {
  return paths[place.path]!.bars[place.position]!;
}

function jointView(standing: JointStanding): ShownDrawing {
  const { said, marked, source, place, partners } = standing;
  const phase = phaseOf(standing);
  const partner = partners[marked]!;
  const next = changedJoint(standing, partner.bar);
  return {
    phase,
    words: sentences(said, changeWords(source.paths, place, partner, marked, partners.length)),
    lines: changeLines(source, next, phase),
    next: partners.map(({ bar, kind }) => ({ bar: barName(bar), kind })),
    marked,
    joint: true,
  };
}

function drawingView({ said, marked, drawing }: PathStanding): ShownDrawing {
  return {
    phase: drawing.phase,
    words: sentences(said, waitsFor(drawing, marked)),
    lines: standingLines(drawing),
    next: offersOf(drawing).map(({ bar, made }) => ({ bar: barName(bar), kind: made?.kind ?? 'regular' })),
    marked,
    joint: false,
  };
}

/** Sentences one after the other, empty ones left out. */
export function sentences(...all: readonly string[]): string {
  return all.filter(Boolean).join(' ');
}
