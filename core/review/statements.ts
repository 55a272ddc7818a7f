import type { Range } from '../language/finding.ts';
import { layerLetter } from '../language/layerLetters.ts';
import { significant } from '../language/numbers.ts';
import { itemAmount, itemText } from '../language/specification/series.ts';
import type { Block, RowPlace, SeriesItem, Statement, Value, WalkStep } from '../language/text/document.ts';
import { type Token, tokenIndexAt } from '../language/text/lexer.ts';
import { expandSequence, mostItems, type Sequence, sequenceLength } from '../language/text/sequence.ts';
import { visible } from '../language/text/visible.ts';
import { unitNamed } from '../language/vocabulary/units.ts';
import { type VocabularyEntry, vocabulary } from '../language/vocabulary/vocabulary.ts';
import type { Reviewed } from './reviewed.ts';

/** A statement as compared: which one it is, what it says in a form free of spelling, and its words. */
export interface StatementWords {
  /** Block, word and what tells it from others of that word: `bar width a b`, `require slot-fill <=`. */
  readonly what: string;
  /** Tells statements apart whose names are equal, where what they say is what they are: notes. */
  readonly key: string;
  /** What it says; equal for `3 mm` and `0.003 m`. */
  readonly meaning: string;
  /** Its value as written, blanks and comments aside. */
  readonly words: string;
  readonly block: string;
  readonly entry: VocabularyEntry | null;
  readonly statement: Statement | null;
}

const rankOf = new Map(vocabulary.map((entry, i) => [entry, i]));

/** Every statement of a text, those that were not understood among them, in the vocabulary's order. */
export function statementsOf({ document, specification }: Reviewed): readonly StatementWords[] {
  const title = document.title ? [readStatement(document.tokens, 'winding', document.title)] : [];
  const understood = document.blocks.flatMap((block) =>
    block.statements.map((statement) => readStatement(document.tokens, blockLabel(block), statement)),
  );
  understood.sort((a, b) => (rankOf.get(a.entry!) ?? 0) - (rankOf.get(b.entry!) ?? 0));
  const broken = specification.broken.flatMap(({ block, word, range }): readonly StatementWords[] => {
    const text = joinedTokens(document.tokens, range);
    const words = visible(word === '' ? text : text.slice(word.length).trim());
    // What stands in a block that is not closed is told statement by statement.
    if (words === '{' || document.blocks.some((one) => one.range.start === range.start && isRead(one)))
      return [];
    const named = word === 'winding' ? 'winding title' : visible(word);
    const what = block === 'file' ? named : `${block} ${visible(word)}`;
    return [{ what, key: what, meaning: `? ${text}`, words, block, entry: null, statement: null }];
  });
  return [...title, ...understood, ...broken];
}

/** Whether what stands in a block was looked at, understood or not. */
function isRead({ statements, broken }: Block): boolean {
  return statements.length + broken.length > 0;
}

/** What a statement is called where it is looked up by its place in the text. */
export function statementName(study: Reviewed, statement: Statement): string {
  const block = study.document.blocks.find(({ statements }) => statements.includes(statement));
  return readStatement(study.document.tokens, block ? blockLabel(block) : 'winding', statement).what;
}

function blockLabel({ name, layers }: Block): string {
  return [name, ...layers.map(({ layer }) => layerLetter(layer))].join(' ');
}

function readStatement(tokens: readonly Token[], block: string, statement: Statement): StatementWords {
  const { entry, values } = statement;
  const naming = namingValues(statement);
  const rest = values.slice(naming);
  const name = values.slice(0, naming).map(valueMeaning).join(' ');
  const first = rest[0];
  const words = first
    ? visible(joinedTokens(tokens, { start: first.range.start, end: statement.range.end }))
    : '';
  const joining = entry.block === 'connect' && ['star', 'delta', 'open'].includes(entry.word);
  if (joining) {
    const whole = words === '' ? entry.word : `${entry.word} ${words}`;
    const what = 'connect phases';
    return { what, key: what, meaning: whole, words: whole, block, entry, statement };
  }
  const word = block === 'winding' ? 'title' : entry.word;
  const meaning = rest.map(valueMeaning).join(' ');
  const what = [block, word, name].filter((part) => part !== '').join(' ');
  // A note is what it says: a changed one is a note gone and a note new.
  const note = entry.block === 'sheet' && entry.word === 'note';
  const key = note ? `${what} ${meaning}` : what;
  return { what, key, meaning, words, block, entry, statement };
}

/** How many of a statement's first values tell which one it is, rather than what it says. */
function namingValues({ entry, values }: Statement): number {
  const leading = (test: (value: Value) => boolean) => {
    const end = values.findIndex((value) => !test(value));
    return end < 0 ? values.length : end;
  };
  if (entry.role === 'quantity')
    return values.findIndex((value) => value.kind === 'keyword' && /^[<>]=$/.test(value.text)) + 1;
  switch (`${entry.block} ${entry.word}`) {
    case 'layout layer':
    case 'require accept':
      return 1;
    case 'layout skew':
    case 'bar width':
    case 'bar height':
    case 'bar strands':
      return leading((value) => value.kind === 'layer' || (value.kind === 'keyword' && value.text === 'all'));
    case 'vary machine':
    case 'vary slot':
    case 'vary bar':
    case 'vary insulation':
    case 'vary layout':
    case 'vary connect':
      return 1;
    case 'vary keep':
      return values.findIndex((value) => value.kind === 'keyword' && /^[<>]=$/.test(value.text)) + 1;
    case 'machine rotor-field':
    case 'connect path':
      return 2;
    case 'connect repeat':
      return 3;
    default:
      return 0;
  }
}

/** A value without its spelling: SI amounts, rows and paths unfolded. */
function valueMeaning(value: Value): string {
  switch (value.kind) {
    case 'quantity': {
      const amount = significant(value.value, 12);
      return value.dimension === 'angle' ? `${amount} ${value.unit}` : amount;
    }
    case 'text':
      return JSON.stringify(value.text);
    case 'layer':
      return layerLetter(value.layer);
    case 'row':
      return unfolded(value.places, placeText);
    case 'walk':
      return unfolded(value.steps, stepText);
    case 'target':
      return [
        ...value.slotLayers.map(layerLetter),
        value.entry.word,
        ...value.qualifiers.map(valueMeaning),
      ].join(' ');
    case 'series':
      return [value.items, value.to ? [value.to] : [], value.by ? [value.by] : []]
        .map((items) => items.map(itemMeaning).join(' '))
        .join(' / ');
    case 'measure':
      return value.entry.word;
    default:
      return value.text;
  }
}

function itemMeaning(item: SeriesItem): string {
  if (item.kind !== 'number') return itemText(item);
  const amount = significant(itemAmount(item), 12);
  return item.unit !== null && unitNamed(item.unit)?.dimension === 'angle'
    ? `${amount} ${item.unit}`
    : amount;
}

function unfolded<Leaf>(sequence: Sequence<Leaf>, text: (leaf: Leaf) => string): string {
  if (sequenceLength(sequence) > mostItems) return JSON.stringify(sequence);
  return expandSequence(sequence).map(text).join(' ');
}

function placeText({ phase, sense }: RowPlace): string {
  return phase === null ? '.' : `${sense > 0 ? '+' : '-'}${phase}`;
}

function stepText(step: WalkStep): string {
  switch (step.kind) {
    case 'piece':
      return '|';
    case 'position':
      return `${step.slot}${layerLetter(step.layer)}`;
    case 'hop':
      return `${step.slots >= 0 ? '+' : ''}${step.slots}${layerLetter(step.layer)}`;
  }
}

/** The tokens of a stretch with single blanks between them, comments left out. */
function joinedTokens(tokens: readonly Token[], { start, end }: Range): string {
  const parts: string[] = [];
  let last = '(';
  for (let i = tokenIndexAt(tokens, start); i < tokens.length && tokens[i]!.start < end; i++) {
    const token = tokens[i]!;
    if (token.kind === 'comment' || token.start < start) continue;
    if (!/[(*]$/.test(last) && !/^[)*]/.test(token.text)) parts.push(' ');
    parts.push(token.text);
    last = token.text;
  }
  return parts.join('');
}
