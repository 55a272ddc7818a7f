import { pathShape, text, textSize } from '../../picture/make.ts';
import { circlePart } from '../../picture/outlines.ts';
import type { PathPart, PathShape, Text } from '../../picture/picture.ts';
import type { Stretch } from '../chart/labels.ts';
import type { NearPlace } from './nearPlaces.ts';

type Spot = readonly [x: number, y: number];

/** What marks have to know of the drawing under them, mm on paper. */
export interface MarkGround {
  readonly spotOf: (place: NearPlace) => Spot;
  /** Whether what comes near each other there is in sight. */
  readonly inSight: (place: NearPlace) => boolean;
  /** Whether a box round a middle lies beside all bodies, within the drawing. */
  readonly clear: (middle: Spot, half: number) => boolean;
}

/** Round a place, and round its letter; from the place to the letter at least; mm. */
const round = 2;
const balloon = 2.4;
const nearest = 7;
const farthest = 120;
const step = 3;
const ways = 24;

export interface PlaceMarks {
  /** Circles, and lines to letters. */
  readonly lines: readonly PathShape[];
  readonly letters: readonly Text[];
  /** From places to the middles of their letters. */
  readonly leaders: readonly Stretch[];
}

/**
 * A circle round each place, dashed where other parts hide it, and its letter beside the bodies at the end of a line:
 * as many as have room there, the first first.
 */
export function placeMarks(places: readonly NearPlace[], ground: MarkGround): PlaceMarks {
  const lines: PathShape[] = [];
  const letters: Text[] = [];
  const spots = places.map(ground.spotOf);
  const leaders: (readonly [from: Spot, letter: Spot])[] = [];
  for (const [index, place] of places.entries()) {
    const spot = spots[index]!;
    const role = place.collides && place.judged ? 'fault-mark' : 'doubt-mark';
    const circle = circlePart(...spot, round);
    const parts = ground.inSight(place) ? [circle] : dashed(circle);
    const at = letterSpot(spot, spots, leaders, ground);
    if (at === null) {
      lines.push(pathShape(`place-${place.letter}`, role, parts));
      continue;
    }
    leaders.push([spot, at]);
    const long = Math.hypot(at[0] - spot[0], at[1] - spot[1]);
    const along = (from: number): Spot => [
      spot[0] + ((at[0] - spot[0]) * from) / long,
      spot[1] + ((at[1] - spot[1]) * from) / long,
    ];
    const leader = [...along(round), ...along(long - balloon)];
    lines.push(pathShape(`place-${place.letter}`, role, [...parts, leader, circlePart(...at, balloon)]));
    const options = { anchor: 'middle', size: textSize } as const;
    letters.push(text(`place-name-${place.letter}`, 'fault-name', at[0], at[1] + 0.9, place.letter, options));
  }
  return { lines, letters, leaders: leaders.map(([from, to]) => [...from, ...to]) };
}

/**
 * The nearest spot for a letter that lies clear of the bodies, of all places, and of the letters there are, with no
 * line through a letter; null where there is none.
 */
function letterSpot(
  from: Spot,
  places: readonly Spot[],
  leaders: readonly (readonly [from: Spot, letter: Spot])[],
  { clear }: MarkGround,
): Spot | null {
  const isFree = (spot: Spot) =>
    places.every((place) => distance(spot, place, place) > 2 * balloon + 1) &&
    leaders.every(
      ([start, letter]) =>
        distance(spot, letter, start) > 2 * balloon + 1 && distance(letter, from, spot) > balloon + 0.6,
    );
  for (let away = nearest; away <= farthest; away += step)
    for (let way = 0; way < ways; way++) {
      // Upwards first, then to both sides.
      const angle = (Math.ceil(way / 2) * (way % 2 === 0 ? 1 : -1) * 2 * Math.PI) / ways - Math.PI / 2;
      const spot: Spot = [from[0] + away * Math.cos(angle), from[1] + away * Math.sin(angle)];
      if (isFree(spot) && clear(spot, balloon + 0.6)) return spot;
    }
  return null;
}

/** Distance of a spot from the straight between two others, which may be one, mm. */
function distance([x, y]: Spot, [ax, ay]: Spot, [bx, by]: Spot): number {
  const [dx, dy] = [bx - ax, by - ay];
  const long = dx * dx + dy * dy;
  const share = long === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / long));
  return Math.hypot(x - ax - share * dx, y - ay - share * dy);
}

/** Every second stretch of an outline. */
function dashed(outline: PathPart): readonly PathPart[] {
  const points = outline.length / 2;
  const stretch = Math.max(1, Math.round(points / 16));
  const parts: PathPart[] = [];
  for (let from = 0; from + stretch < points; from += 2 * stretch)
    parts.push(outline.slice(2 * from, 2 * (from + stretch + 1)));
  return parts;
}
