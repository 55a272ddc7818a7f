import { describe, expect, it } from 'vitest';
import { checkText } from '../../core/findings/checkedText.ts';
import { format } from '../../core/language/format/formatter.ts';
import { itemText } from '../../core/language/specification/series.ts';
import { specify } from '../../core/language/specification/specify.ts';
import { parse } from '../../core/language/text/parser.ts';
import { completions } from '../../core/language/vocabulary/completions.ts';
import { explainedWord } from '../../core/language/vocabulary/explain.ts';
import { expectFindings, marked } from '../support/marked.ts';

const machine = 'winding "Lock gate winch"\nmachine { slots 12  poles 10  phases 3 }\n';
const file = (vary: string, layout = 'layout { layers 2  span 1 }') =>
  `${machine}${layout}\nvary {\n  ${vary}\n}\n`;
const findingsOf = (text: string) => checkText(text, () => ({ kind: 'pending' })).findings;

function valuesOf(row: string): readonly (readonly string[])[] {
  const document = parse(file(row));
  expect(document.findings).toEqual([]);
  return specify(document).vary!.rows.flatMap(({ value }) =>
    value.columns.map(({ values }) => values().map(itemText)),
  );
}

describe('the values of a row', () => {
  it.each([
    ['machine slots 36 to 72 by 12', ['36', '48', '60', '72']],
    ['machine poles 8 10 12', ['8', '10', '12']],
    ['bar height 2 mm to 2.6 mm by 0.2 mm', ['2 mm', '2.2 mm', '2.4 mm', '2.6 mm']],
    ['layout layers 6 to 2 by -2', ['6', '4', '2']],
    ['layout stagger 1 to -1', ['1', '0', '-1']],
    ['layout span nominal -2 to nominal', ['nominal -2', 'nominal -1', 'nominal']],
    ['layout span nominal +1 4', ['nominal +1', '4']],
    ['machine gap inner both', ['inner', 'both']],
    ['connect route paths 1 2 4', ['1', '2', '4']],
    ['machine rotor-field harmonic 3 5 % 12%', ['5 %', '12 %']],
    ['slot a b width 3 mm to 4 mm by 0.5 mm', ['3 mm', '3.5 mm', '4 mm']],
  ])('%s', (row, values) => {
    expect(valuesOf(row)).toEqual([values]);
  });

  it('are exact in the decimals written, where binary fractions are not', () => {
    const [values] = valuesOf('bar height 0.1 mm to 0.7 mm by 0.1 mm');
    expect(values).toEqual(['0.1 mm', '0.2 mm', '0.3 mm', '0.4 mm', '0.5 mm', '0.6 mm', '0.7 mm']);
    expect(0.1 + 0.2).not.toBe(0.3);
  });

  it('step together, or with the other sign', () => {
    expect(valuesOf('bar height a 2 mm 3 mm with bar height b 3 mm 2 mm')).toEqual([
      ['2 mm', '3 mm'],
      ['3 mm', '2 mm'],
    ]);
    expect(valuesOf('layout skew a 0 slot to 1 slot by 0.5 slot with opposite layout skew b')).toEqual([
      ['0 slot', '0.5 slot', '1 slot'],
      ['0 slot', '-0.5 slot', '-1 slot'],
    ]);
  });
});

describe('what is wrong in a row is told where it stands', () => {
  it.each<[string, string]>([
    ['machine poles 8 to 12 by «1»', ''],
    ['machine slots «36 to 72 by 0»', 'vary-step-wrong'],
    ['machine slots «36 to 72 by -6»', 'vary-step-wrong'],
    ['bar height «2 mm to 4 mm»', 'vary-step-wrong'],
    ['bar height «2 mm to 4 mm by 250 um»', 'vary-step-wrong'],
    ['machine slots 36 to «70» by 6', 'vary-end-missed'],
    ['machine slots «3 to 2400000 by 1»', 'vary-step-wrong'],
    ['layout layers 2 «27»', 'value-out-of-range'],
    ['machine slots 36 to 72 by «6 mm»', ''],
    ['machine «slot» 36', 'word-unknown'],
    ['connect «star» 1', ''],
    ['bar height a 2 mm 3 mm with bar height b «3 mm»', 'vary-counts-differ'],
    ['bar height a 2 mm 3 mm with opposite bar «height b»', 'vary-opposite-impossible'],
    ['hold flux «gap-flux-density»', 'hold-twofold'],
    ['keep «winding-facto» >= 0.9', 'word-unknown'],
    ['rank least «copper»', 'word-unknown'],
    ['machine slots 36 48\n  machine «slots» 12', 'vary-word-repeated'],
    ['bar height 2 mm\n  bar «height a» 3 mm', 'vary-word-repeated'],
    ['machine poles 8 10\n  «keep wave-relative order 1 <= 0.4»', ''],
    ['machine poles 8 10\n  rank «least wave-relative» order 1', 'vary-order-with-poles'],
    ['«keep limits»', 'keep-without-limits'],
  ])('%s', (row, code) => {
    const { text, ranges } = marked(file(row));
    const found = findingsOf(text);
    if (code !== '') expectFindings(file(row), [code], findingsOf);
    else {
      expect(found).toHaveLength(1);
      expect(found[0]!.range.start).toBeGreaterThanOrEqual(text.indexOf('vary'));
      expect(ranges).toHaveLength(1);
    }
  });

  it('a number of slots, poles or layers beside written rows or paths', () => {
    const rows = 'layout { layer a +U -U -V +V +W -W -U +U +V -V -W +W }';
    expectFindings(file('machine «slots» 12 24', rows), ['vary-written'], findingsOf);
    expectFindings(file('layout «span» 1 2', rows), ['vary-written'], findingsOf);
  });

  it('layers that the overridden statement names otherwise', () => {
    const skewed = 'layout { layers 2  span 1  skew all 1 slot }';
    expectFindings(file('layout «skew a» 0 slot 1 slot', skewed), ['vary-layers-differ'], findingsOf);
  });

  it('and leaves the rest of the text as it is', () => {
    const plain = checkText(file('machine slots 12 24').replace(/vary[^}]*\}/, ''));
    const varied = checkText(file('machine slots 36 to 70 by 6'));
    expect(varied.facts!.differentialLeakage()).toBe(plain.facts!.differentialLeakage());
    expect(varied.broken).toBe(false);
  });
});

describe('the editor', () => {
  it('aligns the values of rows', () => {
    const text = file(
      'machine  slots 36 48\n layout skew a 1 slot 2 slot\n hold   flux\n keep slot-fill<=70 %',
    );
    expect(format(text).split('vary')[1]).toBe(
      ' {\n  machine slots 36 48\n  layout skew a 1 slot 2 slot\n  hold flux\n  keep slot-fill <= 70 %\n}\n',
    );
  });

  const offered = (row: string) => {
    const { text, ranges } = marked(file(row));
    return completions(parse(text), ranges[0]!.start, [])!.items.map(({ word }) => word);
  };

  it.each([
    ['mach«»', ['machine', 'hold', 'keep', 'rank'], ['slots']],
    ['machine «»', ['slots', 'poles', 'rotor-skew'], ['drive']],
    ['machine gap «»', ['inner', 'outer', 'both'], ['with']],
    ['layout span «»', ['nominal'], ['mm']],
    ['bar height 2 «»', ['mm', 'um'], ['to']],
    ['bar height 2 mm «»', ['to', 'with'], ['by']],
    ['bar height 2 mm to 3 mm «»', ['by', 'with'], ['mm']],
    ['bar height 2 mm 3 mm with «»', ['opposite', 'layout', 'bar'], ['keep']],
    ['keep «»', ['limits', 'largest-paths', 'slot-fill'], ['least']],
    ['rank least «»', ['differential-leakage', 'cogging-periods'], ['limits']],
    ['hold flux «»', ['torque', 'shares'], ['flux']],
  ])('completes %s', (row, some, others) => {
    const words = offered(row);
    expect(words).toEqual(expect.arrayContaining(some));
    for (const other of others) expect(words).not.toContain(other);
  });

  it.each([
    ['machine s«»lots 36', 'machine slots'],
    ['bar height a 2 mm with bar hei«»ght b 3 mm', 'bar height'],
    ['layout span nom«»inal', 'vary nominal'],
    ['keep slot-f«»ill <= 70 %', 'require slot-fill'],
    ['rank most cog«»ging-periods', 'vary cogging-periods'],
    ['hold sha«»res', 'vary shares'],
  ])('explains %s', (row, word) => {
    const { text, ranges } = marked(file(row));
    const found = explainedWord(parse(text), ranges[0]!.start);
    expect(`${found?.entry.block} ${found?.entry.word}`).toBe(word);
  });
});
