// Takes its time: goes through many cases.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { specify } from '../../core/language/specification/specify.ts';
import { longestText, mostFindings, parse } from '../../core/language/text/parser.ts';
import * as kinds from '../../core/language/textFindingKinds.ts';
import { anyTexts, damagedTexts, validTexts } from '../support/documents.ts';
import { examples, soundExamples } from '../support/files.ts';
import { expectFindings, expectWithin, marked } from '../support/marked.ts';
import { tries } from '../support/tries.ts';

const findingsOf = (text: string) => parse(text).findings;
const codesOf = (text: string) => findingsOf(text).map(({ code }) => code);

function wordsOf(text: string): readonly string[] {
  return parse(text).blocks.flatMap(({ statements }) => statements.map(({ entry }) => entry.word));
}

describe('the form of a file', () => {
  it('has blocks in any order, a title anywhere', () => {
    const text =
      'require { winding-factor >= 0.9 }\nlayout { layers 2 span 5 }\nwinding "x"\nmachine { slots 12 }\n';
    expect(findingsOf(text)).toEqual([]);
    expect(parse(text).blocks.map(({ name }) => name)).toEqual(['require', 'layout', 'machine']);
    expect(specify(parse(text)).title?.value).toBe('x');
  });

  it('is the same with CRLF, lone CR, tabs and a byte order mark', () => {
    const text = soundExamples[0]!.text;
    const words = wordsOf(text);
    expect(words.length).toBeGreaterThan(10);
    for (const variant of [
      text.replace(/\n/g, '\r\n'),
      text.replace(/\n/g, '\r'),
      text.replace(/ /g, '\t'),
      `\ufeff${text}`,
    ]) {
      expect(findingsOf(variant)).toEqual([]);
      expect(wordsOf(variant)).toEqual(words);
    }
  });

  it('takes any Unicode in a title, escapes undone', () => {
    const title = 'Gezeiten „Pumpe“ №7 潮 😀 \u202e\u0007';
    expect(specify(parse(`winding "${title}"`)).title?.value).toBe(title);
    expect(specify(parse('winding "a \\"b\\" \\\\ c"')).title?.value).toBe('a "b" \\ c');
  });

  it.each([
    ['winding "a"\n«winding "b"»\n', ['statement-repeated']],
    ['machine { slots 12 }\n«machine» { poles 2 }\n', ['block-repeated']],
    ['slot { width 4 mm }\n«slot» a { width 4 mm }\n', ['block-repeated']],
    ['machine { slots 12  «slots 24» }\n', ['statement-repeated']],
    ['bar «a b» { width 3 mm }\n', ['layers-unexpected']],
    ['machine { slots 12 }\n«}»\n', ['brace-unexpected']],
    ['«slots» 48\n', ['block-unknown']],
    ['«48»\n', ['block-unknown']],
    ['«{» slots 48 }\n', ['block-unknown']],
    ['«machine» slots 48\n', ['block-not-opened']],
    ['«machine» { slots 12\n', ['block-not-closed']],
    ['«machine» {\n  slots 12\n\nlayout { layers 2 }\n', ['block-not-closed']],
    ['«machine» {\n  slots 12\nwinding "x"\n', ['block-not-closed']],
    ['winding «"x»\n', ['string-not-closed']],
    ['winding "a«\\n»b«\\t»"\n', ['escape-unknown', 'escape-unknown']],
    ['winding «x»\n', ['value-expected']],
    ['«winding»\n', ['value-expected']],
    ['winding "x" «"y"»\n', ['text-unexpected']],
    ['machine { slots 12 «"y"» }\n', ['text-unexpected']],
    ['machine { slots 12 «,» poles 2 }\n', ['text-unexpected']],
    ['machine { slots «=» 12 }\n', ['value-expected']],
    ['machine { slots 12 «{» poles 2 } }\n', ['word-unknown']],
  ])('%j', (source, codes) => {
    expectFindings(source, codes, findingsOf);
  });

  it('says where the first of two stands', () => {
    const { text, ranges } = marked('machine { «slots 12»  slots 24 }');
    const [finding] = findingsOf(text);
    const { start, end } = finding!.related[0]!.range;
    expect({ start, end }).toEqual(ranges[0]);
  });
});

describe('lines', () => {
  it('hold several short statements', () => {
    expect(wordsOf('machine { slots 48  poles 8 phases 3 gap inner bore 162 mm stack 96 mm }')).toEqual([
      'slots',
      'poles',
      'phases',
      'gap',
      'bore',
      'stack',
    ]);
  });

  it.each(['+U', '-W', '.', '(+U)*2', ')', '12'])(
    'continue the statement above where they begin with %s',
    (begin) => {
      const text = `layout {\n  layer a +U ${begin === ')' ? '(-W' : ''}\n    ${begin}${begin === ')' ? '*2' : ''}\n}`;
      const document = parse(text);
      if (begin === '12') expect(document.findings.map(({ code }) => code)).toEqual(['text-unexpected']);
      else expect(document.findings).toEqual([]);
    },
  );

  it.each(['+6b', '7b', '| 13a', '(+6b +6a)*2', 'to N'])(
    'continue a path where they begin with %s',
    (begin) => {
      const end = begin === 'to N' ? '' : ' to N';
      const text = `connect {\n  star\n  path U 1 from U1 1a\n    ${begin}${end}\n  repeat U as V shift 4\n}`;
      expect(findingsOf(text)).toEqual([]);
      expect(wordsOf(text)).toEqual(['star', 'path', 'repeat']);
    },
  );

  it('do not continue a statement with a word', () => {
    expectFindings('layout {\n  layer a +U -W\n  «alternating»\n}', ['word-unknown'], findingsOf);
  });
});

describe('recovery', () => {
  it('finds every mistake of a file and understands the rest', () => {
    const source = `winding "Ballast pump"
machine {
  slots  48
  «polse»  8
  phases «three»
  bore   «162»
  stack  96 «kg»
  speed  1500 rpm
}
«lay-out» { layers 2 }
slot { width «4.6mm»  depth 15.2 mm }
layout {
  layers «27»
  span   6
  layer a +U «*» -W
}
connect { star  «strar»  route paths 2 }
require {
  winding-factor harmonic 1 «=» 0.9
  winding-factor harmonic 5 <= 0.3
}
`;
    const { text } = marked(source);
    expectFindings(
      source,
      [
        'word-unknown',
        'value-expected',
        'unit-missing',
        'unit-wrong',
        'block-unknown',
        'unit-without-blank',
        'value-out-of-range',
        'text-unexpected',
        'word-unknown',
        'value-expected',
      ],
      findingsOf,
    );
    expect(wordsOf(text)).toEqual(['slots', 'speed', 'depth', 'span', 'star', 'route', 'winding-factor']);
  });

  it('goes on behind an unclosed block at the next one', () => {
    const text = 'machine {\n  slots 48\n\nlayout {\n  layers 2\n  span 6\n}\n';
    expect(codesOf(text)).toEqual(['block-not-closed']);
    expect(wordsOf(text)).toEqual(['slots', 'layers', 'span']);
  });

  it('skips an unknown block with the braces it holds', () => {
    const text = 'gearbox { teeth { 12 }\n ratio 3 }\nmachine { slots 48 }\n';
    expect(codesOf(text)).toEqual(['block-unknown']);
    expect(wordsOf(text)).toEqual(['slots']);
  });
});

describe('groups', () => {
  const layer = (row: string) => `layout {\n  layer a ${row}\n}\n`;

  it.each([
    ['«(»+U -W', ['group-not-closed']],
    ['«(»+U (-W)*2', ['group-not-closed']],
    ['(+U -W«)» +V', ['group-without-count']],
    ['(+U -W«)»«*»0', ['group-without-count', 'text-unexpected']],
    ['(+U -W«)»«*»2401', ['group-without-count', 'text-unexpected']],
    ['(+U -W«)»«*»1.5', ['group-without-count', 'text-unexpected']],
    ['+U «)» -W', ['parenthesis-unexpected']],
    ['(((+U«)»)) -W', ['group-without-count']],
    ['(((+U«)»))*3 -W', ['group-without-count']],
    ['(+U«)» (-W«)» +V', ['group-without-count', 'group-without-count']],
    ['«()» +U', ['group-empty']],
    ['((«()»)) +U', ['group-empty']],
    ['«()*2400» +U', ['group-empty']],
    ['(«()*2400» +U)*2', ['group-empty']],
    [`${'(+U '.repeat(8)}«(»+U)*2${')*1'.repeat(8)}`, ['groups-too-deep']],
  ])('%s', (row, codes) => {
    expectFindings(layer(row), codes, findingsOf);
  });

  it('nest eight deep', () => {
    expect(findingsOf(layer(`${'('.repeat(8)}+U${')*2'.repeat(8)}`))).toEqual([]);
  });

  it('that are wrong leave the row out, without further findings', () => {
    expect(wordsOf(layer('(+U -W'))).toEqual([]);
  });
});

describe('hostile texts', () => {
  const half = longestText / 2;
  it.each([
    ['nothing', ''],
    ['a byte order mark', '\ufeff'],
    ['blanks', ' \n\t\r\n'],
    ['5 000 parentheses', `layout { layer a ${'('.repeat(5000)}+U${')*2'.repeat(5000)} }`],
    ['5 000 parentheses in a path', `connect { path U 1 from U1 ${'('.repeat(5000)}`],
    ['braces', '{'.repeat(100_000)],
    ['closing braces', '}'.repeat(100_000)],
    ['closing parentheses', `layout { layer a ${')'.repeat(100_000)} }`],
    ['quotes', '"'.repeat(100_000)],
    ['backslashes', `winding "${'\\'.repeat(100_001)}`],
    ['control characters', '\u0000\u0001\u001b[31m'.repeat(20_000)],
    ['one word', 'a'.repeat(longestText)],
    ['words', 'sheet { '.concat('note '.repeat(half / 5), '}')],
    // So many words are more than one call takes as its arguments, which a longer text would not show better.
    ['letters on lines', 'x\n'.repeat(200_000)],
    ['empty blocks', 'bar{}'.repeat(100_000)],
    ['opened blocks', 'machine {\n'.repeat(100_000)],
    ['one row', `layout { layer a ${'+U '.repeat(200_000)} }`],
    ['nested empty groups', `layout { layer a ${'('.repeat(8)}${')*2400'.repeat(8)} }`],
    ['slots beyond reason', 'machine { slots 1e9 }'],
    ['a number of many digits', `machine { slots ${'9'.repeat(100_000)} }`],
    ['lone surrogates', 'winding "\ud800" \udc00 machine { \ud83d }'],
  ])('%s', (_, text) => {
    const { findings } = parse(text);
    expectWithin(text, findings);
    expect(findings.length).toBeLessThanOrEqual(mostFindings + 1);
  });

  it('of more than 2 MB are not read', () => {
    const text = `machine { slots 12 }\n${'#'.repeat(longestText)}`;
    expect(parse(text).findings.map(({ message }) => message)).toEqual([
      kinds.fileTooLarge.message({ bytes: text.length, most: longestText }),
    ]);
  });

  it('with more than a thousand findings are given up, and what came before stands', () => {
    const text = `machine { slots 12 }\n${'x\n'.repeat(5000)}layout { layers 2 }\n`;
    const { findings, blocks } = parse(text);
    expect(findings.length).toBe(mostFindings + 1);
    expect(findings[mostFindings]!.message).toBe(kinds.findingsTooMany.message({ most: mostFindings }));
    expect(blocks.map(({ name }) => name)).toEqual(['machine']);
  });

  it('show no control character in a message', () => {
    for (const { message } of findingsOf('\u001b[31m machine { \u0007 \u202e12 }\u2028'))
      expect(message).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u2028\u202a-\u202e]/);
  });

  it('show no half of a character in a message', () => {
    for (let i = 30; i < 42; i++) {
      const [finding] = findingsOf(`winding ${'a'.repeat(i)}😀😀😀`);
      expect(finding!.message).not.toMatch(/[\ud800-\udbff](?![\udc00-\udfff])/);
    }
  });
});

describe('no text', () => {
  for (const [name, texts, numRuns] of [
    ['any', anyTexts, 150],
    ['damaged', damagedTexts, 60],
    ['valid', validTexts, 25],
  ] as const) {
    it(`is thrown at, and findings stay within it: ${name} texts`, () => {
      fc.assert(
        fc.property(texts, (text) => {
          const document = parse(text);
          specify(document);
          expectWithin(text, document.findings);
          const ranges = [...document.blocks, ...document.blocks.flatMap(({ statements }) => statements)].map(
            ({ range }) => range,
          );
          const isWithin = ({ start, end }: (typeof ranges)[number]) =>
            0 <= start && start <= end && end <= text.length;
          expect(ranges.filter((range) => !isWithin(range))).toEqual([]);
        }),
        { seed: 7, numRuns: tries(numRuns) },
      );
    });
  }

  it('that is an example has a finding of form, but the one full of mistakes', () => {
    for (const { name, text } of examples)
      expect(findingsOf(text).length > 0, name).toBe(name === 'broken-ballast-pump.winding');
  });
});
