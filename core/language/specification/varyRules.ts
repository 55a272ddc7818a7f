import { type Finding, finding } from '../finding.ts';
import { layerLetter } from '../layerLetters.ts';
import type { Document, Statement, Value } from '../text/document.ts';
import {
  keepWithoutLimits,
  varyLayersDiffer,
  varyOrder,
  varyWordRepeated,
  varyWritten,
} from '../varyFindingKinds.ts';
import type { Measure, Specification, VariedWord } from './specification.ts';

/** Findings about rows of `vary` that do not go with each other, or with the rest of the text. */
export function varyFindings(specification: Specification, document: Document): readonly Finding[] {
  const { vary } = specification;
  if (!vary) return [];
  const words = vary.rows.flatMap(({ value }) => value.columns.map(({ word }) => word));
  return [
    ...repeatedWords(words),
    ...words.flatMap((word) => againstWritten(word, specification)),
    ...words.flatMap((word) => againstLayers(word, document)),
    ...orders(words, specification),
  ];
}

/** The layers a statement is for, as letters; `all` where it says so, null where it names none. */
function layersOf(values: readonly Value[]): string | null {
  const named = values.flatMap((value) => (value.kind === 'layer' ? [value.layer] : []));
  if (named.length > 0)
    return named
      .sort((a, b) => a - b)
      .map(layerLetter)
      .join('');
  return values.some((value) => value.kind === 'keyword' && value.text === 'all') ? 'all' : null;
}

/** The block and word with what tells its statements apart, as it would be written. */
export function variedName({ entry, slotLayers, qualifiers }: VariedWord): string {
  const letters = slotLayers.map(layerLetter);
  return [entry.block, ...letters, entry.word, ...qualifiers.map(qualifierText)].join(' ');
}

function qualifierText(value: Value): string {
  switch (value.kind) {
    case 'layer':
      return layerLetter(value.layer);
    case 'quantity':
      return value.written;
    case 'keyword':
      return value.text;
    default:
      return '';
  }
}

/** Whether two rows are for one statement: the same word, for a layer in common. */
function overlap(one: VariedWord, other: VariedWord): boolean {
  if (one.entry !== other.entry) return false;
  const slots = (word: VariedWord) => word.slotLayers;
  const apart =
    slots(one).length > 0 &&
    slots(other).length > 0 &&
    !slots(one).some((layer) => slots(other).includes(layer));
  if (apart) return false;
  if (one.entry.word === 'rotor-field') return variedName(one) === variedName(other);
  const [a, b] = [layersOf(one.qualifiers), layersOf(other.qualifiers)];
  // Without layers, or with all, a row is for every one.
  return (
    a === null || b === null || a === 'all' || b === 'all' || [...a].some((letter) => b.includes(letter))
  );
}

function repeatedWords(words: readonly VariedWord[]): readonly Finding[] {
  return words.flatMap((word, index) => {
    const first = words.slice(0, index).find((other) => overlap(other, word));
    if (!first) return [];
    const related = [{ message: 'first given here', range: first.range }];
    return [finding(varyWordRepeated, word.range, { word: variedName(word) }, { related })];
  });
}

const generated = new Set(['machine slots', 'machine poles', 'machine phases', 'layout layers']);
const onlyGenerated = new Set(['layout span', 'layout stagger', 'layout belt']);

function againstWritten(word: VariedWord, { layout, connect }: Specification): readonly Finding[] {
  const name = `${word.entry.block} ${word.entry.word}`;
  const bars = generated.has(name) || onlyGenerated.has(name);
  const row = layout?.rows[0];
  if (row && bars) {
    const related = [{ message: 'a written row', range: row.statement }];
    return [finding(varyWritten, word.range, { word: variedName(word), what: 'rows' }, { related })];
  }
  const path = connect?.paths[0];
  if (path && (bars || name === 'connect route')) {
    const related = [{ message: 'a written path', range: path.statement }];
    return [finding(varyWritten, word.range, { word: variedName(word), what: 'paths' }, { related })];
  }
  return [];
}

/** The statements of the text that a row is about. */
export function statementsOf(document: Document, { entry, slotLayers }: VariedWord): readonly Statement[] {
  const blocks = document.blocks.filter(({ name }) => name === entry.block);
  const named = blocks.filter(
    ({ layers }) =>
      slotLayers.length === 0 ||
      layers.length === 0 ||
      slotLayers.every((layer) => layers.some((one) => one.layer === layer)),
  );
  return named.flatMap(({ statements }) => statements.filter((statement) => statement.entry === entry));
}

/** Whether a statement of the text is the one that a row gives values for. */
export function isVaried(word: VariedWord, { values }: Statement): boolean {
  if (word.entry.word === 'rotor-field') {
    const [, written] = values;
    const [, asked] = word.qualifiers;
    return written?.kind === 'quantity' && asked?.kind === 'quantity' && written.value === asked.value;
  }
  return layersOf(values) === layersOf(word.qualifiers);
}

function againstLayers(word: VariedWord, document: Document): readonly Finding[] {
  const asked = layersOf(word.qualifiers);
  if (word.entry.word === 'rotor-field' || word.entry.word === 'separator') return [];
  return statementsOf(document, word).flatMap((statement) => {
    const written = layersOf(statement.values);
    if (written === asked) return [];
    // Sizes for layers that are named count before those for all.
    if (written === null) return [];
    const apart =
      asked !== null &&
      asked !== 'all' &&
      written !== 'all' &&
      ![...asked].some((letter) => written.includes(letter));
    if (apart) return [];
    const related = [{ message: 'the statement', range: statement.range }];
    const text = document.text.slice(statement.range.start, statement.range.end).replace(/\s+/g, ' ');
    return [finding(varyLayersDiffer, word.range, { word: variedName(word), written: text }, { related })];
  });
}

function orders(words: readonly VariedWord[], { vary, limits }: Specification): readonly Finding[] {
  const polesVary = words.some(({ entry }) => entry.block === 'machine' && entry.word === 'poles');
  const wrong = (range: Finding['range'], { scope }: Pick<Measure, 'scope'>): readonly Finding[] =>
    polesVary && scope?.kind === 'order' ? [finding(varyOrder, range, { order: scope.number })] : [];
  return [
    ...vary!.rank.flatMap(({ value, range }) => wrong(range, value.measure)),
    ...vary!.keeps.flatMap(({ value, range }) => {
      if (value) return wrong(range, value);
      if (limits.length === 0) return [finding(keepWithoutLimits, range, null)];
      return limits.flatMap((limit) => wrong(range, limit.value)).slice(0, 1);
    }),
  ];
}
