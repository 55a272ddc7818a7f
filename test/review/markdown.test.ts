import MarkdownIt from 'markdown-it';
import { describe, expect, it } from 'vitest';
import { compare } from '../../core/review/compare.ts';
import { comparedFilesMarkdown, comparisonMarkdown } from '../../core/review/markdown.ts';
import { code, sentence } from '../../core/review/markdownText.ts';
import type { ComparedFile } from '../../core/review/schema.ts';
import { study } from '../../core/study.ts';
import { generatedFerry, writtenFerry } from './texts.ts';

const markdown = (old: string, now: string) =>
  comparisonMarkdown(compare(study(old), study(now)), 'old.winding', 'new.winding');

// As a forge reads it: HTML passes, addresses become links.
const forge = new MarkdownIt({ html: true, linkify: true });

/** The cells of every table as text. */
function tables(text: string): readonly (readonly string[])[] {
  const rows = [...forge.render(text).matchAll(/<tr>([\s\S]*?)<\/tr>/g)];
  return rows.map(([, row]) =>
    [...row!.matchAll(/<t[dh][^>]*>([\s\S]*?)<\/t[dh]>/g)].map(([, cell]) => cell!.replace(/<[^>]+>/g, '')),
  );
}

const shorter = generatedFerry.replace('span   6', 'span   5').replace('>= 0.93', '>= 0.95');

describe('the comparison as Markdown', () => {
  it('begins with the summary and folds the details', () => {
    const text = markdown(generatedFerry, shorter);
    const html = forge.render(text);
    expect(html.match(/<details>/g)!.length).toBe(html.match(/<\/details>/g)!.length);
    expect(text.indexOf('**The winding changed.**')).toBeLessThan(text.indexOf('| statement |'));
    expect(text.indexOf('<details>')).toBeGreaterThan(text.indexOf('| limit |'));
    expect(text.slice(text.indexOf('<details>'))).toContain('48 bar places changed');
    expect(text.slice(0, text.indexOf('<details>'))).not.toContain('| 2b |');
  });

  it('tables statements and limits with their margin', () => {
    const rows = tables(markdown(generatedFerry, shorter));
    expect(rows).toContainEqual(['layout span', '6', '5']);
    // cos(15 deg) = 0.9659 at full pitch; times sin(75 deg) = 0.9330 at 5/6.
    expect(rows).toContainEqual([
      'winding-factor harmonic 1',
      'at least 0.9500, tightened from 0.9300',
      '0.9659',
      '0.9330',
      '−0.0170',
      'no, held before',
    ]);
    expect(rows.find(([name]) => name === 'pitch-factor harmonic 1')).toEqual([
      'pitch-factor harmonic 1',
      '1',
      '0.9659',
      '−0.0341',
      'worse',
    ]);
  });

  it('says plainly that nothing but the letters changed', () => {
    const text = markdown(writtenFerry, writtenFerry.replaceAll('  ', '    '));
    expect(text).toContain('**The same winding.** Both limits hold.');
    expect(text).not.toContain('<details>');
    const turned = writtenFerry.replace('U1 1a', 'U1 4a').replace('U1 2b', 'U1 5b');
    expect(markdown(writtenFerry, turned)).toContain(
      '**The same winding, renumbered: slot 1 is now slot 4, and so on round the bore, with connect written differently.**',
    );
  });

  it('lets no text of the user act: no markup, HTML, link, mention, reference or table cell', () => {
    const hostile =
      '<img src=x onerror=alert(1)> | @office #12 ``` [a](javascript:x) www.example.com https://example.com </details> **b**';
    const now = `${writtenFerry.replace('Harbor ferry pod drive, stator B', hostile.replaceAll('"', ''))}
sheet { note "${hostile}"  ${hostile} }
`;
    const comparison = compare(study(writtenFerry), study(now));
    expect(comparison.findings.new.length).toBeGreaterThan(0);
    const files: readonly ComparedFile[] = [
      { file: `${hostile}.winding`, oldFile: hostile, status: 'renamed', comparison },
      { file: 'b.winding', status: 'changed', comparison },
    ];
    for (const text of [
      comparisonMarkdown(comparison, hostile, hostile),
      comparedFilesMarkdown(files, hostile),
    ]) {
      const html = forge.render(text);
      expect(html).not.toMatch(/<(img|a|script|em)\b/);
      const plain = html.replace(/<code>[\s\S]*?<\/code>/g, '');
      expect(plain).not.toMatch(/@office|#12\b/);
      expect(html.match(/<details>/g)?.length ?? 0).toBe(html.match(/<\/details>/g)?.length ?? 0);
      for (const row of tables(text)) expect([3, 5, 6, 7, 4]).toContain(row.length);
    }
  });

  it('fits a comment however much changed', () => {
    const comparison = compare(study(generatedFerry), study(shorter));
    const files = Array.from(
      { length: 300 },
      (_, i): ComparedFile => ({ file: `drives/${i}.winding`, status: 'changed', comparison }),
    );
    const text = comparedFilesMarkdown(files, 'main');
    expect(text.length).toBeLessThanOrEqual(65_536);
    expect(text).toContain('`--format json` has all of them');
    expect(text).toContain('300 winding files changed');
    expect(comparedFilesMarkdown([], 'main')).toContain('0 winding files changed');
  });
});

describe('text of users', () => {
  it('survives as it is in a code span', () => {
    for (const text of ['`', '``a`', 'a|b', '<b>', '*x*', '\\', '@me', '&amp;', 'a\nb']) {
      const html = forge.render(`| a |\n| --- |\n| ${code(text)} |`);
      const cell = /<td>([\s\S]*?)<\/td>/.exec(html)![1]!;
      const shown = cell
        .replace(/^<code>|<\/code>$/g, '')
        .replaceAll('&lt;', '<')
        .replaceAll('&gt;', '>')
        .replaceAll('&amp;', '&');
      expect(shown).toBe(text.replace('\n', ' '));
    }
    expect(code('x'.repeat(200), 20)).toHaveLength(22);
    expect(code('\u0007')).toBe('`\ufffd`');
  });

  it('is inert in sentences', () => {
    expect(forge.renderInline(sentence('<b>*x*</b> [a](b) `c` ~~d~~ ![e](f)'))).toBe(
      '&lt;b&gt;*x*&lt;/b&gt; [a](b) `c` ~~d~~ ![e](f)',
    );
  });
});
