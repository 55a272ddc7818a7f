import type { PhaseConnection } from '../language/specification/statements.ts';
import { type Bar, type Path, sameBar } from '../winding/model.ts';
import { lineTerminal, pathEnd } from '../winding/terminals.ts';
import { type DrawingBase, freeBars, type NextBar, nextBars, placeOf } from './nextBars.ts';

/** The paths of one phase while they are drawn by hand, one after another. Nothing of it is written yet. */
export interface Drawing {
  readonly base: DrawingBase;
  readonly connection: PhaseConnection;
  readonly phase: number;
  /** Paths of the phase that stay as they are. */
  readonly kept: readonly Path[];
  /** Paths drawn so far. */
  readonly done: readonly Path[];
  /** Numbers of the paths that are to be drawn, in order. */
  readonly anew: readonly number[];
  /** The path that grows; without bars while its start is to be chosen. */
  readonly current: Path;
}

/** Parallel paths that the phase is to have, or has by now where they are more. */
export function pathsWanted({ kept, done, anew, current }: Drawing): number {
  return kept.length + Math.max(anew.length, done.length + (current.bars.length > 0 ? 1 : 0));
}

/**
 * Begins to draw paths of a phase. `own` are the phase's paths of now; those whose number is in `anew` are drawn
 * anew, one by one, the others keep their bars. Where there are no paths yet, `anew` says how many there are to be.
 */
export function beginDrawing(
  base: DrawingBase,
  connection: PhaseConnection,
  phase: number,
  own: readonly Path[],
  anew: readonly number[],
): Drawing {
  const kept = own.filter(({ number }) => !anew.includes(number));
  const numbers = [...anew].sort((a, b) => a - b);
  const current = emptyPath(base, connection, phase, numbers[0] ?? 1);
  return { base, connection, phase, kept, done: [], anew: numbers, current };
}

function emptyPath(base: DrawingBase, connection: PhaseConnection, phase: number, number: number): Path {
  const { phases } = base.winding;
  return {
    phase,
    number,
    bars: [],
    spans: [],
    pieces: [],
    from: lineTerminal(phases.names[phase]!),
    to: pathEnd(phases, phase, connection),
    startsFar: false,
    endsFar: false,
  };
}

/** Places of all bars that paths of the drawing hold. */
function takenPlaces({ base, kept, done, current }: Drawing): ReadonlySet<number> {
  return new Set(
    [...kept, ...done, current].flatMap(({ bars }) => bars.map((bar) => placeOf(base.winding, bar))),
  );
}

/** Bars of the phase that no path holds. */
export function unusedBars(drawing: Drawing): readonly Bar[] {
  return freeBars(drawing.base, drawing.phase, takenPlaces(drawing));
}

/** The bars a path may begin with: those whose current leads away from the connection side. */
export function firstBars(drawing: Drawing): readonly Bar[] {
  return drawing.current.bars.length > 0
    ? []
    : freeBars(drawing.base, drawing.phase, takenPlaces(drawing), 1);
}

/** The bars to which the path may lead next. */
export function barsToTake(drawing: Drawing): readonly NextBar[] {
  return nextBars(drawing.base, drawing.current, takenPlaces(drawing));
}

/** The drawing with one bar more; null where the rules do not allow that bar. */
export function takeBar(drawing: Drawing, bar: Bar): Drawing | null {
  const { current } = drawing;
  if (current.bars.length === 0)
    return firstBars(drawing).some((each) => sameBar(each, bar))
      ? withCurrent(drawing, { ...current, bars: [bar] })
      : null;
  const next = barsToTake(drawing).find((each) => sameBar(each.bar, bar));
  if (next === undefined) return null;
  return withCurrent(drawing, {
    ...current,
    bars: [...current.bars, bar],
    spans: [...current.spans, next.span],
    pieces: [...current.pieces, next.kind === 'piece'],
  });
}

function withCurrent(drawing: Drawing, path: Path): Drawing {
  return { ...drawing, current: { ...path, endsFar: path.bars.length % 2 === 1 } };
}

/** The drawing before the last bar was taken, or before the last path was ended; null at its beginning. */
export function stepBack(drawing: Drawing): Drawing | null {
  const { current, done } = drawing;
  if (current.bars.length > 0)
    return withCurrent(drawing, {
      ...current,
      bars: current.bars.slice(0, -1),
      spans: current.spans.slice(0, -1),
      pieces: current.pieces.slice(0, -1),
    });
  const last = done.at(-1);
  if (last === undefined) return null;
  return { ...drawing, done: done.slice(0, -1), current: last };
}

/** The drawing with its path ended, and the next one to begin. */
export function endPath(drawing: Drawing): Drawing {
  const { base, connection, phase, current, done, anew, kept } = drawing;
  if (current.bars.length === 0) return drawing;
  const used = [...kept, ...done, current].map(({ number }) => number);
  const next = anew.find((number) => !used.includes(number)) ?? Math.max(...used) + 1;
  return { ...drawing, done: [...done, current], current: emptyPath(base, connection, phase, next) };
}

/** The drawing with the bars of the kept paths free too: all paths of the phase are drawn. */
export function freeKept(drawing: Drawing): Drawing {
  const anew = [...drawing.anew, ...drawing.kept.map(({ number }) => number)].sort((a, b) => a - b);
  return { ...drawing, kept: [], anew };
}

/** The phase's paths as they are drawn by now, by number. */
export function drawnPaths({ kept, done, current }: Drawing): readonly Path[] {
  const all = [...kept, ...done, ...(current.bars.length > 0 ? [current] : [])];
  return all.sort((a, b) => a.number - b.number);
}
