import { printable, textWidth } from './fontMetrics.ts';
import type { Emphasis, Group, PathPart, PathShape, Primitive, Role, Subject, Text } from './picture.ts';

/** The optional parts of a primitive. */
export interface Extras {
  readonly subject?: Subject | undefined;
  /** Index of the phase, from 0. */
  readonly phase?: number | undefined;
  /** Number of the path within its phase, from 1. */
  readonly path?: number | undefined;
  readonly source?: string | undefined;
  readonly emphasis?: Emphasis | undefined;
  /** Pixels per millimeter, as `Common.shownFrom`. */
  readonly shownFrom?: number | undefined;
}

/** The optional parts of a line of text. */
export interface TextOptions extends Extras {
  /** Which end of the text stands at its place; the start where it is not said. */
  readonly anchor?: Text['anchor'];
  /** Font size in millimeters; that of ordinary text where it is not said. */
  readonly size?: number;
}

const none: TextOptions = {};

/** Font size of all ordinary text in millimeters: capitals 1.8 mm high, the smallest height of ISO 3098. */
export const textSize = 2.5;

/** Height of one row of ordinary text, its ascent and descent included, in millimeters. */
export const textRow = 3;

/** Distance from the top of a row of ordinary text to its base line. */
export const baseLine = 2.37;

/** A line of text with its width measured; (x, y) is where its base line starts, ends or has its middle. */
export function text(
  id: string,
  role: Role,
  x: number,
  y: number,
  words: string,
  options: TextOptions = none,
): Text {
  const { anchor = 'start', size = textSize } = options;
  const shown = printable(words);
  return {
    kind: 'text',
    id,
    role,
    subject: options.subject,
    phase: options.phase,
    path: options.path,
    source: options.source,
    emphasis: options.emphasis,
    shownFrom: options.shownFrom,
    x,
    y,
    text: shown,
    size,
    anchor,
    width: textWidth(shown, size),
  };
}

/** Font size of a heading over one drawing of several. */
export const headingSize = 3;

/** The heading over a chart or another drawing of several; `top` is where its row begins. */
export function drawingTitle(id: string, left: number, top: number, words: string): Text {
  const base = (baseLine * headingSize) / textSize;
  return text(id, 'chart-title', left, top + base, words, { size: headingSize });
}

/** Words with their width in millimeters as ordinary text. */
export interface MeasuredWords {
  /** Words that can be printed as they are. */
  readonly text: string;
  readonly width: number;
}

/**
 * Ordinary text round its middle whose width is known already: a picture that is drawn at every keystroke has
 * hundreds of bars with the same few names.
 */
export function label(
  id: string,
  role: Role,
  x: number,
  y: number,
  { text: words, width }: MeasuredWords,
  extras: Extras,
): Text {
  return {
    kind: 'text',
    id,
    role,
    subject: extras.subject,
    phase: extras.phase,
    path: extras.path,
    source: extras.source,
    emphasis: extras.emphasis,
    shownFrom: extras.shownFrom,
    x,
    y,
    text: words,
    size: textSize,
    anchor: 'middle',
    width,
  };
}

/** A path of one or more stretches that are stroked. */
export function pathShape(
  id: string,
  role: Role,
  parts: readonly PathPart[],
  extras: Extras = none,
): PathShape {
  return madePath(id, role, parts, extras, false);
}

/** A path of one or more areas that are filled. */
export function filledShape(
  id: string,
  role: Role,
  parts: readonly PathPart[],
  extras: Extras = none,
): PathShape {
  return madePath(id, role, parts, extras, true);
}

function madePath(
  id: string,
  role: Role,
  parts: readonly PathPart[],
  extras: Extras,
  filled: boolean,
): PathShape {
  return {
    kind: 'path',
    id,
    role,
    subject: extras.subject,
    phase: extras.phase,
    path: extras.path,
    source: extras.source,
    emphasis: extras.emphasis,
    shownFrom: extras.shownFrom,
    parts,
    filled,
  };
}

/** A group; its role says what kind of things it holds. */
export function group(id: string, role: Role, items: readonly Primitive[]): Group {
  return { kind: 'group', id, role, items };
}
