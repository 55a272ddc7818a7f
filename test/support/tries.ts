const times = Number(process.env.SLOTWRIGHT_TRIES ?? 1);

/**
 * How many random cases of a property are tried: few with each `npm test`, and `SLOTWRIGHT_TRIES` times as
 * many when that is set, as after a change of what a property is about.
 */
export function tries(few: number): number {
  return Math.ceil(few * times);
}

/** Cases that `npm test` tries, and behind them those that only `SLOTWRIGHT_TRIES` above 1 adds. */
export function withMore<Case>(always: readonly Case[], more: readonly Case[]): readonly Case[] {
  return times > 1 ? [...always, ...more] : always;
}
