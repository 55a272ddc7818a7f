/**
 * How many random cases of a property are tried: few with each `npm test`, and `SLOTWRIGHT_TRIES` times as
 * many when that is set, as after a change of what a property is about.
 */
export function tries(few: number): number {
  return Math.ceil(few * Number(process.env.SLOTWRIGHT_TRIES ?? 1));
}
