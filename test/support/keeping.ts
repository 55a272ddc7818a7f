/** Milliseconds of the processor that this process has taken. */
function taken(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/**
 * Makes results by a key and keeps at most so many: when there are more, the one goes that cost least, and has not been
 * asked for again for long (Young, "On-line caching as cache size varies", 1991: GreedyDual). So what is dear and
 * often asked for, as the examples are, outlives whatever is asked for once.
 */
export function keeping<T>(most: number, now: () => number = taken): (key: string, make: () => T) => T {
  const known = new Map<string, { readonly result: T; readonly cost: number; worth: number }>();
  let floor = 0;
  return (key, make) => {
    const found = known.get(key);
    if (found) {
      found.worth = floor + found.cost;
      return found.result;
    }
    const before = now();
    const result = make();
    const cost = now() - before;
    if (known.size >= most) {
      const [least, { worth }] = [...known].reduce((a, b) => (b[1].worth < a[1].worth ? b : a));
      known.delete(least);
      floor = worth;
    }
    known.set(key, { result, cost, worth: floor + cost });
    return result;
  };
}
