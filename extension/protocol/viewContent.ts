import type { Picture } from '../../core/picture/picture.ts';
import { followList, type ItemRule, listChange } from './listChange.ts';
import { followPrimitives, primitiveRule } from './packedPrimitive.ts';
import type { ShownTable, ViewContent } from './shownParts.ts';
import { followVariants, type VariantsChange, variantsChange } from './shownVariants.ts';
import { followSolids, type SolidsChange, solidsChange } from './solidsChange.ts';
import { hasTexts, isListOf, isRecord, isSize, isTexts } from './values.ts';

/** What changes of a view's content, by its kind; what is left out stays as it was. */
export type ViewChange =
  | { readonly kind: 'picture'; readonly head?: PictureHead; readonly items?: unknown }
  | { readonly kind: 'table'; readonly head?: TableHead; readonly rows?: unknown }
  | SolidsChange
  | VariantsChange;

type PictureHead = Omit<Picture, 'items'>;
type TableHead = Omit<ShownTable, 'rows'>;

/** How content of one kind is sent. A content of another kind, or none, goes before as null. */
interface KindRule<Content> {
  /** Null where nothing changes. */
  readonly change: (before: Content | null, content: Content) => ViewChange | null;
  /** Null where the change does not fit. */
  readonly follow: (before: Content | null, change: Readonly<Record<string, unknown>>) => Content | null;
}

type OfKind<Kind> = Extract<ViewContent, { readonly kind: Kind }>;

const rules: { readonly [Kind in ViewContent['kind']]: KindRule<OfKind<Kind>> } = {
  picture: {
    change: (before, { picture }) => {
      const head = changedHead(before && pictureHead(before.picture), pictureHead(picture));
      const items = listChange(before?.picture.items ?? [], picture.items, primitiveRule);
      return head || items ? { kind: 'picture', ...(head && { head }), ...(items && { items }) } : null;
    },
    follow: (before, { head, items }) => {
      const heading = head ?? (before && pictureHead(before.picture));
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
      const head = changedHead(before && tableHead(before.table), tableHead(table));
      const rows = listChange(before?.table.rows ?? [], table.rows, rowRule);
      return head || rows ? { kind: 'table', ...(head && { head }), ...(rows && { rows }) } : null;
    },
    follow: (before, { head, rows }) => {
      const heading = head ?? (before && tableHead(before.table));
      const cells =
        rows === undefined ? (before?.table.rows ?? []) : followList(before?.table.rows ?? [], rows, readRow);
      return isTableHead(heading) && cells ? { kind: 'table', table: { ...heading, rows: cells } } : null;
    },
  },
  solids: { change: solidsChange, follow: followSolids },
  variants: { change: variantsChange, follow: followVariants },
};

/** What is sent where one content follows on another: null where nothing is, 'none' where there is nothing to show. */
export function viewChange(
  before: ViewContent | null,
  content: ViewContent | null,
): ViewChange | 'none' | null {
  if (content === null) return before === null ? null : 'none';
  if (before === content) return null;
  switch (content.kind) {
    case 'picture':
      return rules.picture.change(before?.kind === 'picture' ? before : null, content);
    case 'table':
      return rules.table.change(before?.kind === 'table' ? before : null, content);
    case 'solids':
      return rules.solids.change(before?.kind === 'solids' ? before : null, content);
    case 'variants':
      return rules.variants.change(before?.kind === 'variants' ? before : null, content);
  }
}

/** The content that follows; undefined where the change does not fit, or is none. */
export function followView(before: ViewContent | null, change: unknown): ViewContent | null | undefined {
  if (change === 'none') return null;
  if (!isRecord(change)) return undefined;
  if (change.kind === 'picture')
    return rules.picture.follow(before?.kind === 'picture' ? before : null, change) ?? undefined;
  if (change.kind === 'table')
    return rules.table.follow(before?.kind === 'table' ? before : null, change) ?? undefined;
  if (change.kind === 'solids')
    return rules.solids.follow(before?.kind === 'solids' ? before : null, change) ?? undefined;
  if (change.kind === 'variants')
    return rules.variants.follow(before?.kind === 'variants' ? before : null, change) ?? undefined;
  return undefined;
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

function changedHead<Head>(before: Head | null, head: Head): Head | null {
  return JSON.stringify(before) === JSON.stringify(head) ? null : head;
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
  return hasTexts(value, ['title']) && isTexts(value.columns);
}
