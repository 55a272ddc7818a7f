/** Computes a value when it is first asked for, and keeps it. */
export function lazy<T>(compute: () => T): () => T {
  let done = false;
  let value: T;
  return () => {
    if (!done) {
      value = compute();
      done = true;
    }
    return value;
  };
}

/** What follows from an object that does not change, made when it is first asked for. */
export function madeOnce<T extends object, Made>(make: (of: T) => Made): (of: T) => Made {
  const made = new WeakMap<T, Made>();
  return (of) => {
    const known = made.get(of);
    if (known !== undefined) return known;
    const result = make(of);
    made.set(of, result);
    return result;
  };
}
