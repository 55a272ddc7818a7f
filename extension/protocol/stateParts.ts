import { followList, type ItemRule, listChange } from './listChange.ts';
import type { Fields } from './values.ts';

/** One part of what a page shows: how it is sent, and how the page reads it. */
export interface StatePart<Value> {
  /** What stands while nothing came; undefined where no state is whole without it. */
  readonly start: Value | undefined;
  /** What is sent where one value follows on another; null for nothing. */
  readonly change: (before: Value | undefined, value: Value) => unknown;
  /** The value that follows from a change, of which nothing is known yet; undefined where it does not fit. */
  readonly follow: (before: Value | undefined, change: unknown) => Value | undefined;
}

/** A state of these parts. */
export type StateOf<Parts> = {
  readonly [Name in keyof Parts]: Parts[Name] extends StatePart<infer Value> ? Value : never;
};

/** What changes of a state, part by part; what is left out stays as it was. */
export type StateChanges<State> = { readonly [Name in keyof State]?: unknown };

type PartsOf<State> = { readonly [Name in keyof State]: StatePart<State[Name]> };

/** What changes from one state to another, the first being null for a page that shows nothing; null for nothing. */
export function stateChanges<State extends object>(
  parts: PartsOf<State>,
  before: State | null,
  state: State,
): StateChanges<State> | null {
  const changes: { [Name in keyof State]?: unknown } = {};
  for (const name of namesOf(parts)) {
    const { start, change } = parts[name];
    const changed = change(before === null ? start : before[name], state[name]);
    if (changed !== null) changes[name] = changed;
  }
  return Object.keys(changes).length === 0 ? null : changes;
}

/** The state that follows from the one before; null where the changes do not fit. */
export function followState<State extends object>(
  parts: PartsOf<State>,
  before: State | null,
  changes: Fields,
): State | null {
  if (!Object.keys(changes).every((name) => Object.hasOwn(parts, name))) return null;
  const state: Partial<State> = {};
  for (const name of namesOf(parts)) {
    const { start, follow } = parts[name];
    const stood = before === null ? start : before[name];
    const change = changes[name];
    const value = change === undefined ? stood : follow(stood, change);
    if (value === undefined) return null;
    state[name] = value;
  }
  return state as State;
}

function namesOf<State extends object>(parts: PartsOf<State>): readonly (keyof State & string)[] {
  return Object.keys(parts) as (keyof State & string)[];
}

/** A small part that is sent as a whole, compared as text. */
export function whole<Value>(isValue: (value: unknown) => value is Value, start?: Value): StatePart<Value> {
  return {
    start,
    change: (before, value) => (isSame(before, value) ? null : value),
    follow: (_, change) => (isValue(change) ? change : undefined),
  };
}

/** A part of this kind that may be missing: null, which travels as 'none'. */
export function optional<Value>(isValue: (value: unknown) => value is Value): StatePart<Value | null> {
  return {
    start: null,
    change: (before, value) => (isSame(before, value) ? null : (value ?? 'none')),
    follow: (_, change) => (change === 'none' ? null : isValue(change) ? change : undefined),
  };
}

/** A list, of which only what is put in is sent; its items are sent as they are. */
export function list<Item>(
  isItem: (value: unknown) => value is Item,
  rule: ItemRule<Item>,
): StatePart<readonly Item[]> {
  return {
    start: [],
    change: (before, items) => (before === items ? null : listChange(before ?? [], items, rule)),
    follow: (before, change) =>
      followList(before ?? [], change, (step) => (isItem(step) ? { item: step, takesNext: false } : null)) ??
      undefined,
  };
}

/** Items that are the same where their key is, which says all of them. */
export function itemsBy<Item>(key: (item: Item) => string): ItemRule<Item> {
  return { key, pack: (item) => item, change: () => null };
}

/** Items that are the same thing where their key is; one that changes is sent as a whole. */
export function changingItemsBy<Item>(key: (item: Item) => string): ItemRule<Item> {
  return { key, pack: (item) => item, change: (before, item) => (isSame(before, item) ? null : undefined) };
}

/** Whether two values say the same, field by field. */
export function isSame(before: unknown, value: unknown): boolean {
  if (before === value) return true;
  if (!(isFilled(before) && isFilled(value)) || Array.isArray(before) !== Array.isArray(value)) return false;
  const names = Object.keys(value);
  return (
    names.length === Object.keys(before).length && names.every((name) => isSame(before[name], value[name]))
  );
}

/** The items, with those of the list before that say the same at the same place; that list itself where all do. */
export function keptItems<Item>(before: readonly Item[], items: readonly Item[]): readonly Item[] {
  const kept = items.map((item, index) => (isSame(before[index], item) ? before[index]! : item));
  return kept.length === before.length && kept.every((item, index) => item === before[index]) ? before : kept;
}

function isFilled(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null;
}
