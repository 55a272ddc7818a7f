import type { Range } from '../../../core/language/finding.ts';
import type { Block, Document, Statement, Value } from '../../../core/language/text/document.ts';
import type { Group, Sequence } from '../../../core/language/text/sequence.ts';

/** Whether a stretch holds an offset, its end included. */
export function holds({ start, end }: Range, offset: number): boolean {
  return start <= offset && offset <= end;
}

/** The block and the statement at an offset, as far as it lies in one; the title is in no block. */
export function statementAt(
  { title, blocks }: Document,
  offset: number,
): { readonly block: Block | null; readonly statement: Statement | null } {
  const block = blocks.find(({ range }) => holds(range, offset)) ?? null;
  const among = block?.statements ?? (title ? [title] : []);
  // Of two that meet at the offset it is the one that begins there.
  const found = among.filter(({ range }) => holds(range, offset)).at(-1);
  return { block, statement: found ?? null };
}

/** The value of a statement at an offset; of two that meet there, the one that begins. */
export function valueAt({ values }: Statement, offset: number): Value | null {
  return values.filter(({ range }) => holds(range, offset)).at(-1) ?? null;
}

/** Every leaf of a row or path as it is written, groups not repeated. */
export function leaves<Leaf extends { readonly range: Range }>(sequence: Sequence<Leaf>): readonly Leaf[] {
  return sequence.flatMap((item) => (isGroup(item) ? leaves(item.items) : [item]));
}

/** Every group of a row or path, outer ones first. */
export function groups<Leaf extends { readonly range: Range }>(
  sequence: Sequence<Leaf>,
): readonly Group<Leaf>[] {
  return sequence.flatMap((item) => (isGroup(item) ? [item, ...groups(item.items)] : []));
}

/** Whether a part of a row or path is a group in parentheses. */
export function isGroup<Leaf>(item: Leaf | Group<Leaf>): item is Group<Leaf> {
  return (item as { readonly kind?: string }).kind === 'group';
}

/** All statements of a text, the title first. */
export function allStatements({ title, blocks }: Document): readonly Statement[] {
  return [...(title ? [title] : []), ...blocks.flatMap(({ statements }) => statements)];
}
