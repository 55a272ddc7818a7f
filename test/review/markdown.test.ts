// Takes its time: studies whole windings.

import MarkdownIt from 'markdown-it';
import { describe, expect, it } from 'vitest';
import { compare } from '../../core/review/compare.ts';
import { comparedFilesMarkdown, comparisonMarkdown } from '../../core/review/markdown/markdown.ts';
import { isTelling } from '../../core/review/numbers/scales.ts';
import type { ComparedFile } from '../../core/review/schema.ts';
import { quantityName } from '../../core/review/words.ts';
import { examples } from '../support/files.ts';
import { buildCommands, hostileTexts, inQuotes } from '../support/hostile.ts';
import { forgeActions, htmlElements } from '../support/markdown.ts';
import { study } from '../support/study.ts';
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

const written = study(writtenFerry);
const shorter = generatedFerry.replace('span   6', 'span   5').replace('>= 0.93', '>= 0.95');

describe('the comparison as Markdown', () => {
  it('shows at once only numbers that moved by what a reader would call a change', () => {
    const pod = examples.find(({ name }) => name === 'harbor-ferry-pod-drive.winding')!.text;
    const comparison = compare(study(pod), study(pod.replace('span   6', 'span   5')));
    const text = comparisonMarkdown(comparison, 'old', 'new');
    const [atOnce] = text.split('<details>');
    const density = comparison.numbers.find(({ quantity }) => quantity === 'current-density')!;
    expect(Math.abs(density.difference! / density.old!)).toBeLessThan(1e-4);
    expect(atOnce).toContain('| winding loss |');
    expect(atOnce).not.toContain('| current density |');
    const hardly = text.slice(text.indexOf('hardly moved</summary>'));
    expect(hardly.slice(0, hardly.indexOf('</details>'))).toContain('| current density |');
    const telling = comparison.numbers.filter(isTelling).length;
    expect(text).toContain(`${telling} numbers moved: `);
    expect(text).toContain(`>${comparison.numbers.length - telling} numbers hardly moved<`);
  });

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
    expect(rows.find(([name]) => name === 'pitch factor, harmonic 1')).toEqual([
      'pitch factor, harmonic 1',
      '1',
      '0.9659',
      '−0.0341',
      'worse',
    ]);
  });

  it('shows of long statements where they differ', () => {
    const long = 'from U1 1a (+6b +6a)*3 +6b +7a (+6b +6a)*2 +6b +6a +6b to N';
    const written = writtenFerry
      .replace(
        /path U 1 from[\s\S]*?to N/,
        `path U 1 ${long.replace('+7a', '+6a +6b +6a +6b +6a +6b +6a +6b +7a')}`,
      )
      .replace(/require[\s\S]*$/, '');
    const other = written.replace('(+6b +6a)*2 +6b +6a +6b to N', '(+6b +6a)*2 +6b +6a +5b to N');
    const row = tables(markdown(written, other)).find(([name]) => name === 'connect path U 1')!;
    expect(row[1]).toMatch(/^….*\+6b to N$/);
    expect(row[2]).toMatch(/^….*\+5b to N$/);
    expect(row[1]!.slice(1)).toContain('+6a');
  });

  it('shows at once what moved most, the worse first, and no figure a second time that a limit shows', () => {
    const pod = examples.find(({ name }) => name === 'harbor-ferry-pod-drive.winding')!.text;
    const more = pod
      .replace('current 210 A', 'current 250 A')
      .replace('height       3 mm', 'height       2.5 mm');
    const atOnce = markdown(pod, more).split('<details>')[0]!;
    const rows = tables(atOnce.slice(atOnce.indexOf('| quantity |'))).slice(1);
    const verdicts = rows.map((row) => row.at(-1)!);
    expect(new Set(verdicts)).toContain('worse');
    expect(new Set(verdicts)).toContain('better');
    expect(verdicts.slice(verdicts.indexOf('better'))).not.toContain('worse');
    // Copper loss goes with the square of the current over the section: by far more than the others.
    expect(rows[0]![0]).toBe('winding loss');
    expect(rows.length).toBeLessThanOrEqual(17);
    // There are limits on both.
    expect(atOnce).toContain('| `current-density` |');
    expect(atOnce).not.toContain('| current density |');
  });

  it('lists joints that are added beside those that are removed, however many there are', () => {
    const text = markdown(generatedFerry, shorter);
    const joints = text.slice(text.lastIndexOf('joints added'));
    const table = joints.slice(0, joints.indexOf('</details>'));
    const of = (what: string) => table.match(new RegExp(`^\\| ${what} `, 'gm'))?.length ?? 0;
    expect(of('removed')).toBe(60);
    expect(of('added')).toBe(60);
    expect(table).toContain('264 more rows are not listed.');
  });

  it('shows at once what the shop counts, last, however little of it moved', () => {
    const [shown] = markdown(generatedFerry, shorter.replace('route paths 2', 'route paths 4')).split(
      '<details>',
    );
    const names = tables(shown!.slice(shown!.indexOf('| quantity |')))
      .slice(1)
      .map(([name]) => name!);
    const { numbers } = compare(
      study(generatedFerry),
      study(shorter.replace('route paths 2', 'route paths 4')),
    );
    const counts = numbers.filter(({ quantity }) =>
      ['special-joints', 'jumpers', 'joint-shapes', 'bar-shapes', 'legs-bent-apart'].includes(quantity),
    );
    expect(counts.length).toBeGreaterThan(1);
    const told = names.slice(-counts.length);
    expect(told.sort()).toEqual(counts.map((number) => quantityName(number)).sort());
  });

  it('counts the shapes of bars and of joints each', () => {
    const { shapes } = compare(study(generatedFerry), study(shorter));
    const { bars, joints } = shapes;
    expect(markdown(generatedFerry, shorter)).toContain(
      `<summary>Bar shapes: ${bars.added.length} added, ${bars.removed.length} removed; joint shapes: ${joints.added.length} added, ${joints.removed.length} removed</summary>`,
    );
  });

  it('says once why an old text cannot be read', () => {
    const trouble = 'The old text cannot be read (too large): all of the new winding counts as new.';
    const comparison = compare(null, study(writtenFerry));
    const told = { ...comparison, notes: [trouble, ...comparison.notes] };
    const text = comparedFilesMarkdown(
      [{ file: 'a.winding', status: 'changed', trouble, comparison: told }],
      'main',
    );
    expect(text.split('cannot be read')).toHaveLength(2);
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

  it.each(hostileTexts)('lets no text of the user act: %.40j', (hostile) => {
    const named = writtenFerry.replace('Harbor ferry pod drive, stator B', () =>
      inQuotes(hostile).slice(1, -1),
    );
    const now = `${named}
sheet { note ${inQuotes(hostile)}  ${hostile.replace(/[{}\r\n]/g, '')} }
`;
    const comparison = compare(written, study(now));
    expect(comparison.findings.new.length).toBeGreaterThan(0);
    const trouble = `${hostile} cannot be read.`;
    const files: readonly ComparedFile[] = [
      { file: `${hostile}.winding`, oldFile: hostile, status: 'renamed', comparison },
      { file: 'b.winding', status: 'changed', trouble, comparison },
      { file: 'c.winding', status: 'changed', trouble, comparison: null },
    ];
    for (const text of [
      comparisonMarkdown(comparison, hostile, hostile),
      comparedFilesMarkdown(files, hostile),
    ]) {
      const allowed = new Set(
        'h2 h3 p table thead tbody tr th td ul li code strong details summary'.split(' '),
      );
      expect([...htmlElements(text)].filter((name) => !allowed.has(name))).toEqual([]);
      expect(forgeActions(text)).toEqual([]);
      expect(buildCommands(text)).toEqual([]);
      expect(text).not.toMatch(/[^\P{C}\n\u200b]|[\u2028\u2029]/u);
      expect(text.match(/^<details>$/gm)?.length ?? 0).toBe(text.match(/^<\/details>$/gm)?.length ?? 0);
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
