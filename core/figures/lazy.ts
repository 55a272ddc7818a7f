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

const computing = Symbol('computing');

type Computing = Readonly<Record<string, () => unknown>>;

/** Groups with members that are computed when they are asked for. */
interface Late {
  readonly [computing]: Computing;
}

const accessors = new Map<string, PropertyDescriptor>();

/** The accessor of a late member, one for all groups. */
function accessorOf(name: string): PropertyDescriptor {
  const known = accessors.get(name);
  if (known) return known;
  const accessor: PropertyDescriptor & ThisType<Late> = {
    enumerable: true,
    get() {
      return this[computing][name]!();
    },
  };
  accessors.set(name, accessor);
  return accessor;
}

/**
 * A group in which some members are computed when they are asked for, in places where it has null. Not by accessors of its
 * own: V8 makes those of each group among what is old, and until that is cleared away all stays that they can see.
 */
export function withLate<Group extends object, Members extends Computing>(
  group: Group & Readonly<Record<keyof Members, null>>,
  members: Members,
): Omit<Group, keyof Members> & { readonly [K in keyof Members]: ReturnType<Members[K]> } {
  Object.defineProperty(group, computing, { value: members });
  for (const name in members) Object.defineProperty(group, name, accessorOf(name));
  return group as never;
}
