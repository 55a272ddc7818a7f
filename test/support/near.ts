/**
 * The largest difference between the numbers of two lists, place by place: one comparison for thousands of numbers.
 * No number where lists differ in length or hold what is none, so that no bound holds for it.
 */
export function farthest(found: readonly number[], wanted: readonly number[]): number {
  if (found.length !== wanted.length || found.length === 0) return Number.NaN;
  let most = 0;
  for (let index = 0; index < found.length; index++) {
    const away = Math.abs(found[index]! - wanted[index]!);
    if (!(away <= most)) most = away;
    if (Number.isNaN(most)) return most;
  }
  return most;
}
