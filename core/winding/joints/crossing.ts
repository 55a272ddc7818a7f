/** The bent end of a bar in the developed layer, seen from where its straight part ends. */
export interface LegEnd {
  /** Slots round the axis to its tip, signed. */
  readonly turn: number;
  /**
   * How many slots' rise above its tip another leg passes above its joint; infinite where none does or
   * nothing is known of heights.
   */
  readonly passedFrom: number;
}

/**
 * Whether the ends of two bars of one layer pass through each other: `apart` slots lead from the first one's
 * foot to the second one's. They do not where their tips follow each other as their feet do. Else the longer
 * leg comes by the tip of the shorter one; because all legs of a layer rise alike, it is there as many slots'
 * rise above that tip as its own foot is further away from it than the other foot. For legs that lean one
 * way, which are parallel, this is the distance of their feet. Unless that leads above the joint of the
 * shorter one, it runs through that joint, or through its leg where the two lean towards each other. Tips on
 * one place do not cross: that is told by their distance.
 */
export function legsCross(first: LegEnd, second: LegEnd, apart: number): boolean {
  return lackingHeight(first, second, apart) > 0;
}

/** How many slots' rise the longer leg lacks to pass above the joint of the shorter one; 0 where they do not cross. */
export function lackingHeight(first: LegEnd, second: LegEnd, apart: number): number {
  const overtaken = apart * (apart + second.turn - first.turn) < -rounding;
  if (!overtaken) return 0;
  const firstIsLonger = Math.abs(first.turn) >= Math.abs(second.turn);
  const shorter = firstIsLonger ? second : first;
  const comesFrom = Math.abs((firstIsLonger ? apart : -apart) + shorter.turn);
  const lacking = shorter.passedFrom - (comesFrom - Math.abs(shorter.turn));
  return lacking > rounding ? lacking : 0;
}

// Places are sums of slots and shifts: what differs by less than this is equal.
const rounding = 1e-6;

/**
 * How high the joints of a layer stand, for `passedFrom`: a leg's rise over one slot, and the height from
 * where the leg of a joint ends to the top of its straight part, with what the width of two bars takes. m.
 */
export interface JointHeight {
  readonly rise: number;
  readonly straight: number;
}

/** `passedFrom` of the leg of a joint whose other end is level with it or stands `higher`, m. */
export function passedFrom({ rise, straight }: JointHeight, higher = 0): number {
  return (straight + higher) / rise;
}
