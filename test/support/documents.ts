import fc from 'fast-check';
import { type Pattern, parsePattern } from '../../core/language/vocabulary/pattern.ts';
import { units } from '../../core/language/vocabulary/units.ts';
import {
  type BlockName,
  blockNames,
  type VocabularyEntry,
  vocabulary,
} from '../../core/language/vocabulary/vocabulary.ts';
import { examples } from './files.ts';

// Arbitrary winding texts: valid ones made from the vocabulary's own patterns, and broken ones made by
// damaging examples.

const dimensionUnits = (dimension: string): readonly string[] =>
  units.filter((unit) => unit.dimension === dimension).map(({ name }) => name);

/** Numbers as people write them. */
const amounts = [
  '0.0001',
  '0.02',
  '0.5',
  '1',
  '+1.05',
  '2',
  '3',
  '4',
  '6',
  '12',
  '24',
  '60',
  '120',
  '3600',
  '1e2',
];

/** A number with a unit of the dimension that the entry's rule allows. */
function quantityText(entry: VocabularyEntry, placeholder: string, dimension: string): fc.Arbitrary<string> {
  const rule = entry.rules[placeholder];
  const names = dimension === 'none' ? [''] : dimensionUnits(dimension);
  const candidates = names.flatMap((name) => {
    const factor = units.find((unit) => unit.name === name)?.factor ?? 1;
    return amounts
      .filter((amount) => !rule || rule.schema.safeParse(Number(amount) * factor).success)
      .map((amount) => (name === '' ? amount : `${amount} ${name}`));
  });
  return fc.constantFrom(...candidates);
}

const layerLetters = fc.constantFrom('a', 'b', 'c', 'd', 'm', 'z');
const phaseNames = fc.constantFrom('U', 'V', 'W', '1U', '2W', 'A');

function sequenceText(leaf: fc.Arbitrary<string>): fc.Arbitrary<string[]> {
  const { items } = fc.letrec<{ items: string[]; item: string[] }>((tie) => ({
    item: fc.oneof(
      { maxDepth: 3, withCrossShrink: true },
      leaf.map((text) => [text]),
      fc
        .tuple(tie('items'), fc.integer({ min: 1, max: 12 }))
        .map(([inner, times]) => ['(', ...inner, ')', '*', String(times)]),
    ),
    items: fc.array(tie('item'), { minLength: 1, maxLength: 6 }).map((parts) => parts.flat()),
  }));
  return fc.oneof(
    { weight: 2, arbitrary: items },
    { weight: 1, arbitrary: fc.array(leaf, { minLength: 10, maxLength: 120 }) },
  );
}

const rowText = sequenceText(
  fc.oneof(
    fc.tuple(fc.constantFrom('+', '-'), phaseNames).map(([sign, phase]) => sign + phase),
    fc.constant('.'),
  ),
);
const walkText = sequenceText(
  fc.oneof(
    fc
      .tuple(fc.constantFrom('', '+', '-'), fc.integer({ min: 1, max: 48 }), layerLetters)
      .map((parts) => parts.join('')),
    fc.constant('|'),
  ),
);
const quotedText = fc
  .string({ unit: 'grapheme', maxLength: 12 })
  .map((text) => `"${text.replace(/[\r\n]/g, ' ').replace(/[\\"]/g, (c) => `\\${c}`)}"`);

const dimensionOfPlaceholder = new Set(units.map(({ dimension }) => dimension as string));

function placeholderTokens(entry: VocabularyEntry, name: string): fc.Arbitrary<string[]> {
  const one = (arbitrary: fc.Arbitrary<string>) => arbitrary.map((text) => [text]);
  switch (name) {
    case 'text':
      return one(quotedText);
    case 'code':
      return one(fc.constantFrom('unbalanced-pull', 'jumpers', 'nothing-such'));
    case 'reason':
      return one(quotedText.map((text) => text.replace(/"$/, 'x"')));
    case 'date':
      return one(fc.constantFrom('"2026-05-01"', '"1999-12-31"'));
    case 'layer':
      return one(layerLetters);
    case 'phase':
      return one(phaseNames);
    case 'terminal':
      return one(fc.constantFrom('U1', 'U2', '1U1', 'N', '2N'));
    case 'sheet-size':
      return one(fc.constantFrom('A0', 'A1', 'A2', 'A3', 'A4'));
    case 'row':
      return rowText;
    case 'walk':
      return walkText;
    case 'limit':
      return limitTokens(entry);
    default:
      return one(quantityText(entry, name, dimensionOfPlaceholder.has(name) ? name : 'none'));
  }
}

function limitTokens(entry: VocabularyEntry): fc.Arbitrary<string[]> {
  const scope = entry.perOrder
    ? fc.constantFrom<string[][]>([], ['harmonic', '5'], ['harmonic', '0.25'], ['order', '7'])
    : fc.constant<string[]>([]);
  const value = quantityText(entry, 'limit', entry.dimension ?? 'none');
  return fc
    .tuple(scope, fc.constantFrom('<=', '>='), value)
    .map(([words, relation, limit]) => [...words, relation, limit]);
}

function patternTokens(entry: VocabularyEntry, pattern: Pattern): fc.Arbitrary<string[]> {
  switch (pattern.kind) {
    case 'empty':
      return fc.constant([]);
    case 'literal':
      return fc.constant([pattern.text]);
    case 'placeholder':
      return placeholderTokens(entry, pattern.name);
    case 'series':
      return fc
        .tuple(...pattern.parts.map((part) => patternTokens(entry, part)))
        .map((parts) => parts.flat());
    case 'choice':
      return fc.oneof(...pattern.parts.map((part) => patternTokens(entry, part)));
    case 'many':
      return fc
        .array(patternTokens(entry, pattern.part), { minLength: pattern.least, maxLength: pattern.most ?? 3 })
        .map((parts) => withoutRepeats(entry, parts).flat());
  }
}

/** The parts without those that name a keyword again that the statement names once. */
function withoutRepeats(
  { recurring }: VocabularyEntry,
  parts: readonly (readonly string[])[],
): readonly (readonly string[])[] {
  if (!recurring) return parts;
  const named = new Set<string>();
  return parts.filter((tokens) => {
    const keywords = tokens.filter((token) => /^[a-z]/.test(token) && !recurring.includes(token));
    const again = keywords.some((keyword) => named.has(keyword));
    for (const keyword of keywords) named.add(keyword);
    return !again;
  });
}

const comment = fc
  .string({ unit: 'grapheme', maxLength: 16 })
  .map((text) => `#${text.replace(/[\r\n]/g, ' ')}`);

const mayContinue = (token: string) => /^(?:[-+()|.\d]|to$)/.test(token);

/** Tokens with blanks, tabs and line breaks between where a statement may have them. */
function spaced(tokens: readonly string[], breaks: boolean): fc.Arbitrary<string> {
  return fc.array(fc.nat(30), { minLength: tokens.length, maxLength: tokens.length }).map((choices) =>
    tokens
      .map((token, i) => {
        if (i === 0) return token;
        const choice = choices[i]!;
        const tight = token === '*' || token === ')' || tokens[i - 1] === '(' || tokens[i - 1] === '*';
        if (choice === 0 && breaks && mayContinue(token)) return `\n   ${token}`;
        if (choice === 1 && breaks && mayContinue(token)) return ` # inside\n${token}`;
        if (choice === 2) return `\t${token}`;
        return tight ? token : ` ${token}`;
      })
      .join(''),
  );
}

// Rows hold words of other blocks, which no pattern of their own generates.
const varyBodies: Readonly<Record<string, readonly string[]>> = {
  machine: ['slots 36 to 72 by 6', 'poles 8 10 12', 'gap inner both', 'bore 100 mm to 110 mm by 2.5 mm'],
  slot: ['depth 14 mm 15 mm', 'a b width 3 mm to 4 mm by 0.5 mm'],
  bar: ['height 2 mm 3 mm', 'height a b 2 mm to 4 mm by 0.25 mm with bar height c d 1 mm to 3 mm by 0.25 mm'],
  insulation: ['surge-factor 1 1.5'],
  layout: [
    'span nominal -2 to nominal',
    'skew a 0 slot 1 slot with opposite layout skew b',
    'layers 2 to 6 by 2',
  ],
  connect: ['route paths 1 2 4', 'specials joined crowns'],
  hold: ['flux', 'gap-flux-density current sizes'],
  keep: ['limits', 'winding-factor harmonic 5 <= 0.1', 'largest-paths >= 2', 'slot-fill <= 70%'],
  rank: ['least differential-leakage', 'most winding-factor harmonic 1 least copper-loss at "a"'],
};

function statementText(entry: VocabularyEntry, breaks: boolean): fc.Arbitrary<string> {
  if (entry.block === 'vary')
    return fc
      .constantFrom(...varyBodies[entry.word]!)
      .chain((body) => spaced([entry.word, ...body.match(/"[^"]*"|[^ ]+/g)!], breaks));
  return patternTokens(entry, parsePattern(entry.pattern)).chain((tokens) =>
    spaced([entry.word, ...tokens], breaks),
  );
}

function blockText(name: BlockName): fc.Arbitrary<string> {
  const entries = vocabulary.filter(
    ({ block, role }) => block === name && (role === 'statement' || role === 'quantity'),
  );
  const repeatable = entries.filter((entry) => entry.repeatable);
  const more =
    repeatable.length === 0 ? fc.constant([]) : fc.array(fc.constantFrom(...repeatable), { maxLength: 2 });
  const unique = fc
    .tuple(fc.shuffledSubarray(entries, { maxLength: Math.min(6, entries.length) }), more)
    .map(([chosen, again]) => [...chosen, ...again]);
  const head = name === 'slot' ? fc.constantFrom('slot', 'slot a', 'slot a b') : fc.constant(name as string);
  const inLines = fc
    .tuple(
      head,
      unique.chain((list) => fc.tuple(...list.map((entry) => statementText(entry, true)))),
      fc.array(
        fc.oneof(
          fc.constant('\n'),
          fc.constant('\n\n\n'),
          comment.map((text) => ` ${text}\n`),
          comment.map((text) => `\n  ${text}\n`),
          fc.constant('   '),
        ),
        { minLength: 8, maxLength: 8 },
      ),
    )
    .map(([word, statements, gaps]) => {
      const body = statements.map(
        (statement, i) => `${statement}${i === statements.length - 1 && gaps[i] === '   ' ? '\n' : gaps[i]}`,
      );
      return `${word} {\n${body.join('')}}`;
    });
  const onOneLine = fc
    .tuple(
      head,
      unique.chain((list) => fc.tuple(...list.map((entry) => statementText(entry, false)))),
    )
    .map(([word, statements]) => `${word} { ${statements.join('  ')} }`);
  return fc.oneof(inLines, onOneLine);
}

/** Texts without an error of form, in any layout; what they say need not make a winding. */
export const validTexts: fc.Arbitrary<string> = fc
  .tuple(
    fc.shuffledSubarray([...blockNames]).chain((names) => fc.tuple(...names.map(blockText))),
    fc.option(
      quotedText.map((text) => `winding ${text}`),
      { nil: null },
    ),
    fc.array(
      fc.oneof(
        fc.constant('\n'),
        fc.constant('\n\n'),
        comment.map((text) => ` ${text}\n`),
        comment.map((text) => `\n\n${text}\n`),
        fc.constant(' '),
      ),
      { minLength: 12, maxLength: 12 },
    ),
    fc.constantFrom('\n', '\r\n'),
    fc.constantFrom('', '\ufeff'),
  )
  .map(([blocks, title, gaps, lineBreak, mark]) => {
    const parts = title === null ? blocks : [title, ...blocks];
    const gap = (i: number) => (i === 0 && title !== null && gaps[i] === ' ' ? '\n' : gaps[i]);
    const text = parts.map((part, i) => `${part}${gap(i)}`).join('');
    return mark + text.replace(/\n/g, lineBreak);
  });

const scraps = [
  '{',
  '}',
  '(',
  ')',
  '*',
  '"',
  '\\',
  '#',
  '|',
  '.',
  '<=',
  '=',
  '\n',
  '\r',
  '\r\n',
  '\t',
  ' ',
  '\u0000',
  '\u00a0',
  '\u202e',
  '\ud800',
  '😀',
  'layer',
  'slot',
  'machine {',
  'winding "',
  '1e9',
  '12e',
  '-5',
  '+U',
  'mm',
  '%',
  '*2400',
  'repeat 2400',
  '999999999999',
];

/** Examples by what it takes to study them: with a load to be carried it is long. */
const texts = examples.map(({ text }) => text);
const loaded = texts.filter((text) => /\bvoltage\b/.test(text));
const plain = texts.filter((text) => !loaded.includes(text));

/** Any code point but halves of pairs, as `unit: 'binary'` of fast-check, which makes a table of all of them first. */
const anyCharacter = fc
  .nat(0x10ffff - 0x800)
  .map((number) => String.fromCodePoint(number < 0xd800 ? number : number + 0x800));

/** Examples and valid texts, cut, doubled and littered. */
export const damagedTexts: fc.Arbitrary<string> = fc
  .tuple(
    fc.oneof(
      { arbitrary: fc.constantFrom(...loaded), weight: 1 },
      { arbitrary: fc.constantFrom(...plain), weight: 4 },
      { arbitrary: validTexts, weight: 5 },
    ),
    fc.array(
      fc.record({
        at: fc.double({ min: 0, max: 1, noNaN: true }),
        length: fc.nat(40),
        act: fc.constantFrom('cut', 'double', 'insert', 'scrap'),
        text: fc.oneof(fc.constantFrom(...scraps), fc.string({ unit: anyCharacter, maxLength: 6 })),
      }),
      { minLength: 1, maxLength: 6 },
    ),
  )
  .map(([start, damages]) =>
    damages.reduce((text, { at, length, act, text: scrap }) => {
      const from = Math.floor(at * text.length);
      const to = Math.min(text.length, from + length);
      switch (act) {
        case 'cut':
          return text.slice(0, from) + text.slice(to);
        case 'double':
          return text.slice(0, to) + text.slice(from, to) + text.slice(to);
        case 'insert':
          return text.slice(0, from) + scrap + text.slice(from);
        default:
          return text.slice(0, from) + scrap + text.slice(to);
      }
    }, start),
  );

/** Any text at all. */
export const anyTexts: fc.Arbitrary<string> = fc.oneof(
  fc.string({ unit: anyCharacter, maxLength: 200 }),
  fc
    .array(fc.constantFrom(...scraps, ...vocabulary.map(({ word }) => word), '3', '+6b', '1a', 'U', '\n'), {
      maxLength: 60,
    })
    .map((parts) => parts.join(' ')),
);
