import { type Pattern, parsePattern } from './pattern.ts';
import { dimensionOf } from './patternWords.ts';
import {
  type BlockName,
  statementEntry,
  type VocabularyEntry,
  vocabulary,
  vocabularyEntry,
} from './vocabulary.ts';

/** The blocks whose words a row of `vary` can name. */
export const varyBlocks: ReadonlySet<string> = new Set([
  'machine',
  'slot',
  'bar',
  'insulation',
  'layout',
  'connect',
]);

/** What of a statement a row of `vary` gives values for: its number or its choice; `qualifiers` stand before it. */
export interface VariedPart {
  readonly qualifiers: readonly Pattern[];
  readonly value:
    | { readonly kind: 'number'; readonly placeholder: string }
    | { readonly kind: 'choice'; readonly words: readonly string[] };
}

const parts = new Map<VocabularyEntry, VariedPart | null>();

/** The part of a word's statement that can vary; null for words that only stand or are written out. */
export function variedPart(entry: VocabularyEntry): VariedPart | null {
  const found = parts.get(entry);
  if (found !== undefined) return found;
  const part = findPart(parsePattern(entry.pattern));
  parts.set(entry, part);
  return part;
}

function findPart(pattern: Pattern): VariedPart | null {
  if (pattern.kind === 'choice') {
    const words = pattern.parts.flatMap((part) => (part.kind === 'literal' ? [part.text] : []));
    return words.length === pattern.parts.length
      ? { qualifiers: [], value: { kind: 'choice', words } }
      : null;
  }
  const series = pattern.kind === 'series' ? pattern.parts : [pattern];
  const written = series.filter(({ kind }) => kind === 'placeholder') as { readonly name: string }[];
  if (written.some(({ name }) => name !== 'layer' && dimensionOf[name] === undefined)) return null;
  const last = series.reduce(
    (found, part, at) => (part.kind === 'placeholder' && part.name !== 'layer' ? at : found),
    -1,
  );
  const value = series[last];
  if (value?.kind !== 'placeholder') return null;
  return { qualifiers: series.slice(0, last), value: { kind: 'number', placeholder: value.name } };
}

/** The word of a block that a row can name. */
export function variedEntry(block: string, word: string): VocabularyEntry | undefined {
  const entry = varyBlocks.has(block) ? statementEntry(block as BlockName, word) : undefined;
  return entry && variedPart(entry) ? entry : undefined;
}

/** The words of a block that a row can name. */
export function variedEntries(block: string): readonly VocabularyEntry[] {
  return vocabulary.filter(
    (entry) =>
      entry.block === block && entry.role === 'statement' && variedEntry(block, entry.word) === entry,
  );
}

/** Quantities of `keep` and `rank` beside those of `require`: they follow from the layout alone. */
const layoutQuantities = [
  'largest-paths',
  'cogging-periods',
  'lowest-force-order',
  'radial-symmetry',
] as const;
export type LayoutQuantity = (typeof layoutQuantities)[number];

/** Whether a word is one of these. */
export function isLayoutQuantity(word: string): word is LayoutQuantity {
  return layoutQuantities.some((each) => each === word);
}

/** The quantity that `keep` and `rank` know by a word. */
export function measuredEntry(word: string): VocabularyEntry | undefined {
  return (
    vocabularyEntry('require', 'quantity', word) ??
    (isLayoutQuantity(word) ? vocabularyEntry('vary', 'choice', word) : undefined)
  );
}

/** The quantities that `keep` and `rank` take. */
export function measuredEntries(): readonly VocabularyEntry[] {
  return [
    ...vocabulary.filter(({ role }) => role === 'quantity'),
    ...layoutQuantities.map((word) => vocabularyEntry('vary', 'choice', word)!),
  ];
}

/** The words that say which value of a quantity is meant. */
export function scopesOf({ perOrder, perPoint }: VocabularyEntry): readonly string[] {
  return perOrder ? ['harmonic', 'order'] : perPoint ? ['at'] : [];
}

/** What of two can stay equal. */
export const heldPairs: readonly (readonly string[])[] = [
  ['gap-flux-density', 'flux'],
  ['torque', 'current'],
  ['shares', 'sizes'],
];
