import { madeOnce } from '../figures/lazy.ts';
import { kept, type Measurer } from '../figures/work.ts';
import type { ConnectSpecification, Specification } from '../language/specification/specification.ts';
import type { Path, Winding } from '../winding/model.ts';
import type { ConnectionFacts, ConnectionState } from './connection.ts';

// What an edit leaves as it was is not computed again: figures and drawings are kept from text to text by all that they
// depend on, as one text. Only the editor's measurer keeps; anywhere else everything is made once.

/** A winding without its paths, as one text. */
export const tableKey = madeOnce((winding: Winding): string => {
  const { table, polePairs: _, ...others } = winding;
  return JSON.stringify(others) + table.cells.join();
});

/** A winding and how its bars are joined, or why they are not, as one text. */
export function joiningKey(winding: Winding, connection: ConnectionState): string {
  const joined = connection.kind === 'connected' ? joinedKey(connection.facts) : JSON.stringify(connection);
  return tableKey(winding) + joined;
}

/** How the bars of a winding are joined, as one text. */
export function joinedKey({ connection, paths, form, written, unfinished }: ConnectionFacts): string {
  return `${connection} ${form} ${written !== null} ${unfinished} ${pathsKey(paths)}`;
}

const pathsKey = madeOnce((paths: readonly Path[]): string =>
  JSON.stringify(paths.map(({ bars, ...path }) => [path, bars.map(({ slot, layer }) => [slot, layer])])),
);

/** What a part of a text says, wherever it stands in it, as one text. */
export const writtenKey = madeOnce((part: object): string => writtenWithout(part, nothing));

/** The same without some words. */
export function writtenWithout(part: object, without: ReadonlySet<string>): string {
  return JSON.stringify(part, (name, value: unknown) =>
    name === 'range' || name === 'statement' || without.has(name) ? undefined : value,
  );
}

const nothing: ReadonlySet<string> = new Set();

/** Parts of a text that no figure depends on; all others are taken to matter. */
const elsewhere: ReadonlySet<string> = new Set<keyof Specification>([
  'title',
  'limits',
  'accepts',
  'vary',
  'sheet',
  'broken',
]);

/** All of a text that figures depend on, as one text; words of the machine block of `without` are left out. */
export function figuresKey(specification: Specification, without: ReadonlySet<string> = nothing): string {
  let key = '';
  for (const [name, part] of Object.entries(specification)) {
    if (elsewhere.has(name)) continue;
    const but = name === 'machine' ? without : name === 'connect' ? ofPaths : nothing;
    key += `${name} ${but.size > 0 ? writtenWithout(part, but) : writtenKey(part)}`;
  }
  return key;
}

/** Words of the connect block that say how bars are joined: the winding and its connection tell what follows from that. */
const ofPaths: ReadonlySet<string> = new Set<keyof ConnectSpecification>(['paths', 'copies']);

/**
 * What `make` makes with a measurer: as for an earlier text, where the measurer keeps that, the key is the same and
 * nothing was under way.
 */
export function keptOnceMeasured<T>(
  measurer: Measurer,
  key: () => string,
  make: (measurer: Measurer) => T,
): T {
  return kept(measurer, { kind: 'machine', key }, () => madeOnceMeasured(make))(measurer);
}

/** Makes again as long as some work is under way; what is asked for later goes to the measurer that asked last. */
function madeOnceMeasured<T>(make: (measurer: Measurer) => T): (measurer: Measurer) => T {
  let made: { readonly value: T } | null = null;
  let waiting = false;
  let present: Measurer = () => null;
  const noting: Measurer = (work) => {
    const found = present(work);
    if (found === null) waiting = true;
    return found;
  };
  return (measurer) => {
    present = measurer;
    if (made === null || waiting) {
      waiting = false;
      made = { value: make(noting) };
    }
    return made.value;
  };
}
