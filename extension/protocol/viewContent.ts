import type { Picture } from '../../core/picture/picture.ts';
import { followList, type ItemRule, listChange } from './listChange.ts';
import { followPrimitives, primitiveRule } from './packedPrimitive.ts';
import { followVariants, type ShownVariants, type VariantsChange, variantsChange } from './shownVariants.ts';
import { followSolids, type ShownSolids, type SolidsChange, solidsChange } from './solidsChange.ts';
import { isSame } from './stateParts.ts';
import { type Fields, hasTexts, isListOf, isRecord, isSize, isTexts } from './values.ts';

/**
 * A table as shown; its cells are text, sorted as numbers where a column holds nothing else. Behind the cells of its
 * columns a row may name the place it stands for: `bar 7b`, `finding span-too-long 1`.
 */
export interface ShownTable {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** What cells that are a sign alone say in words: `+`, `\u2212`. */
  readonly signs?: Readonly<Record<string, string>>;
}

/**
 * What a view shows; a view is a name (`Wish.view`) and content of one of these kinds. A further kind is one member
 * here and one row in `rules`: how it is sent, and how the page reads it.
 */
export type ViewContent =
  | { readonly kind: 'picture'; readonly picture: Picture }
  | { readonly kind: 'table'; readonly table: ShownTable }
  | ShownSolids
  | ShownVariants;

/** What changes of a view's content, by its kind; what is left out stays as it was. */
export type ViewChange =
  | { readonly kind: 'picture'; readonly head?: Partial<PictureHead>; readonly items?: unknown }
  | { readonly kind: 'table'; readonly head?: Partial<TableHead>; readonly rows?: unknown }
  | SolidsChange
  | VariantsChange;

type PictureHead = Omit<Picture, 'items'>;
type TableHead = Omit<ShownTable, 'rows'>;

/** How content of one kind is sent. A content of another kind, or none, goes before as null. */
interface KindRule<Content> {
  /** Null where nothing changes. */
  readonly change: (before: Content | null, content: Content) => ViewChange | null;
  /** Null where the change does not fit. */
  readonly follow: (before: Content | null, change: Fields) => Content | null;
}

type OfKind<Kind> = Extract<ViewContent, { readonly kind: Kind }>;

const rules: { readonly [Kind in ViewContent['kind']]: KindRule<OfKind<Kind>> } = {
  picture: {
    change: (before, { picture }) => {
      if (before?.picture === picture) return null;
      const head = changedHead(before && pictureHead(before.picture), pictureHead(picture), isPictureHead);
      const items = listChange(before?.picture.items ?? [], picture.items, primitiveRule);
      return head || items ? { kind: 'picture', ...(head && { head }), ...(items && { items }) } : null;
    },
    follow: (before, { head, items }) => {
      const heading = followHead(before && pictureHead(before.picture), head, isPictureHead);
      const drawn =
        items === undefined
          ? (before?.picture.items ?? [])
          : followPrimitives(before?.picture.items ?? [], items);
      return isPictureHead(heading) && drawn
        ? { kind: 'picture', picture: { ...heading, items: drawn } }
        : null;
    },
  },
  table: {
    change: (before, { table }) => {
      const head = changedHead(before && tableHead(before.table), tableHead(table), isTableHead);
      const rows = listChange(before?.table.rows ?? [], table.rows, rowRule);
      return head || rows ? { kind: 'table', ...(head && { head }), ...(rows && { rows }) } : null;
    },
    follow: (before, { head, rows }) => {
      const heading = followHead(before && tableHead(before.table), head, isTableHead);
      const cells =
        rows === undefined ? (before?.table.rows ?? []) : followList(before?.table.rows ?? [], rows, readRow);
      return isTableHead(heading) && cells ? { kind: 'table', table: { ...heading, rows: cells } } : null;
    },
  },
  solids: { change: solidsChange, follow: followSolids },
  variants: { change: variantsChange, follow: followVariants },
};

/** The rule for content of a kind; null where there is no such kind. */
function ruleOf(kind: unknown): KindRule<ViewContent> | null {
  const known = typeof kind === 'string' && Object.hasOwn(rules, kind);
  // What the rule is given is of its kind.
  return known ? (rules[kind as ViewContent['kind']] as KindRule<ViewContent>) : null;
}

/** What is sent where one content follows on another: null where nothing is, 'none' where there is nothing to show. */
export function viewChange(
  before: ViewContent | null,
  content: ViewContent | null,
): ViewChange | 'none' | null {
  if (before === content) return null;
  if (content === null) return 'none';
  return ruleOf(content.kind)!.change(ofKind(before, content.kind), content);
}

/** The content that follows; undefined where the change does not fit, or is none. */
export function followView(before: ViewContent | null, change: unknown): ViewContent | null | undefined {
  if (change === 'none') return null;
  if (!isRecord(change)) return undefined;
  return ruleOf(change.kind)?.follow(ofKind(before, change.kind), change) ?? undefined;
}

function ofKind(content: ViewContent | null, kind: unknown): ViewContent | null {
  return content?.kind === kind ? content : null;
}

const rowRule: ItemRule<readonly string[]> = {
  key: (row) => row.join('\t'),
  pack: (row) => row,
  change: (before, row) =>
    row.length === before.length && row.every((cell, index) => cell === before[index]) ? null : undefined,
};

function readRow(step: unknown) {
  return isTexts(step) ? { item: step, takesNext: false } : null;
}

function pictureHead({ items: _, ...head }: Picture): PictureHead {
  return head;
}

function tableHead({ rows: _, ...head }: ShownTable): TableHead {
  return head;
}

/** What changes of a head: its fields that do, or all of it where that is a head by itself or a field is gone; null for nothing. */
function changedHead<Head extends object>(
  before: Head | null,
  head: Head,
  isHead: (value: unknown) => boolean,
): Partial<Head> | null {
  if (before === null) return head;
  const names = Object.keys(head) as (keyof Head)[];
  const changed: Partial<Head> = {};
  for (const name of names) if (!isSame(before[name], head[name])) changed[name] = head[name];
  if (names.length !== Object.keys(before).length || isHead(changed)) return head;
  return Object.keys(changed).length > 0 ? changed : null;
}

/** The head that follows, nothing known of it yet. */
function followHead(before: object | null, change: unknown, isHead: (value: unknown) => boolean): unknown {
  if (change === undefined) return before;
  return before === null || !isRecord(change) || isHead(change) ? change : { ...before, ...change };
}

/** Whether a value is a picture; its items are left to `paint`, which draws what it knows and says what it does not. */
export function isPicture(value: unknown): value is Picture {
  return isPictureHead(value) && Array.isArray((value as Partial<Picture>).items);
}

/** Whether a value is a table that can be shown. */
export function isTable(value: unknown): value is ShownTable {
  return isTableHead(value) && isListOf((value as Partial<ShownTable>).rows, isTexts);
}

function isPictureHead(value: unknown): value is PictureHead {
  return (
    hasTexts(value, ['title', 'description']) &&
    isSize(value.width) &&
    isSize(value.height) &&
    (value.notes === undefined || isTexts(value.notes))
  );
}

function isTableHead(value: unknown): value is TableHead {
  return (
    hasTexts(value, ['title']) &&
    isTexts(value.columns) &&
    (value.signs === undefined || (isRecord(value.signs) && isTexts(Object.values(value.signs))))
  );
}
