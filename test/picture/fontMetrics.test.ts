import { expect, test } from 'vitest';
import { ascent, descent, fitText, printable, textWidth, wrapText } from '../../core/picture/fontMetrics.ts';
import { ascentUnits, descentUnits, unitsPerEm, widthRuns } from '../../core/picture/fontTable.ts';
import { readTrueType } from './trueType.ts';

const font = readTrueType('node_modules/dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf');

test('the width table is the font’s own', () => {
  expect({ unitsPerEm, ascentUnits, descentUnits }).toEqual({
    unitsPerEm: font.unitsPerEm,
    ascentUnits: font.ascent,
    descentUnits: font.descent,
  });
  expect(widthRuns.length).toBeGreaterThan(0);
  for (const { first, widths } of widthRuns) {
    const expected = Array.from({ length: widths.length / 3 }, (_, index) =>
      (font.advance(first + index) ?? 0xfff).toString(16).padStart(3, '0'),
    );
    expect(`${first} ${widths}`).toBe(`${first} ${expected.join('')}`);
  }
});

test('a text’s width is the sum of its advances', () => {
  for (const words of ['+U \u22121W', 'Ærøskøbing', 'Ωμέγα', 'Паром', '⊙⊗⌀→']) {
    const units = [...words].reduce((sum, each) => sum + font.advance(each.codePointAt(0)!)!, 0);
    expect(textWidth(words, 2.5)).toBeCloseTo((units * 2.5) / font.unitsPerEm, 12);
  }
  expect(textWidth('漢字', 3)).toBe(6);
  expect(ascent + descent).toBeCloseTo(1.164, 3);
});

test('characters that may not stand in a drawing are replaced', () => {
  expect(printable('a\u0000b\u001bc\u0085d\ud800e\uffff\n')).toBe(
    'a\ufffdb\ufffdc\ufffdd\ufffde\ufffd\ufffd',
  );
  expect(printable('\u{1f6a2} Fähre')).toBe('\u{1f6a2} Fähre');
});

test('fitted and wrapped texts keep within their width', () => {
  const long = 'the dredge pump at the estuary’s upper lock '.repeat(9).trim();
  expect(textWidth(fitText(long, 4, 60), 4)).toBeLessThanOrEqual(60);
  expect(fitText('short', 4, 60)).toBe('short');
  const lines = wrapText(long, 2.5, 50);
  expect(lines.join(' ')).toBe(long);
  for (const line of lines) expect(textWidth(line, 2.5)).toBeLessThanOrEqual(50);
  expect(textWidth(wrapText('W'.repeat(400), 2.5, 50)[0]!, 2.5)).toBeLessThanOrEqual(50);
});
