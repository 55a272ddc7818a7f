import { printable, textWidth } from './fontMetrics.ts';
import type { Emphasis, Group, PathPart, PathShape, Primitive, Role, Subject, Text } from './picture.ts';

/** The optional parts of a primitive. */
export interface Extras {
  readonly subject?: Subject | undefined;
  readonly phase?: number | undefined;
  readonly path?: number | undefined;
  readonly source?: string | undefined;
  readonly emphasis?: Emphasis | undefined;
  readonly shownFrom?: number | undefined;
}

const none: Extras = {};

/** Font size of all ordinary text in millimetres: capitals 1.8 mm high, the smallest height of ISO 3098. */
export const textSize = 2.5;

/** Height of one row of ordinary text, its ascent and descent included, in millimetres. */
export const textRow = 3;

/** Distance from the top of a row of ordinary text to its base line. */
export const baseLine = 2.37;

/** A line of text with its width measured; `width` may be given where it is known already. */
export function text(
  id: string,
  role: Role,
  x: number,
  y: number,
  words: string,
  anchor: Text['anchor'] = 'start',
  size: number = textSize,
  extras: Extras = none,
  width?: number,
): Text {
  const shown = width === undefined ? printable(words) : words;
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
    text: shown,
    size,
    anchor,
    width: width ?? textWidth(shown, size),
  };
}

/** A path of one or more stretches, open or filled. */
export function pathShape(
  id: string,
  role: Role,
  parts: readonly PathPart[],
  extras: Extras = none,
  filled = false,
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
