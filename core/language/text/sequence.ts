import { mostSlots } from '../counts.ts';
import { type Finding, finding, type Range } from '../finding.ts';
import {
  groupEmpty,
  groupNotClosed,
  groupStray,
  groupTooDeep,
  groupWithoutCount,
} from '../textFindingKinds.ts';
import type { Token } from './lexer.ts';

/** A part of a row or path in parentheses, repeated. */
export interface Group<Leaf> {
  readonly kind: 'group';
  readonly items: Sequence<Leaf>;
  readonly times: number;
  readonly range: Range;
}

/** The places of a row or the steps of a path, with groups still folded. */
export type Sequence<Leaf> = readonly (Leaf | Group<Leaf>)[];

const deepestGroup = 8;
/** Most items all rows and paths of a file may expand to. */
export const mostItems = 200_000;

interface OpenGroup<Leaf> {
  readonly items: (Leaf | Group<Leaf>)[];
  readonly open: Token;
}

/**
 * Reads leaves and groups from `tokens[from]` on, until a token that is neither. Does not recurse, so
 * no depth of parentheses can exhaust the stack; groups nested too deep are reported and left out.
 */
export function readSequence<Leaf>(
  tokens: readonly Token[],
  from: number,
  limit: number,
  leaf: (token: Token) => Leaf | null,
  findings: Finding[],
): { readonly items: Sequence<Leaf>; readonly next: number } {
  const stack: OpenGroup<Leaf>[] = [];
  let items: (Leaf | Group<Leaf>)[] = [];
  let i = from;
  // Groups that close right behind one that is wrong are the same mistake.
  let toldUpTo = -1;
  for (; i < limit; i++) {
    const token = tokens[i]!;
    const told = toldUpTo === i - 1;
    if (token.text === '(' && token.kind === 'punctuation') {
      if (stack.length === deepestGroup) {
        findings.push(finding(groupTooDeep, token, { most: deepestGroup }));
        i = skipGroup(tokens, i, limit);
        toldUpTo = i;
        continue;
      }
      stack.push({ items, open: token });
      items = [];
      continue;
    }
    if (token.text === ')' && token.kind === 'punctuation') {
      const opened = stack.pop();
      if (opened === undefined) {
        findings.push(finding(groupStray, token, null));
        continue;
      }
      const times = groupTimes(tokens, i + 1, limit);
      if (times !== null) i += 2;
      const range = { start: opened.open.start, end: tokens[i]!.end };
      if (items.length === 0) {
        if (!told) findings.push(finding(groupEmpty, range, null));
        toldUpTo = i;
        items = opened.items;
        continue;
      }
      if (times === null) {
        if (!told) findings.push(finding(groupWithoutCount, { start: token.start, end: token.end }, null));
        toldUpTo = i;
      }
      const group: Group<Leaf> = { kind: 'group', items, times: times ?? 1, range };
      items = opened.items;
      items.push(group);
      continue;
    }
    const item = leaf(token);
    if (item === null) break;
    items.push(item);
  }
  for (let opened = stack.pop(); opened !== undefined; opened = stack.pop()) {
    if (stack.length === 0) findings.push(finding(groupNotClosed, opened.open, null));
    items = [...opened.items, ...items];
  }
  return { items, next: i };
}

function groupTimes(tokens: readonly Token[], i: number, limit: number): number | null {
  if (i + 1 >= limit || tokens[i]!.text !== '*' || tokens[i + 1]!.kind !== 'number') return null;
  const times = Number(tokens[i + 1]!.text);
  return Number.isInteger(times) && times >= 1 && times <= mostSlots ? times : null;
}

/** Index of the last token of the group that opens at `i`, its count included. */
function skipGroup(tokens: readonly Token[], i: number, limit: number): number {
  let depth = 0;
  for (; i < limit; i++) {
    const { text } = tokens[i]!;
    if (text === '(') depth++;
    else if (text === ')' && --depth === 0) return groupTimes(tokens, i + 1, limit) === null ? i : i + 2;
  }
  return limit - 1;
}

function isGroup<Leaf>(item: Leaf | Group<Leaf>): item is Group<Leaf> {
  return (item as { kind?: string }).kind === 'group';
}

/** Number of leaves after expansion, without expanding; may exceed any array's length. */
export function sequenceLength<Leaf>(sequence: Sequence<Leaf>): number {
  let length = 0;
  for (const item of sequence) length += isGroup(item) ? item.times * sequenceLength(item.items) : 1;
  return length;
}

/** All leaves in order, groups unfolded. Check `sequenceLength` first. */
export function expandSequence<Leaf>(sequence: Sequence<Leaf>): readonly Leaf[] {
  const out: Leaf[] = [];
  const walk = (items: Sequence<Leaf>) => {
    for (const item of items) {
      if (isGroup(item)) for (let k = 0; k < item.times; k++) walk(item.items);
      else out.push(item);
    }
  };
  walk(sequence);
  return out;
}
