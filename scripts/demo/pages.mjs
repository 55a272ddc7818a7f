// The pages: the overview, one for each example, one for the comparison, one for the tables.
import Papa from 'papaparse';
import { comparisonHtml, escaped, page, picture, reportHtml, sourceText, table } from './html.mjs';
import { overviewPage } from './overview.mjs';

/**
 * Every page of what was worked out, with its name and what it is; the overview, index.html, comes last and links
 * the others and all files.
 */
export function demoPages(work) {
  const pages = [
    ...work.examples.map((example) => ({
      name: `${example.name}.html`,
      what: `report of ${example.name}, to read`,
      text: examplePage(example),
    })),
    { name: 'comparison.html', what: 'what the revision changes, to read', text: comparisonPage(work) },
    { name: `${work.main.name}-tables.html`, what: 'the lists as tables, to read', text: tablesPage(work) },
  ];
  const files = [...work.files, ...pages.map(({ name, what }) => ({ name, what, command: null }))];
  const index = { name: 'index.html', what: 'this page', text: overviewPage({ ...work, files }) };
  return [...pages, index];
}

const back =
  '<header><nav aria-label="Way back"><a href="index.html">Back to the overview</a></nav></header>';

const link = (file, words) => `<a href="${escaped(file)}">${escaped(words)}</a>`;

/** The report of an example to read, with its drawing and its text. */
function examplePage({ name, source, text, markdown, report, drawn }) {
  const { title } = report;
  const layout = picture({
    file: `${name}.svg`,
    alt: `Developed layout of ${title}`,
    caption: 'The ring of slots cut open and laid flat.',
    kind: 'wide',
  });
  const files = [
    link(`${name}.md`, 'as Markdown'),
    link(`${name}.json`, 'as JSON, for programs'),
    ...(drawn ? [link(`${name}.svg`, 'its drawing')] : []),
  ];
  const [heading, ...rest] = reportHtml(markdown).split(/(?<=<\/h1>)/);
  return page({
    title: `${title}: report`,
    body: `${back}
<main>
${heading}
<p>The report that Slotwright writes of <code>${escaped(source)}</code>; also ${files.join(', ')}.</p>
<details><summary>The text it was computed from</summary>${sourceText(source, text)}</details>
${drawn ? layout : ''}
${rest.join('')}
</main>`,
  });
}

/** What the revision changes, all of it. */
function comparisonPage({ revision, main }) {
  const overlay = picture({
    file: 'comparison.svg',
    alt: 'The old winding and the new one, laid over each other',
    caption: 'Thin gray lines stay, dashed ones go, wide dark ones come.',
    kind: 'wide',
  });
  return page({
    title: 'What the revision changes',
    body: `${back}
<main>
<h1>What the revision changes</h1>
<p>The comparison that Slotwright writes for a review: ${escaped(main.report.title)}, with <code>${escaped(revision.after)}</code> instead of <code>${escaped(revision.before)}</code>. Also ${link('comparison.md', 'as Markdown')}, as a comment on a pull request has it, and ${link('comparison.json', 'as JSON, for programs')}; the changed file is ${link(revision.file, revision.file)}.</p>
${overlay}
${comparisonHtml(revision.markdown)}
</main>`,
  });
}

const csvRows = (text) => Papa.parse(text, { skipEmptyLines: true }).data;

/** The lists of the main example as tables. */
function tablesPage({ main, schedules }) {
  const contents = schedules.map(
    ({ table: name, what }) => `<li><a href="#${name}">${name}</a>: ${what}</li>`,
  );
  const parts = schedules.map(({ table: name, what, file, text }) => {
    const rows = csvRows(text);
    return `<h2 id="${name}">${name}</h2>
<p>${rows.length - 1} rows: ${escaped(what)}. As CSV: ${link(file, file)}</p>
${table(`List of ${name}`, rows)}`;
  });
  return page({
    title: `${main.report.title}: lists`,
    body: `${back}
<main>
<h1>${escaped(main.report.title)}: lists for the shop</h1>
<nav aria-label="Lists"><ul>${contents.join('')}</ul></nav>
${parts.join('\n')}
</main>`,
  });
}
