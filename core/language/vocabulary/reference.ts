import { rangeWords } from './explain.ts';
import { units } from './units.ts';
import { type BlockName, blockNames, type VocabularyEntry, vocabulary } from './vocabulary.ts';

/** The language reference as a Markdown page, made from the vocabulary. */
export function languageReference(): string {
  return `${[introduction, ...blockNames.map(blockSection), unitSection()].join('\n\n')}\n`;
}

const introduction = `# The winding language

A \`.winding\` file is plain text in UTF-8. It begins with the name of the winding, \`winding "..."\`, and holds blocks, in any order, each at most once (\`slot\` once for each group of layers). \`#\` starts a comment that runs to the end of the line. Words are case-sensitive.

A file needs \`machine\` with slots, poles and phases, and a \`layout\` or written paths; all else is optional, and what cannot be computed without it is listed as missing.

A statement ends at the end of its line, or where its values are complete and the next word of the block begins. A line that begins with a sign, a digit, \`(\`, \`)\`, \`|\`, \`.\` or \`to\` continues the statement above. A number that measures something carries its unit after a blank.

- Slots are numbered from 1 clockwise as seen from the connection side, the end where the leads come out; the other end is the far side.
- Layers are lettered a, b, c ... from the axis outwards. A bar position is slot and layer: \`7b\`.
- \`+U\`: when the current of phase U enters at its line terminal, this bar carries it from the connection side to the far side; \`-U\` back.
- Angles: \`deg\` are mechanical, \`edeg\` electrical degrees, \`slot\` slot pitches. Skews are totals over the stack, positive when slot numbers rise from the connection side to the far side.
- \`order\` k is k pole pairs round the bore; \`harmonic\` n is n times the fundamental.

In the tables, words in quotes stand as they are; \`?\` marks what may be missing, \`*\` what may stand any number of times, \`+\` at least once, and \`|\` a choice.`;

function blockSection(block: BlockName): string {
  const opening = vocabulary.find(({ role, word }) => role === 'block' && word === block)!;
  const entries = vocabulary.filter((entry) => entry.block === block);
  const statements = entries.filter(({ role }) => role === 'statement' || role === 'quantity');
  const choices = entries.filter(({ role }) => role === 'choice');
  const parts = [`## ${block}`, opening.meaning, `Example: \`${opening.example}\``];
  if (block === 'vary') parts.push(rowWords);
  const quantities = statements.filter(({ role }) => role === 'quantity');
  const others = statements.filter(({ role }) => role === 'statement');
  if (quantities.length > 0) parts.push(quantityTable(quantities));
  if (others.length > 0) parts.push(statementTable(others));
  if (choices.length > 0)
    parts.push(
      `Choices: ${choices.map(({ word, meaning }) => `\`${word}\` (${meaning.replace(/\.$/, '')})`).join('; ')}.`,
    );
  return parts.join('\n\n');
}

const rowWords = `A row is a block's word with what stands before its values there (\`layout skew a b\`, \`connect route paths\`), and the values: a list, or the first, \`to\` and the last, \`by\` and the step, in the decimals written; counts step by 1 where no step is written. Each value obeys the rules of its word. \`layout span\` can count from the pole pitch in slots: \`nominal\`, \`nominal -2\`. Rows combine; \`with\` steps a second row together with the first, \`with opposite\` gives its word the negated values. A row takes the place of the value in the file's statement.

\`keep\` and \`rank\` take every quantity of \`require\`, and those listed as choices that are quantities. [variants.md](variants.md) tells how to use it.`;

function statementTable(entries: readonly VocabularyEntry[]): string {
  const rows = entries.map((entry) =>
    row([
      `\`${entry.word}\``,
      entry.pattern === '' ? '' : code(entry.pattern),
      rangeWords(entry).join('; '),
      entry.default === undefined ? '' : `\`${entry.default}\``,
      `${entry.meaning}${entry.repeatable ? ' Repeatable.' : ''}`,
      `\`${escaped(entry.example)}\``,
    ]),
  );
  return [
    row(['word', 'values', 'range', 'default', 'meaning', 'example']),
    row(Array.from({ length: 6 }, () => '---')),
    ...rows,
  ].join('\n');
}

function quantityTable(entries: readonly VocabularyEntry[]): string {
  const rows = entries.map((entry) =>
    row([
      `\`${entry.word}\``,
      entry.perOrder ? "('harmonic' number \\| 'order' count)?" : '',
      entry.dimension === 'none' ? 'number' : (entry.dimension ?? ''),
      entry.reportPath ? `\`${entry.reportPath}\`` : '',
      entry.meaning,
      `\`${entry.example}\``,
    ]),
  );
  const words =
    'A limit is a quantity, `<=` or `>=`, and a value. Without harmonic or order, a quantity that has a value for every order means the fundamental. A connection found by `route` that meets all limits of `jumpers`, `special-joints`, `joint-shapes`, `bar-shapes`, `legs-bent-apart`, `voltage-in-slot`, `voltage-between-slots`, `copper-mass`, `phase-resistance`, `copper-loss`, `current-density`, `circulating-current`, `path-current-deviation` and `end-clearance-left` goes before one that does not: for the first six it is searched for, for the others chosen among the connections that `slotwright routes` lists. Paths that are found agree in voltage, so that `path-voltage-difference` is 0 with all of them; what other limits ask for follows from layout, sizes and load rather than from how bars are joined, and is looked at when the connection is chosen.';
  return [
    words,
    '',
    row(['quantity', 'of', 'unit of', 'in the report', 'meaning', 'example']),
    row(Array.from({ length: 6 }, () => '---')),
    ...rows,
  ].join('\n');
}

function unitSection(): string {
  const dimensions = [...new Set(units.map(({ dimension }) => dimension))];
  const rows = dimensions.map((dimension) =>
    row([
      dimension,
      units
        .filter((unit) => unit.dimension === dimension)
        .map(({ name }) => `\`${name}\``)
        .join(', '),
    ]),
  );
  return ['## Units', '', row(['quantity', 'units']), row(['---', '---']), ...rows].join('\n');
}

function code(pattern: string): string {
  return `\`${escaped(pattern)}\``;
}

function escaped(text: string): string {
  return text.replace(/\|/g, '\\|');
}

function row(cells: readonly string[]): string {
  return `| ${cells.join(' | ')} |`;
}
