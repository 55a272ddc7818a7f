import type { Facts } from '../../facts/facts.ts';
import { plural } from '../../language/lists.ts';
import type { ClearancePlace } from '../../space/clearance/clearance.ts';
import { bothWords, sideWords, toldLength } from '../../space/clearance/placeWords.ts';

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
export function nearPlaces(facts: Facts): readonly NearPlace[] {
  const figure = facts.space().space;
  const measured = figure.known ? facts.ends() : null;
  if (!figure.known || !measured) return [];
  const judged = !figure.value.bends.assumed;
  const told = measured.clearances.places.filter(({ colliding, close }) => colliding + close > 0);
  const ordered = [
    ...told.filter(({ colliding }) => colliding > 0),
    ...told.filter(({ colliding }) => colliding === 0),
  ];
  return ordered.map((place, index): NearPlace => {
    const { side, at, bars, colliding } = place;
    const letter = String.fromCharCode(65 + index);
    return { letter, side, at, bars, collides: colliding > 0, judged, words: wordsOf(place, judged) };
  });
}

function wordsOf(place: ClearancePlace, judged: boolean): string {
  const { side, distance, colliding, close } = place;
  const [one, other] = bothWords(place);
  const pair = `${one} and ${other}, ${sideWords(side)}`;
  const assumed = judged ? '' : ', with the assumed bend radius';
  return colliding > 0
    ? `${pair}: ${toldLength(-distance)} into each other (${plural(colliding, 'pair')}${assumed}).`
    : `${pair}: ${toldLength(Math.max(0, distance))} apart, nearer than asked for (${plural(close, 'pair')}${assumed}).`;
}
