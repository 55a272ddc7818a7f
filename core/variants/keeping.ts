/**
 * Keeps what was made for a key, for all who ask for it again; once there are so many, all of them are forgotten, so
 * that any number of candidates fits. They are with a map of their own, not one that is cleared, which V8 would tie to
 * the next (`workStore`).
 */
export function keepingAtMost<Key, T>(most: number): (key: Key, make: () => T) => T {
  let kept = new Map<Key, T>();
  return (key, make) => {
    const known = kept.get(key);
    if (known !== undefined) return known;
    const made = make();
    if (kept.size >= most) kept = new Map();
    kept.set(key, made);
    return made;
  };
}
