import type { Facts } from '../../facts/facts.ts';
import { inEnglish, type Speech } from '../../figures/speech.ts';
import type { ClearancePlace } from '../../space/clearance/clearance.ts';
import { bothWords, toldLength } from '../../space/clearance/placeWords.ts';

/** A place at which bar ends, connecting pieces or rings collide or come too near, as it is marked. */
export interface NearPlace extends Pick<ClearancePlace, 'side' | 'at' | 'bars'> {
  /** A, B ... as the findings have them, the collisions first. */
  readonly letter: string;
  readonly collides: boolean;
  /** The text gives the bend radius that it depends on. */
  readonly judged: boolean;
  /** What comes near what, how near, and how often. */
  readonly words: string;
}

/** Of each kind on each side the worst place, where there is something wrong; none while they are being measured. */
export function nearPlaces(facts: Facts, speech: Speech = inEnglish): readonly NearPlace[] {
  const figure = facts.space().space;
  const near = figure.known ? facts.nearEnds() : null;
  if (!figure.known || !near) return [];
  const judged = !figure.value.bends.assumed;
  const ordered = [
    ...near.places.filter(({ colliding }) => colliding > 0),
    ...near.places.filter(({ colliding }) => colliding === 0),
  ];
  return ordered.map((place, index): NearPlace => {
    const { side, at, bars, colliding } = place;
    const letter = String.fromCharCode(65 + index);
    const words = wordsOf(place, judged, speech);
    return { letter, side, at, bars, collides: colliding > 0, judged, words };
  });
}

function wordsOf(place: ClearancePlace, judged: boolean, { say, phrase }: Speech): string {
  const { side, distance, colliding, close } = place;
  const [one, other] = bothWords(place).map(phrase) as [string, string];
  const pair =
    side === 'far'
      ? say('{0} and {1}, far side', one, other)
      : say('{0} and {1}, connection side', one, other);
  const count = colliding > 0 ? colliding : close;
  const pairs = count === 1 ? say('1 pair') : say('{0} pairs', count);
  const told = judged ? pairs : say('{0}, with the assumed bend radius', pairs);
  return colliding > 0
    ? say('{0}: {1} into each other ({2}).', pair, toldLength(-distance), told)
    : say('{0}: {1} apart, nearer than asked for ({2}).', pair, toldLength(Math.max(0, distance)), told);
}
