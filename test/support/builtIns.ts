/** The language's own objects whose functions a library may replace for everyone. */
const owners: readonly object[] = [
  ...[
    Object,
    Function,
    Array,
    String,
    Number,
    Promise,
    Map,
    Set,
    RegExp,
    Date,
    ArrayBuffer,
    Uint8Array,
  ].flatMap((maker) => [maker, maker.prototype]),
  Math,
  JSON,
  Reflect,
];

/** A function of the language, and where it stands. */
type Place = readonly [owner: object, name: string | symbol, was: PropertyDescriptor];

/** Every built-in function and value as it is now. */
const places = (): readonly Place[] =>
  owners.flatMap((owner) =>
    Reflect.ownKeys(owner).map((name): Place => [owner, name, Object.getOwnPropertyDescriptor(owner, name)!]),
  );

/**
 * Loads modules and puts back every built-in function that they replaced; what they added stays, for they need it. A
 * library for older browsers gives all of the process its own `push` and `JSON`, which are much slower, and not those
 * that the product runs on.
 */
export async function withBuiltInsKept<T>(load: () => Promise<T>): Promise<T> {
  const before = places();
  const loaded = await load();
  for (const [owner, name, was] of before) {
    const is = Object.getOwnPropertyDescriptor(owner, name);
    if (!Object.is(is?.value, was.value) || is?.get !== was.get) Object.defineProperty(owner, name, was);
  }
  return loaded;
}
