import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { findingsReference } from '../core/findings/reference.ts';
import { languageReference } from '../core/language/vocabulary/reference.ts';
import { units } from '../core/language/vocabulary/units.ts';
import { vocabulary } from '../core/language/vocabulary/vocabulary.ts';
import { figuresReference } from '../core/report/figuresReference.ts';
import { reportSchema } from '../core/report/schema.ts';
import { compareSchema } from '../core/review/schema.ts';
import { scheduleReference } from '../core/tables/reference.ts';
import { scheduleTables } from '../core/tables/schedule.ts';
import { variantsSchema } from '../core/variants/schema.ts';
import { viewNames } from '../core/views/views.ts';
import { views as demoViews } from '../scripts/demo/texts.mjs';
import { study } from './support/study.ts';

const pages = [
  'README.md',
  'DEVELOPERS.md',
  'media/extension.md',
  ...readdirSync('docs')
    .filter((name) => name.endsWith('.md'))
    .map((name) => `docs/${name}`),
];

interface SchemaNode {
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly items?: SchemaNode;
  readonly anyOf?: readonly SchemaNode[];
}

/** Whether a schema has a place, step by step; `[]` steps into a list. */
function holds({ properties, items, anyOf }: SchemaNode, [step, ...further]: readonly string[]): boolean {
  if (step === undefined) return true;
  const next = step === '[]' ? items : properties?.[step];
  if (next && holds(next, further)) return true;
  return (anyOf ?? []).some((each) => holds(each, [step, ...further]));
}

describe('the documentation', () => {
  // After a change of vocabulary, units, findings, figures or tables: npx vitest run test/docs.test.ts -u
  it('has a current language reference', async () => {
    await expect(languageReference()).toMatchFileSnapshot('../docs/language.md');
  });

  it('has a current list of findings', async () => {
    await expect(findingsReference()).toMatchFileSnapshot('../docs/findings.md');
  });

  it('has a current list of figures', async () => {
    await expect(figuresReference()).toMatchFileSnapshot('../docs/figures.md');
  });

  it('names places of figures that the schema of reports has', () => {
    const schema = z.toJSONSchema(reportSchema, { target: 'draft-2020-12' }) as SchemaNode;
    const places = [...figuresReference().matchAll(/^\| [^|]+ \| `([^`]+)` \|/gm)].map(([, place]) => place!);
    expect(places.length).toBeGreaterThan(90);
    const steps = (place: string) => place.replaceAll('[]', '.[]').split('.');
    expect(places.filter((place) => !holds(schema, steps(place)))).toEqual([]);
  });

  it('has a current list of the columns of schedules', async () => {
    const text =
      'machine { slots 12 poles 2 phases 3 } layout { layers 2 span 6 } connect { star route paths 1 }';
    await expect(scheduleReference(study(text).facts!)).toMatchFileSnapshot('../docs/schedules.md');
  });

  it('has a grammar with the words of the language, longest first', async () => {
    const grammar = JSON.parse(readFileSync('syntaxes/winding.tmLanguage.json', 'utf8'));
    const oneOf = (words: readonly string[]) =>
      [...new Set(words)]
        .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
        .map((word) => word.replace(/[()]/g, '\\$&'))
        .join('|');
    for (const role of ['block', 'statement', 'keyword', 'choice', 'quantity'] as const) {
      const words = vocabulary.flatMap((entry) => (entry.role === role ? [entry.word] : []));
      grammar.repository[role].match = `(?<![\\w-])(?:${oneOf(words)})(?![\\w-])`;
    }
    const number = '([+-]?\\d+(?:\\.\\d+)?(?:[eE][+-]?\\d+)?)';
    const unit = `(?:[ \\t]+(${oneOf(units.map(({ name }) => name))})|[ \\t]*(%))(?![A-Za-z0-9/])`;
    grammar.repository.measured.match = `(?<![\\w.])${number}${unit}`;
    const text = `${JSON.stringify(grammar, null, 2)}\n`;
    await expect(text).toMatchFileSnapshot('../syntaxes/winding.tmLanguage.json');
  });

  it.each([
    ['report', reportSchema],
    ['compare', compareSchema],
    ['variants', variantsSchema],
  ] as const)('has a current JSON schema of %s', async (name, schema) => {
    const text = `${JSON.stringify(z.toJSONSchema(schema, { target: 'draft-2020-12' }), null, 2)}\n`;
    await expect(text).toMatchFileSnapshot(`../docs/${name}.schema.json`);
  });

  it('leads through every example', () => {
    const course = readFileSync('examples/README.md', 'utf8');
    const examples = readdirSync('examples').filter((name) => name.endsWith('.winding'));
    expect(examples.filter((name) => !course.includes(`(${name})`))).toEqual([]);
  });

  it('names every view and schedule in README.md, and the demo has words for every view', () => {
    const readme = readFileSync('README.md', 'utf8');
    const [, views, last] = /Drawings are the views (.*) and `(\w+)`, and the handover sheets/.exec(readme)!;
    expect([...[...views!.matchAll(/`(\w+)`/g)].map(([, name]) => name), last]).toEqual(viewNames);
    const [, first, others] = /schedule .* --table (\w+) .* # or (.*)/.exec(readme)!;
    expect([first, ...others!.split(', ')]).toEqual(scheduleTables);
    expect(Object.keys(demoViews)).toEqual(viewNames);
  });

  it('of the installed extension links to nothing, and names commands that there are', () => {
    const page = readFileSync('media/extension.md', 'utf8');
    expect(page).not.toMatch(/\]\(/);
    const words = Object.entries(
      JSON.parse(readFileSync('package.nls.json', 'utf8')) as Record<string, string>,
    ).flatMap(([key, text]) => (/^(command\.|walkthrough$)/.test(key) ? [text.replace(/\.\.\.$/, '')] : []));
    const named = [...page.matchAll(/\*\*([^*]+)\*\*(:?)/g)].flatMap(([, name, colon]) =>
      colon === '' ? [name!.replace(/^Slotwright: |\.\.\.$/g, '')] : [],
    );
    expect(named.length).toBeGreaterThan(8);
    expect(named.filter((name) => !words.includes(name))).toEqual([]);
  });

  const blocks = pages.flatMap((page) =>
    [...readFileSync(page, 'utf8').matchAll(/```winding\n([\s\S]*?)```/g)].map((match, i) => ({
      page,
      i,
      text: match[1]!,
    })),
  );

  it.each(blocks)('shows a winding without errors in $page, block $i', ({ text }) => {
    const errors = study(text).findings.filter(({ severity }) => severity === 'error');
    expect(errors.map(({ message }) => message)).toEqual([]);
  });

  describe('the machine worked in the theory manual', () => {
    const page = readFileSync('docs/theory.md', 'utf8');
    const text = page.match(/```winding\n([\s\S]*?)```/)![1]!;
    const steps = [...page.matchAll(/^\| .* \| ([-\d.e]+) \| `([\w.[\]]+)` \|$/gm)];
    let report: unknown;

    it('has its steps', () => {
      expect(steps.length).toBeGreaterThan(20);
    });

    it.each(steps.map(([, printed, path]) => ({ path: path!, printed: printed! })))(
      'is $printed at $path',
      ({ path, printed }) => {
        report ??= study(text).report({ orders: 20 });
        const value = path
          .split(/[.[\]]+/)
          .filter((name) => name !== '')
          .reduce<unknown>((part, name) => (part as Record<string, unknown>)[name], report);
        const digits = printed.replace(/e.*/, '').replace(/^0\.0*|\./g, '').length;
        expect(Number((value as number).toPrecision(digits))).toBe(Number(printed));
      },
    );
  });

  it('shows at least one winding', () => {
    expect(blocks.length).toBeGreaterThan(0);
  });
});
