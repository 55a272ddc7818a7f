import { expect, test } from 'vitest';
import { compare } from '../../core/review/compare.ts';
import { comparisonMarkdown } from '../../core/review/markdown/markdown.ts';
import { sectionOf, tableRows } from '../../scripts/demo/html.mjs';
import { demoPages } from '../../scripts/demo/pages.mjs';
import { shorterSpan } from '../../scripts/demo/revision.mjs';
import { examples } from '../support/files.ts';
import { study } from '../support/study.ts';

function worked(name: string, text: string) {
  const studied = study(text);
  const report = JSON.parse(JSON.stringify(studied.report()));
  const drawn = studied.winding !== null;
  return { name, source: `examples/${name}.winding`, text, markdown: studied.markdown(), report, drawn };
}

/** What the demonstration works out, of one sound and one broken text, without calling the program. */
function workOf(mainText: string, brokenText: string) {
  const main = worked('main', mainText);
  const broken = worked('broken-trial', brokenText);
  const revision = shorterSpan(mainText);
  const comparison = compare(study(mainText), study(revision.text));
  const file = (name: string, command: string | null = null) => ({ name, what: `what ${name} is`, command });
  return {
    examples: [main, broken],
    main,
    views: ['section'],
    revision: {
      ...revision,
      file: 'main-revision.winding',
      comparison,
      markdown: comparisonMarkdown(comparison, main.source, 'out/main-revision.winding'),
    },
    schedules: [
      { table: 'bars', what: 'every bar', file: 'main-bars.csv', text: 'position,phase\r\n"1a","U, V"\r\n' },
    ],
    checked: { files: [1, 2], errors: 1, warnings: 0 },
    files: [
      ...['main', 'broken-trial'].flatMap((name) => [file(`${name}.md`), file(`${name}.json`)]),
      ...(broken.drawn ? [file('broken-trial.svg')] : []),
      file('main.svg', 'npx slotwright draw examples/main.winding'),
      ...['section.svg', 'section.dxf', 'handover.pdf', 'handover.svg', 'bars.csv', 'revision.winding'].map(
        (rest) => file(`main-${rest}`),
      ),
      ...['md', 'json', 'svg'].map((ending) => file(`comparison.${ending}`)),
    ],
  };
}

const ferry = examples.find(({ name }) => name === 'harbor-ferry-pod-drive.winding')!.text;
const mistakes = examples.find(({ name }) => name === 'broken-ballast-pump.winding')!.text;
const work = workOf(ferry, mistakes);
const pages = demoPages(work);
const overview = pages.at(-1)!.text;

/** Everything that a page refers to. */
const references = (text: string) => [...text.matchAll(/(?:href|src)="([^"]*)"/g)].map((match) => match[1]!);

/** Words of a page without markup, blanks drawn together. */
const words = (html: string) =>
  html
    .replaceAll(/<style>.*?<\/style>|<[^>]*>/gs, ' ')
    .replaceAll('&quot;', '"')
    .replaceAll('&gt;', '>')
    .replaceAll('&lt;', '<')
    .replaceAll('&amp;', '&')
    .replaceAll(/\s+/g, ' ');

test('the overview links every file and page that was made, and nothing that was not', () => {
  const made = [...work.files, ...pages].map(({ name }) => name).filter((name) => name !== 'index.html');
  const linked = references(overview).map((reference) => reference.split('#')[0]!);
  expect([...new Set(linked)].filter((name) => name !== '' && name !== 'data:,').sort()).toEqual(made.sort());
});

test.each(pages.map(({ name, text }) => [name, text] as const))(
  'the page needs nothing from outside and leads back: %s',
  (name, text) => {
    const made = [...work.files, ...pages].map((file) => file.name);
    const ids = [...text.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]!);
    expect(new Set(ids).size).toBe(ids.length);
    for (const reference of references(text).filter((address) => address !== 'data:,')) {
      const [file, id] = reference.split('#') as [string, string?];
      if (file !== '') expect(made).toContain(file);
      const target = file === '' ? text : pages.find((page) => page.name === file)?.text;
      if (id !== undefined) expect(target).toContain(` id="${id}"`);
    }
    expect(text).not.toMatch(/<script|@import|url\(/);
    if (name !== 'index.html') expect(references(text)).toContain('index.html');
    expect(text.match(/<h1/g)).toHaveLength(1);
    for (const image of text.match(/<img[^>]*>/g) ?? []) expect(image).toMatch(/ alt="[^"]+"/);
    for (const head of text.match(/<th[ >][^>]*>/g) ?? []) expect(head).toContain('scope=');
  },
);

test('text from a file is shown as it stands and acts as no markup', () => {
  const evil = '</title><img src=x onerror=alert(1)>"&amp;';
  const spiteful = demoPages(
    workOf(
      ferry.replace('Harbor ferry pod drive, stator B', evil.replaceAll('"', "'")).replace('#', `# ${evil}`),
      `# ${evil}\nwinding "x"\nmachine { slots ${evil} }\n`,
    ),
  );
  for (const { name, text } of spiteful) {
    expect(text, name).not.toContain('<img src=x');
    if (name !== 'main-tables.html' && name !== 'comparison.html')
      expect(text, name).toContain('&lt;img src=x onerror=alert(1)&gt;&quot;&amp;amp;');
  }
});

test('the overview tells every limit, every caution and every mistake as the report has them', () => {
  const { report, markdown } = work.main;
  const seen = words(overview);
  expect(report.limits.length).toBeGreaterThan(5);
  const [, ...limits] = tableRows(sectionOf(markdown, 'Required limits')!);
  expect(limits).toHaveLength(report.limits.length);
  for (const [limit, required, actual, , holds] of limits)
    expect(seen).toContain(`${limit} ${holds} ${required} ${actual}`);
  const cautions = sectionOf(markdown, 'Cautions')!.split('\n');
  expect(cautions.length).toBeGreaterThan(3);
  for (const caution of cautions) expect(seen).toContain(caution.replace(/^- /, ''));
  const { findings } = work.examples[1]!.report;
  expect(findings.length).toBeGreaterThan(3);
  for (const { message } of findings) expect(seen).toContain(message);
  expect(sectionOf(markdown, 'Key figures')).not.toBeNull();
  expect(seen).toContain('Turns in series');
});

test('the review shows the changed line, which limits fail by it, and its folded lists on a page of their own', () => {
  const failing = work.revision.comparison.limits.filter(({ holds }) => holds === false);
  expect(failing.length).toBeGreaterThan(0);
  expect(words(overview)).toContain('- span 6 + span 5');
  expect(words(overview)).toContain(`Here ${failing.length} required limit`);
  const whole = pages.find(({ name }) => name === 'comparison.html')!.text;
  expect(whole).toContain('bar places changed');
  expect(whole.match(/<details>/g)!.length).toBeGreaterThan(2);
  expect(overview.match(/<details>/g)!.length).toBe(2);
});

test('the revision is the same text with a span one slot shorter', () => {
  const { text, before, after } = shorterSpan('layout {\n  layers 2\n  span   6\n}\n');
  expect(text).toBe('layout {\n  layers 2\n  span   5\n}\n');
  expect([before, after]).toEqual(['span   6', 'span   5']);
  expect(() => shorterSpan('layout { layers 2 }')).toThrow('span');
  expect(() => shorterSpan('span 1')).toThrow('shorter');
});

test('cells of a list may hold commas', () => {
  expect(pages.find(({ name }) => name === 'main-tables.html')!.text).toContain('<td>U, V</td>');
});

test('sections and tables of Markdown are found; a section that is not there is none', () => {
  const text = '# A\n\n## B\n\n| x | y |\n| --- | ---: |\n| a \\| b | 2 |\n\n## C\n\nend\n';
  expect(tableRows(sectionOf(text, 'B')!)).toEqual([
    ['x', 'y'],
    ['a \\| b', '2'],
  ]);
  expect(sectionOf(text, 'C')).toBe('end');
  expect(sectionOf(text, 'D')).toBeNull();
});
