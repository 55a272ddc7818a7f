import { mostSlots } from './counts.ts';
import { findingKind } from './finding.ts';
import { layerLetter } from './layerLetters.ts';
import { oddCharacters } from './text/oddCharacters.ts';
import { quoted } from './text/quoted.ts';

function didYouMean(suggestion: string | undefined): string {
  return suggestion === undefined ? '' : `; did you mean '${suggestion}'?`;
}

export const fileTooLarge = findingKind<{ bytes: number; most: number }>({
  code: 'file-too-large',
  severity: 'error',
  help: 'A winding file holds at most 2 MB of text.',
  message: ({ bytes, most }) => `The text has ${bytes} characters; at most ${most} are read.`,
});

export const findingsTooMany = findingKind<{ most: number }>({
  code: 'findings-too-many',
  severity: 'error',
  help: 'After 1000 findings the rest of a text is not read.',
  message: ({ most }) => `More than ${most} findings: the text is not read from here on.`,
});

export const unclosedString = findingKind<null>({
  code: 'string-not-closed',
  severity: 'error',
  help: 'A text in quotes ends on the line it begins on.',
  message: () => 'This text has no closing quote on its line.',
});

export const badEscape = findingKind<null>({
  code: 'escape-unknown',
  severity: 'error',
  help: 'In a text in quotes a backslash stands only before a quote or another backslash.',
  message: () => 'Only \\" and \\\\ can follow a backslash in a text; write \\\\ for a backslash.',
});

export const unknownBlock = findingKind<{
  text: string;
  suggestion: string | undefined;
  /** Blocks that hold a statement of this word. */
  elsewhere?: readonly string[];
}>({
  code: 'block-unknown',
  severity: 'error',
  help: 'A file holds a winding title and the blocks machine, slot, bar, insulation, layout, connect, duty, require, vary and sheet.',
  message: ({ text, suggestion, elsewhere = [] }) =>
    elsewhere.length > 0
      ? `${quoted(text)} does not begin a block; it belongs in the block ${elsewhere.map(quoted).join(' or ')}.`
      : `${quoted(text)} does not begin a block${didYouMean(suggestion)}${suggestion ? '' : '; expected winding, machine, slot, bar, insulation, layout, connect, duty, require, vary or sheet.'}`,
});

/** What the language calls a word of the trade. */
export interface TradeHint {
  readonly ours: string;
  readonly remark?: string | undefined;
  /** The block in which it is called so, where it is another one. */
  readonly block?: string;
  /** The statement is given already. */
  readonly given?: boolean;
}

export const unknownWord = findingKind<{
  text: string;
  block: string;
  suggestion: string | undefined;
  elsewhere: readonly string[];
  trade?: readonly TradeHint[];
}>({
  code: 'word-unknown',
  severity: 'error',
  help: 'Each block has its own words; the language reference lists them.',
  message: ({ text, block, suggestion, elsewhere, trade = [] }) => {
    if (trade.length > 0)
      return `${quoted(text)} is not a word of ${block}; ${trade.map(tradeHint).join(', ')}.`;
    return elsewhere.length > 0
      ? `${quoted(text)} does not belong in ${block}; it belongs in ${elsewhere.join(' or ')}.`
      : `${quoted(text)} is not a word of ${block}${didYouMean(suggestion)}${suggestion ? '' : '.'}`;
  },
});

function tradeHint({ ours, remark, block, given }: TradeHint): string {
  const place = block === undefined ? 'here' : `in ${block}`;
  return `${place} it is ${quoted(ours)}${remark === undefined ? '' : `, ${remark}`}${given ? ', which is given already' : ''}`;
}

export const layerSourceMissing = findingKind<{ word: string; layer: string; source: string }>({
  code: 'layer-source-missing',
  severity: 'error',
  help: 'A layer that is moved or negated is derived from another layer, which has to be named.',
  message: ({ word, layer, source }) =>
    word === 'layer'
      ? `'layer' needs '=' before it here, as in 'layer ${layer} = layer ${source} moved 5'.`
      : `${quoted(word)} needs the layer it comes from before it: '= layer ${source}', as in 'layer ${layer} = layer ${source} ${word === 'moved' ? 'moved 5' : word}'.`,
});

export const expectedValue = findingKind<{
  word: string;
  expected: string;
  found: string;
  example: string;
  suggestion: string | undefined;
  /** The word for what is written, where another statement takes it. */
  named?: string | undefined;
}>({
  code: 'value-expected',
  severity: 'error',
  help: 'Each word is followed by the values its entry in the language reference shows.',
  message: ({ word, expected, found, example, suggestion, named }) =>
    `${quoted(word)} needs ${expected} here, not ${found}${didYouMean(suggestion)}${
      suggestion
        ? ''
        : named === undefined
          ? `; for example: ${example}`
          : `; the word for that is ${quoted(named)}.`
    }`,
});

export const unexpectedText = findingKind<{
  text: string;
  word: string;
  example: string;
  /** All words that the statement takes, where it takes one of them and nothing else. */
  choices?: readonly string[] | undefined;
  suggestion: string | undefined;
}>({
  code: 'text-unexpected',
  severity: 'error',
  help: 'A statement holds only the values its entry in the language reference shows.',
  message: ({ text, word, example, choices, suggestion }) =>
    `${quoted(text)} has no meaning after ${quoted(word)}${didYouMean(suggestion)}${
      suggestion
        ? ''
        : choices
          ? `, which takes one of ${choices.map(quoted).join(', ')}.`
          : `; for example: ${example}`
    }`,
});

export const numberParted = findingKind<{ written: string; meant: readonly string[] }>({
  code: 'number-parted',
  severity: 'error',
  help: 'A number has a point before its decimals, and neither commas nor blanks within.',
  message: ({ written, meant }) => `${quoted(written)} is not a number here; write ${meant.join(' or ')}.`,
});

export const unitMissing = findingKind<{ number: string; dimension: string; units: readonly string[] }>({
  code: 'unit-missing',
  severity: 'error',
  help: 'A number that measures something carries its unit, after a blank.',
  message: ({ number, dimension, units }) =>
    `${quoted(number)} needs a unit of ${dimension} (${units.join(', ')}), after a blank.`,
});

export const unitWrong = findingKind<{
  unit: string;
  dimension: string;
  units: readonly string[];
  suggestion: string | undefined;
}>({
  code: 'unit-wrong',
  severity: 'error',
  help: 'The unit has to measure what the statement asks for.',
  message: ({ unit, dimension, units, suggestion }) =>
    units.length === 0
      ? `No unit belongs here: this is a plain number, without ${quoted(unit)}.`
      : `${quoted(unit)} is not a unit of ${dimension}${suggestion ? didYouMean(suggestion) : `; expected ${units.join(', ')}.`}`,
});

export const unitGlued = findingKind<{ number: string; unit: string }>({
  code: 'unit-without-blank',
  severity: 'error',
  help: 'Between a number and its unit stands a blank.',
  message: ({ number, unit }) => `Put a blank between the number and its unit: ${number} ${unit}`,
});

export const outOfRange = findingKind<{
  word: string;
  /** What the value is, where the word of its statement does not say it. */
  name?: string | undefined;
  written: string;
  expected: string;
  advice?: string | undefined;
}>({
  code: 'value-out-of-range',
  severity: 'error',
  help: 'Every value has a range, shown in the language reference.',
  message: ({ word, name, written, expected, advice }) =>
    `${name === undefined ? quoted(word) : `${name.charAt(0).toUpperCase()}${name.slice(1)} in ${quoted(word)}`} has to be ${expected}, not ${quoted(written)}${advice === undefined ? '.' : `; ${advice}.`}`,
});

export const blockNotClosed = findingKind<{ block: string }>({
  code: 'block-not-closed',
  severity: 'error',
  help: 'A block ends with a closing brace.',
  message: ({ block }) => `The block ${quoted(block)} has no closing '}'.`,
});

export const blockNotOpened = findingKind<{ block: string }>({
  code: 'block-not-opened',
  severity: 'error',
  help: "A block's word is followed by '{'.",
  message: ({ block }) => `The block ${quoted(block)} needs '{' here.`,
});

export const strayBrace = findingKind<null>({
  code: 'brace-unexpected',
  severity: 'error',
  help: 'Every closing brace closes a block.',
  message: () => "This '}' closes no block.",
});

export const blockRepeated = findingKind<{ block: string }>({
  code: 'block-repeated',
  severity: 'error',
  help: 'Each block stands at most once; slot once for each group of layers.',
  message: ({ block }) => `A second block ${quoted(block)}; each stands once.`,
});

export const statementRepeated = findingKind<{ word: string }>({
  code: 'statement-repeated',
  severity: 'error',
  help: 'A statement that is not repeatable stands once in its block.',
  message: ({ word }) => `${quoted(word)} is given a second time.`,
});

export const wordRepeated = findingKind<{ text: string; word: string }>({
  code: 'word-repeated',
  severity: 'error',
  help: 'What a statement lists by words, such as the wishes of a route, it names once each.',
  message: ({ text, word }) => `${quoted(text)} stands in this ${quoted(word)} a second time.`,
});

export const blockLabelUnexpected = findingKind<{ block: string }>({
  code: 'layers-unexpected',
  severity: 'error',
  help: 'Only slot blocks name layers before their brace.',
  message: ({ block }) => `${quoted(block)} does not name layers; only slot does.`,
});

export const groupNotClosed = findingKind<null>({
  code: 'group-not-closed',
  severity: 'error',
  help: 'A group in parentheses is closed and followed by * and a number.',
  message: () => "This '(' has no ')' in its statement.",
});

export const groupWithoutCount = findingKind<null>({
  code: 'group-without-count',
  severity: 'error',
  help: `A group in parentheses is followed by * and a whole number from 1 to ${mostSlots}.`,
  message: () => `A group needs '*' and a whole number from 1 to ${mostSlots} after it, as in (+6b +6a)*3.`,
});

export const groupEmpty = findingKind<null>({
  code: 'group-empty',
  severity: 'error',
  help: 'A group in parentheses holds at least one place, position or hop.',
  message: () => 'This group holds nothing to repeat.',
});

export const groupTooDeep = findingKind<{ most: number }>({
  code: 'groups-too-deep',
  severity: 'error',
  help: 'Groups nest at most 8 deep.',
  message: ({ most }) => `Groups nest at most ${most} deep; this one is left out.`,
});

export const groupStray = findingKind<null>({
  code: 'parenthesis-unexpected',
  severity: 'error',
  help: 'Every closing parenthesis closes a group.',
  message: () => "This ')' closes no group.",
});

export const sequenceTooLong = findingKind<{ items: number; most: number }>({
  code: 'expansion-too-long',
  severity: 'error',
  help: 'Repeated groups expand to at most 200 000 items in a file.',
  message: ({ items, most }) =>
    `Repeated groups expand to ${Number.isFinite(items) && items < 1e15 ? items : 'more than 10^15'} items; at most ${most} are allowed.`,
});

export const titleMissing = findingKind<null>({
  code: 'title-missing',
  severity: 'warning',
  help: 'The first line names the winding: winding "Tidal pump stator".',
  message: () => 'The winding has no name; begin with winding "..."',
});

export const blockMissing = findingKind<{ block: string; example: string }>({
  code: 'block-missing',
  severity: 'error',
  help: 'A file needs machine with slots, poles and phases, and a layout or written paths.',
  message: ({ block, example }) => `The file needs a block ${quoted(block)}; for example: ${example}`,
});

export const statementMissing = findingKind<{ block: string; word: string; example: string }>({
  code: 'statement-missing',
  severity: 'error',
  help: 'Some statements are required in their block.',
  message: ({ block, word, example }) =>
    `The block ${quoted(block)} needs ${quoted(word)}; for example: ${example}`,
});

export const statementsExclude = findingKind<{ word: string; other: string; reason: string }>({
  code: 'statements-exclude-each-other',
  severity: 'error',
  help: 'Some statements cannot stand together; one of them has to go.',
  message: ({ word, other, reason }) => `${quoted(word)} cannot stand beside ${quoted(other)}: ${reason}`,
});

export const textTooLong = findingKind<{ word: string; length: number; most: number }>({
  code: 'sheet-text-long',
  severity: 'warning',
  help: 'The fields of a title block after ISO 7200 hold a limited number of characters.',
  message: ({ word, length, most }) =>
    `${quoted(word)} has ${length} characters; its field of the title block (ISO 7200) holds ${most}.`,
});

export const reasonMissing = findingKind<{ word: string }>({
  code: 'reason-missing',
  severity: 'error',
  help: 'A warning is accepted with a reason, which others read.',
  message: ({ word }) => `${quoted(word)} needs a reason in its quotes: why the warning does no harm here.`,
});

export const stringTooLong = findingKind<{ word: string; length: number; most: number }>({
  code: 'text-too-long',
  severity: 'error',
  help: 'A text in quotes holds at most 10 000 characters; long notes are written as several.',
  message: ({ word, length, most }) =>
    `The text of ${quoted(word)} has ${length} characters; at most ${most} can be read.`,
});

export const statementsTooMany = findingKind<{ block: string; most: number }>({
  code: 'statements-too-many',
  severity: 'error',
  help: 'A block holds at most 1000 statements, connect 40 000.',
  message: ({ block, most }) =>
    `More than ${most} statements in ${quoted(block)}: the block is not read from here on.`,
});

export const blocksTooMany = findingKind<{ most: number }>({
  code: 'blocks-too-many',
  severity: 'error',
  help: 'A file holds at most 100 blocks.',
  message: ({ most }) => `More than ${most} blocks: the text is not read from here on.`,
});

export const phasesApartMissing = findingKind<null>({
  code: 'phases-need-angle',
  severity: 'error',
  help: 'Six phases are two three-phase sets; the angle between them has to be given.',
  message: () => "6 phases are two three-phase sets: say how far apart, as in 'phases 6 apart 30 edeg'.",
});

export const phasesApartUnexpected = findingKind<{ count: number }>({
  code: 'phases-apart-unexpected',
  severity: 'error',
  help: 'Only two three-phase sets (6 phases) are apart by an angle.',
  message: ({ count }) => `Only 6 phases (two sets) can be 'apart' an angle, not ${count}.`,
});

export const layerOutside = findingKind<{ layer: string; layers: number }>({
  code: 'layer-outside',
  severity: 'error',
  help: 'Layers are lettered from a; the layout says how many there are.',
  message: ({ layer, layers }) =>
    `There is no layer ${quoted(layer)}: the layout has ${layers} (${layers === 1 ? 'a' : `a to ${layerLetter(layers - 1)}`}).`,
});

export const layerRepeated = findingKind<{ layer: string; what: string }>({
  code: 'layer-repeated',
  severity: 'error',
  help: 'Each layer is described once.',
  message: ({ layer, what }) => `Layer ${quoted(layer)} already has ${what}.`,
});

/** Every kind the language itself reports. */
export const languageKinds = [
  fileTooLarge,
  findingsTooMany,
  oddCharacters,
  unclosedString,
  badEscape,
  unknownBlock,
  unknownWord,
  layerSourceMissing,
  expectedValue,
  unexpectedText,
  numberParted,
  unitMissing,
  unitWrong,
  unitGlued,
  outOfRange,
  blockNotClosed,
  blockNotOpened,
  strayBrace,
  blockRepeated,
  statementRepeated,
  wordRepeated,
  blockLabelUnexpected,
  groupNotClosed,
  groupEmpty,
  groupWithoutCount,
  groupTooDeep,
  groupStray,
  sequenceTooLong,
  titleMissing,
  blockMissing,
  statementMissing,
  statementsExclude,
  textTooLong,
  reasonMissing,
  stringTooLong,
  statementsTooMany,
  blocksTooMany,
  phasesApartMissing,
  phasesApartUnexpected,
  layerOutside,
  layerRepeated,
];
