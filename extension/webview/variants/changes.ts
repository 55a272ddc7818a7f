/** Tells whether parts of what is shown are others than when it was asked last; parts that stay are the same objects. */
export function createChanges(): (...parts: readonly unknown[]) => boolean {
  let known: readonly unknown[] | null = null;
  return (...parts) => {
    const same = known !== null && parts.every((part, at) => part === known?.[at]);
    known = parts;
    return !same;
  };
}
