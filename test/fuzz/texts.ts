import fc from 'fast-check';
import { checkText } from '../../core/findings/checkedText.ts';
import type { Finding } from '../../core/language/finding.ts';
import { format } from '../../core/language/format/formatter.ts';
import { parse } from '../../core/language/text/parser.ts';
import { troubleWords } from '../../core/tables/import/grid.ts';
import { windingFromTable } from '../../core/tables/import/windingFromTable.ts';
import { schedule } from '../../core/tables/schedule.ts';
import { validTexts } from '../support/documents.ts';
import { examples } from '../support/files.ts';
import { structureOf } from '../support/structure.ts';
import { study } from '../support/study.ts';

// Many cheap texts: those of the grammar and the examples, cut, crossed and changed token by token. They are read,
// formatted, walked and checked, without searches for paths and clearances; tables are imported.

/** Whole numbers from 0 to below a bound, the same for the same seed (splitmix32, public domain). */
export type Draw = (bound: number) => number;

export function draws(seed: number): Draw {
  let state = seed | 0;
  return (bound) => {
    state = (state + 0x9e3779b9) | 0;
    let mixed = state ^ (state >>> 16);
    mixed = Math.imul(mixed, 0x21f0aaad);
    mixed ^= mixed >>> 15;
    mixed = Math.imul(mixed, 0x735a2d97);
    return ((mixed ^ (mixed >>> 15)) >>> 0) % bound;
  };
}

const pieces =
  /"(?:[^"\\\n]|\\.)*"|#[^\n]*|[A-Za-z][\w-]*|[+-]?\d+(?:\.\d+)?(?:e[+-]?\d+)?[a-z]?|\s+|[^\s\w]/gu;

/** Texts in pieces: words, numbers, blanks, comments. */
export type Corpus = readonly (readonly string[])[];

const inPieces = (texts: readonly string[]): Corpus => texts.map((text) => text.match(pieces) ?? []);

/** Winding texts of the grammar and the examples. */
export function textCorpus(seed: number): Corpus {
  return inPieces([...fc.sample(validTexts, { numRuns: 60, seed }), ...examples.map(({ text }) => text)]);
}

/** Tables of small windings, and of paths, as spreadsheets have them. */
export function tableCorpus(): Corpus {
  const { facts } = study(
    'winding "T"\nmachine { slots 12 poles 2 phases 3 }\nlayout { layers 2 span 6 }\nconnect { star route paths 1 }\n',
  );
  const slots = schedule(facts!, 'slots');
  return inPieces([
    slots,
    slots.replaceAll(',', ';'),
    `poles;2\nconnection;star\n${schedule(facts!, 'bars').replaceAll(',', ';')}`,
    'layer;1;2;3;4;5;6\na;+U;-W;+V;-U;+W;-V\nb;U;c;V;u;W;v\n',
    'phase,path,bars\nU,1,1a 4b | 2a\nV,1,3a 6b\nW,1,5a 2b\n',
    'U1;V1;W1\n1a;3a;5a\n4/2;6/2;2/2\n',
  ]);
}

const odd = [
  '\u00a0',
  '\u202e',
  '\ufeff',
  '\0',
  '\r',
  '"',
  '{',
  '}',
  '(',
  ')*99999',
  '1e999',
  '\u{1f6a2}',
  '\ud800',
  "'",
  'NaN',
];
const numbers = ['0', '-1', '1', '2', '26', '27', '2400', '2401', '0.0001', '1e9', '99999999999999999999'];

/** A text of a corpus, changed in one to six places. */
export function mutant(corpus: Corpus, draw: Draw): string {
  const text = [...corpus[draw(corpus.length)]!];
  const other = corpus[draw(corpus.length)]!;
  for (let change = 0, changes = 1 + draw(6); change < changes && text.length > 0; change++) {
    const at = draw(text.length);
    const length = 1 + draw(8);
    switch (draw(8)) {
      case 0:
        text.splice(at, length);
        break;
      case 1:
        text.splice(at, 0, ...text.slice(at, at + length));
        break;
      case 2: {
        const from = draw(Math.max(1, other.length));
        text.splice(at, draw(4), ...other.slice(from, from + length));
        break;
      }
      case 3:
        text.splice(at, 0, odd[draw(odd.length)]!);
        break;
      case 4: {
        const number = text.findIndex((piece, index) => index >= at && /^[+-]?\d/.test(piece));
        if (number >= 0) text[number] = numbers[draw(numbers.length)]! + (draw(3) === 0 ? 'a' : '');
        break;
      }
      case 5: {
        const to = draw(text.length);
        [text[at], text[to]] = [text[to]!, text[at]!];
        break;
      }
      case 6:
        text.splice(at);
        break;
      case 7:
        text[at] = text[at]!.slice(0, draw(text[at]!.length + 1));
    }
  }
  return text.join('');
}

/** What is wrong with how a winding text is read, formatted and checked, in words. */
export function textTroubles(text: string): readonly string[] {
  try {
    const document = parse(text);
    const once = format(text);
    const again = parse(once);
    const checked = checkText(
      text,
      () => ({ kind: 'pending' }),
      () => null,
    );
    return [
      ...(format(once) === once ? [] : ['formatted twice, it differs']),
      ...(JSON.stringify(structureOf(again)) === JSON.stringify(structureOf(document))
        ? []
        : ['formatted, it says something else']),
      ...checked.findings.flatMap((each) => findingTroubles(each, text)),
    ];
  } catch (error) {
    return [`throws ${error instanceof Error ? error.message : String(error)}`];
  }
}

function findingTroubles({ code, message, range, related, fix }: Finding, text: string): readonly string[] {
  const within = ({ start, end }: Finding['range']) => start >= 0 && start <= end && end <= text.length;
  const edits = [...(fix?.edits ?? [])].sort((a, b) => a.range.start - b.range.start);
  return [
    ...(code === 'check-crashed' ? [message] : []),
    ...(/\bNaN\b|\bundefined\b|\[object /.test(message.replace(text, '')) &&
    !/NaN|undefined|object/.test(text)
      ? [`${code} ${message}`]
      : []),
    ...([range, ...related.map((other) => other.range)].every(within)
      ? []
      : [`${code} lies outside the text`]),
    ...(edits.every((edit, i) => within(edit.range) && edit.range.start >= (edits[i - 1]?.range.end ?? 0))
      ? []
      : [`${code} has a fix that does not fit the text`]),
  ];
}

/** What is wrong with how a table is imported: what comes of it is a text that reads, or a sentence. */
export function tableTroubles(csv: string): readonly string[] {
  try {
    const made = windingFromTable(csv, { poles: 2, connection: 'star' });
    if (made.kind === 'lacking') return made.words === '' ? ['lacks something untold'] : [];
    if (made.kind === 'refused')
      return made.troubles.length > 0 && made.troubles.every((each) => troubleWords(each).length > 10)
        ? []
        : ['is refused without a reason'];
    const { findings } = parse(made.text);
    return [
      ...findings
        .filter(({ severity }) => severity === 'error')
        .map(({ message }) => `is written wrong: ${message}`),
      ...(format(made.text) === made.text ? [] : ['is not written as the formatter writes it']),
    ];
  } catch (error) {
    return [`throws ${error instanceof Error ? error.message : String(error)}`];
  }
}
