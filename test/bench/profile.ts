/** The part of V8's processor profile that is used here. */
export interface Profile {
  readonly nodes: readonly {
    readonly id: number;
    readonly callFrame: { readonly functionName: string; readonly url: string };
    readonly children?: readonly number[];
  }[];
  /** The node on top of the stack at each sample. */
  readonly samples: readonly number[];
}

/** How many samples were taken while a frame of a script was on the stack, by the name that `ownerOf` gives its URL. */
export function samplesByOwner(
  { nodes, samples }: Profile,
  ownerOf: (url: string) => string | null,
): ReadonlyMap<string, number> {
  const byId = new Map(nodes.map((node) => [node.id, node]));
  const owners = new Map<number, string | null>();
  const root = nodes[0];
  if (root === undefined) return new Map();
  const waiting: (readonly [number, string | null])[] = [[root.id, null]];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const [id, above] = next;
    const node = byId.get(id)!;
    // The outermost frame counts: what it calls is done for it.
    const owner = above ?? ownerOf(node.callFrame.url);
    owners.set(id, owner);
    for (const child of node.children ?? []) waiting.push([child, owner]);
  }
  const counts = new Map<string, number>();
  for (const sample of samples) {
    const owner = owners.get(sample) ?? null;
    if (owner !== null) counts.set(owner, (counts.get(owner) ?? 0) + 1);
  }
  return counts;
}
