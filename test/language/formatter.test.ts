import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { format, lineWidth } from '../../core/language/format/formatter.ts';
import { parse } from '../../core/language/text/parser.ts';
import { anyTexts, damagedTexts, validTexts } from '../support/documents.ts';
import { examples } from '../support/files.ts';
import { commentsOf, structureOf } from '../support/structure.ts';
import { tries } from '../support/tries.ts';

const runs = { seed: 20260501, numRuns: tries(25) };

describe('formatting keeps the meaning', () => {
  it('of valid texts', () => {
    fc.assert(
      fc.property(validTexts, (text) => {
        const before = parse(text);
        expect(before.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
        const after = parse(format(text));
        expect(structureOf(after)).toEqual(structureOf(before));
        expect(commentsOf(after)).toEqual(commentsOf(before));
      }),
      runs,
    );
  });

  it('of damaged texts', () => {
    fc.assert(
      fc.property(damagedTexts, (text) => {
        const before = parse(text);
        const after = parse(format(text));
        expect(structureOf(after)).toEqual(structureOf(before));
        expect(commentsOf(after)).toEqual(commentsOf(before));
      }),
      { ...runs, numRuns: tries(30) },
    );
  });
});

describe('formatting twice changes nothing more', () => {
  for (const [name, texts] of [
    ['valid texts', validTexts],
    ['damaged texts', damagedTexts],
    ['any texts', anyTexts],
  ] as const) {
    it(`of ${name}`, () => {
      fc.assert(
        fc.property(texts, (text) => {
          const once = format(text);
          expect(format(once)).toBe(once);
        }),
        { ...runs, numRuns: tries(30) },
      );
    });
  }
});

describe('lines with errors', () => {
  /** The lines that a parse calls wrong. */
  function wrongLines(text: string): readonly string[] {
    const { findings, broken, blocks } = parse(text);
    const ranges = [
      ...findings.filter(({ severity }) => severity === 'error').map(({ range }) => range),
      ...broken,
      ...blocks.flatMap((block) => block.broken),
    ];
    const lines: string[] = [];
    let start = 0;
    for (const line of text.replace(/^\ufeff/, ' ').split(/\r\n|\n|\r/)) {
      const end = start + line.length;
      if (ranges.some((range) => range.start <= end && Math.max(range.start, range.end - 1) >= start))
        lines.push(line.trim() === '' ? '' : line);
      start = end + (text.startsWith('\r\n', end) ? 2 : 1);
    }
    return lines.filter((line) => line !== '');
  }

  it('stay byte for byte', () => {
    fc.assert(
      fc.property(damagedTexts, (text) => {
        const after = format(text)
          .replace(/^\ufeff/, ' ')
          .split(/\r\n|\n|\r/);
        let at = 0;
        for (const line of wrongLines(text)) {
          at = after.findIndex((candidate, i) => i >= at && candidate.trimStart() === line.trimStart()) + 1;
          expect(at, `line kept: ${JSON.stringify(line)}`).toBeGreaterThan(0);
        }
      }),
      { ...runs, numRuns: tries(30) },
    );
  });

  it('keep their neighbors canonical', () => {
    const text = 'machine {\n slots   48\n  polse    8   # how many?\nphases 3\n}\n';
    expect(format(text)).toBe('machine {\n  slots  48\n  polse    8   # how many?\n  phases 3\n}\n');
  });
});

it('comments keep every character, blanks within them too', () => {
  const words = '#? how  many  {x} "y" # z}';
  const text = `${words}\n\nmachine {\n  slots 48  ${words}\n  ${words}\n}  ${words}\n`;
  expect(commentsOf(parse(format(text)))).toEqual([words, words, words, words]);
});

describe('the canonical form', () => {
  it('is that of the examples', () => {
    for (const { name, text } of examples) expect(format(text), name).toBe(text);
  });

  it('keeps CRLF line ends', () => {
    fc.assert(
      fc.property(validTexts, (text) => {
        const after = format(text.replace(/\r?\n/g, '\r\n'));
        if (!/\n/.test(text)) return;
        expect(after.replace(/\r\n/g, '')).not.toMatch(/[\r\n]/);
      }),
      runs,
    );
  });

  it('is no wider than 100 columns where a line can be broken', () => {
    fc.assert(
      fc.property(validTexts, (written) => {
        // A statement with a comment inside stays as it is.
        const text = written.replace(/ # inside/g, '');
        const comments = new Set(commentsOf(parse(text)));
        // A byte order mark takes no column.
        const wide = format(text)
          .replace(/^\ufeff/, '')
          .split(/\r?\n/)
          .filter(
            (line) => line.length > lineWidth && ![...comments].some((comment) => line.endsWith(comment)),
          )
          // A text cannot be broken.
          .filter((line) => !line.includes('"'));
        expect(wide).toEqual([]);
      }),
      { ...runs, numRuns: tries(30) },
    );
  });

  it('breaks rows at whole poles and paths at groups', () => {
    const pole = '+U +U -W -W +V +V -U -U +W +W -V -V';
    const text = `winding "x"\nmachine { slots 48 poles 4 phases 3 }\nlayout {\nlayer a ${pole} ${pole} ${pole} ${pole}\n}\nconnect {\nstar\npath U 1 from U1 1a (+6b +6a)*3 +6b +7a (+6b +6a)*3 +6b (+6a +6b)*2 +6a (+6b +6a)*3 +6b +7a +6b to N\n}\n`;
    const half = `${pole} `;
    expect(format(text)).toBe(
      [
        'winding "x"',
        '',
        'machine { slots 48  poles 4  phases 3 }',
        '',
        'layout {',
        `  layer a  ${half}${pole}`,
        `           ${half}${pole}`,
        '}',
        '',
        'connect {',
        '  star',
        '  path U 1 from U1 1a (+6b +6a)*3 +6b +7a (+6b +6a)*3 +6b (+6a +6b)*2 +6a (+6b +6a)*3 +6b +7a +6b',
        '                   to N',
        '}',
        '',
      ].join('\n'),
    );
  });

  it('leaves an empty text and a text of blanks empty of change', () => {
    for (const text of ['', '\n', '  \n\n', '\ufeff']) expect(format(text)).toBe(text);
  });
});

describe('a require block', () => {
  it('has its limits aligned at their relations, and its accepts at their reasons', () => {
    const text = `require {
 accept   jumpers    "by hand"
  winding-factor harmonic 1 >= 0.9
 slot-fill   <=  78 %   # tight
  accept terminals-apart "long leads"
}
`;
    expect(format(text)).toBe(`require {
  accept jumpers         "by hand"
  winding-factor harmonic 1 >= 0.9
  slot-fill                 <= 78 %  # tight
  accept terminals-apart "long leads"
}
`);
    expect(format('require { accept  jumpers "x"   slot-fill<=1 }')).toBe(
      'require { accept jumpers "x"  slot-fill <= 1 }\n',
    );
  });
});
