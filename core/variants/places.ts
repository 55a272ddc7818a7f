import type { Range } from '../language/finding.ts';
import { itemAmount, itemText } from '../language/specification/series.ts';
import type { VariedWord } from '../language/specification/specification.ts';
import { isVaried, statementsOf, variedName } from '../language/specification/varyRules.ts';
import type { Block, Document, SeriesItem, Statement, Value } from '../language/text/document.ts';
import { parse } from '../language/text/parser.ts';
import { valueFindings } from '../language/text/statementChecks.ts';
import { variedPart } from '../language/vocabulary/varied.ts';
import type { BlockName } from '../language/vocabulary/vocabulary.ts';

/** Where a value goes in a text: in place of that of a statement, or in a new statement of a block. */
export type Place =
  | { readonly kind: 'value'; readonly statement: Statement; readonly range: Range }
  | { readonly kind: 'new'; readonly block: Block | null; readonly name: BlockName; readonly before: string };

/** A value set at a place; none that is counted from the pole pitch. */
export interface Setting {
  readonly place: Place;
  readonly item: SeriesItem;
}

/** The places of a word that varies. */
export function placesOf(document: Document, word: VariedWord): readonly Place[] {
  const statements = statementsOf(document, word).filter((statement) => isVaried(word, statement));
  const given = statements.map(
    (statement): Place => ({
      kind: 'value',
      statement,
      range: variedValue(statement)!.range,
    }),
  );
  const blocks = document.blocks.filter(
    ({ name, layers }) =>
      name === word.entry.block &&
      (word.slotLayers.length === 0 ||
        word.slotLayers.every((one) => layers.some(({ layer }) => layer === one))),
  );
  const name = word.entry.block;
  // Behind the block, and the layers of a slot: `skew a b`.
  const before = variedName({ ...word, slotLayers: [] }).slice(name.length + 1);
  if (blocks.length === 0) return [{ kind: 'new', block: null, name, before }];
  const lacking = blocks.filter(
    ({ statements: held }) => !held.some((statement) => statements.includes(statement)),
  );
  return [...given, ...lacking.map((block): Place => ({ kind: 'new', block, name, before }))];
}

/** The value of a statement that a row would vary. */
export function variedValue({ entry, values }: Statement): Value | undefined {
  const part = variedPart(entry);
  if (!part) return undefined;
  if (part.value.kind === 'choice') return values.find(({ kind }) => kind === 'keyword');
  const { placeholder } = part.value;
  return values.find((value) => value.kind === 'quantity' && value.placeholder === placeholder);
}

/** The block that a place is in. */
export function blockOf(place: Place): BlockName {
  return place.kind === 'new' ? place.name : place.statement.entry.block;
}

/** Makes the statement of a setting: as if it were written so and read; null where the rules of its word refuse the value. */
export type StatementMaker = (setting: Setting) => Statement | null;

/** A maker that parses a statement only where there is none yet at the place. */
export function statementMaker(): StatementMaker {
  const parsed = new Map<Place, Given>();
  const written = (place: Place, item: SeriesItem): Given => {
    if (place.kind === 'value') return place;
    const known = parsed.get(place);
    if (known) return known;
    const { statements } = parse(`${place.name} { ${place.before} ${itemText(item)} }`).blocks[0]!;
    const made = { statement: statements[0]!, range: variedValue(statements[0]!)!.range };
    parsed.set(place, made);
    return made;
  };
  return ({ place, item }) => {
    const { statement, range } = written(place, item);
    const { entry, word } = statement;
    const values = statement.values.map((value) => (value.range === range ? withItem(value, item) : value));
    const made: Statement = { entry, word, values, range: statement.range };
    return valueFindings(made).some(({ severity }) => severity === 'error') ? null : made;
  };
}

type Given = Pick<Extract<Place, { kind: 'value' }>, 'statement' | 'range'>;

/** A value of a statement with what an item of a row says in its place. */
function withItem(value: Value, item: SeriesItem): Value {
  const { range } = value;
  if (item.kind === 'choice') return { kind: 'keyword', text: item.text, range };
  if (item.kind !== 'number' || value.kind !== 'quantity')
    throw new RangeError(`no ${item.kind} in the place of a ${value.kind}`);
  const { placeholder, dimension } = value;
  const { unit } = item;
  const written = itemText(item);
  return { kind: 'quantity', placeholder, dimension, value: itemAmount(item), unit, written, range };
}

/** The edits of a text that settings make, in its order. */
export function settingEdits(
  document: Document,
  settings: readonly Setting[],
): readonly { readonly range: Range; readonly text: string }[] {
  const edits: { range: Range; text: string }[] = [];
  const added = new Map<string, { block: Block | null; name: BlockName; lines: string[] }>();
  for (const setting of settings) {
    const { place } = setting;
    if (place.kind === 'value') {
      edits.push({ range: place.range, text: itemText(setting.item) });
      continue;
    }
    const key = place.block ? String(place.block.range.start) : place.name;
    const entry = added.get(key) ?? { block: place.block, name: place.name, lines: [] };
    entry.lines.push(`${place.before} ${itemText(setting.item)}`);
    added.set(key, entry);
  }
  for (const { block, name, lines } of added.values()) {
    if (block) {
      const at = block.range.end - 1;
      const oneLine = !document.text.slice(block.range.start, at).includes('\n');
      const text = oneLine ? `${lines.join('  ')} ` : `${lines.map((line) => `  ${line}\n`).join('')}`;
      edits.push({ range: { start: at, end: at }, text });
    } else {
      const end = document.text.length;
      edits.push({
        range: { start: end, end },
        text: `\n${name} {\n${lines.map((line) => `  ${line}\n`).join('')}}\n`,
      });
    }
  }
  return edits.sort((a, b) => a.range.start - b.range.start || a.range.end - b.range.end);
}

/** A text with edits made, which do not overlap and are in its order. */
export function editedText(
  text: string,
  edits: readonly { readonly range: Range; readonly text: string }[],
): string {
  let out = '';
  let at = 0;
  for (const { range, text: written } of edits) {
    out += text.slice(at, range.start) + written;
    at = range.end;
  }
  return out + text.slice(at);
}
