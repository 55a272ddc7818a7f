// The overview: what was made, in the order in which a newcomer should look at it.
import {
  comparisonHtml,
  escaped,
  page,
  picture,
  reportHtml,
  scroller,
  sectionOf,
  sourceText,
  table,
  tableRows,
} from './html.mjs';
import { errorsOf, isBrokenOnPurpose } from './summary.mjs';
import { blocks, glossary, quantities, views as viewWords } from './texts.mjs';

const code = (text) => `<code>${escaped(text)}</code>`;
const link = (file, words) => `<a href="${escaped(file)}">${words}</a>`;
const counted = (count, one, many = `${one}s`) => `${count} ${count === 1 ? one : many}`;

/** The overview of all that `work` made. */
export function overviewPage(work) {
  const parts = [
    ['file', 'Start: a winding is a text file', fileSection],
    ['check', 'It is checked like spelling', checkSection],
    ['figures', 'It is computed', figuresSection],
    ['drawings', 'It is drawn', drawingsSection],
    ['handover', 'The shop gets sheets and lists', handoverSection],
    ['review', 'A change is reviewed', reviewSection],
    ['examples', 'All examples', examplesSection],
    ['cautions', 'Cautions', cautionsSection],
    ['files', 'Every file that was made', filesSection],
  ];
  const contents = parts.map(([id, heading]) => `<li><a href="#${id}">${heading}</a></li>`);
  const sections = parts.map(
    ([id, heading, section]) =>
      `<section aria-labelledby="${id}">\n<h2 id="${id}">${heading}</h2>\n${section(work)}\n</section>`,
  );
  return page({
    title: 'Slotwright: one text file, and everything that follows from it',
    body: `<header>
<h1>One text file, and everything that follows from it</h1>
<p class="lead">The winding of an electric machine is its copper: which bar lies in which slot, and how the bars are joined. Slotwright keeps it as a short text file and makes the rest from that: figures, drawings, lists for the shop, and what a change does.</p>
<p>This page shows it on ${work.examples.length} examples of a workshop on a tidal estuary, which builds drives for small ferries, lock gates and pumps. The workshop and its data are invented. Everything here was just made on this computer by <code>npm run demo</code>, with the same commands that you would use. Look at it from top to bottom, ten minutes; to try it in an editor, run <code>npm start</code>.</p>
<div class="caution"><p><strong>For preliminary design only.</strong> Insulation, overspeed, magnets, heat and stored energy can hurt people: licensed people verify a design before anything is built or energized. See the <a href="#cautions">cautions</a>.</p></div>
<nav aria-label="Contents"><ol>${contents.join('')}</ol></nav>
<details><summary>Words you will meet</summary><dl>${glossary.map(([word, meaning]) => `<dt>${word}</dt><dd>${meaning}</dd>`).join('')}</dl></details>
</header>
<main>
${sections.join('\n')}
</main>
<footer><p>Made by Slotwright, offline, from the files in <code>examples/</code>. What each word of the language means stands in <code>docs/language.md</code>.</p></footer>`,
  });
}

function fileSection({ main }) {
  const { slots, poles, phases, layers } = main.report.winding;
  const present = Object.entries(blocks).filter(([word]) => new RegExp(`^${word}\\b`, 'm').test(main.text));
  return `<p>This is ${code(main.source)}, all of it (scroll in it): ${escaped(main.report.title)}, ${slots} slots, ${poles} poles, ${phases} phases, ${counted(layers, 'layer')} of bars. Nothing about it is kept anywhere else, so that drawing and calculation cannot disagree.</p>
<div class="beside">
${sourceText(main.source, main.text)}
<dl>${present.map(([word, meaning]) => `<dt>${code(word)}</dt><dd>${escaped(meaning)}</dd>`).join('')}</dl>
</div>`;
}

function checkSection({ examples, checked }) {
  const broken = examples.filter(isBrokenOnPurpose);
  const parts = broken.map(({ name, source, text, report }) => {
    const lines = text.split(/\r?\n/);
    const rows = errorsOf(report).map(({ range, message }) => [
      range.start.line,
      lines[range.start.line - 1].trim(),
      message,
    ]);
    return `<h3>${escaped(report.title)}</h3>
<p>${code(source)} is broken on purpose: ${counted(rows.length, 'error')}. ${link(`${name}.html`, 'Its report')}</p>
${table(`Errors of ${report.title}`, [['line', 'what stands there', 'what is wrong'], ...rows], 'quoting')}`;
  });
  return `<p>In the editor wrong places are underlined while you type. The same check runs on a build server: ${counted(checked.files.length, 'file')}, ${counted(checked.errors, 'error')}, ${counted(checked.warnings, 'warning')} here. Every error is one that we put there; warnings are things to know, not mistakes.</p>
<p class="look">Look at the right column: each message says what was expected, not only that something is wrong.</p>
${parts.join('\n')}`;
}

/** The limits as the report words them, with what each quantity means. */
function limitTable({ main }) {
  const [, ...rows] = tableRows(sectionOf(main.markdown, 'Required limits') ?? '');
  const explained = rows.map(([limit, required, actual, , holds]) => {
    const meaning = quantities[limit.split(' ')[0]];
    return [limit, holds, required, actual, meaning ?? ''];
  });
  return table(
    'Limits',
    [['what is limited', 'holds', 'required', 'computed', 'what it means'], ...explained],
    'explained',
  );
}

function figuresSection(work) {
  const { main } = work;
  const figures = sectionOf(main.markdown, 'Key figures') ?? '';
  return `<p>The designer states limits in the file; Slotwright computes the values and compares. A limit that cannot be computed fails, and says what is missing.</p>
<p class="look">Look at “holds” first: it is the answer to whether this winding does its job.</p>
${limitTable(work)}
<h3>Key figures</h3>
${reportHtml(figures)}
<p>${link(`${main.name}.html`, 'The whole report')} has every factor, wave, path, joint and loss, with the model and the source of each figure, what was assumed, and what could not be computed.</p>`;
}

function drawingsSection({ main, views }) {
  const one = (view, file, kind = '') => {
    const { name, caption } = viewWords[view];
    return `<h3>${name}</h3>\n${picture({ file, alt: `${name} of ${main.report.title}`, caption, kind })}`;
  };
  return `<p>All drawings show the same winding; none was drawn by hand. In the editor they follow the cursor and every keystroke.</p>
${one('layout', `${main.name}.svg`, 'wide')}
${views.map((view) => one(view, `${main.name}-${view}.svg`)).join('\n')}
<p>For CAD programs: ${link(`${main.name}-section.dxf`, 'the section as DXF')}, in millimeters.</p>`;
}

function handoverSection({ main, schedules }) {
  const lists = schedules.map(
    ({ table: name, what, file }) =>
      `<li>${link(`${main.name}-tables.html#${name}`, name)}: ${escaped(what)} (${link(file, 'CSV')})</li>`,
  );
  return `<p>The shop forms the bars, lays them in, and joins them after drawn sheets and lists. They come from the same file, and carry its fingerprint, so that everybody can tell whether a sheet belongs to it.</p>
<p class="look">Look at <strong>${link(`${main.name}-handover.pdf`, 'the handover sheets (PDF)')}</strong>: conventions first, then the layout phase by phase, the dimensioned bar shapes, and the joints in the order in which a welder can follow them. This is the first sheet:</p>
${picture({ file: `${main.name}-handover.svg`, alt: `First handover sheet of ${main.report.title}`, caption: 'Sheet 1: conventions, machine, slots and bars, connection scheme.', kind: 'sheets', whole: 'Open all sheets in one picture' })}
<p>The lists, ${link(`${main.name}-tables.html`, 'all on one page')}:</p>
<ul>${lists.join('')}</ul>`;
}

function reviewSection({ main, revision }) {
  const { limits } = revision.comparison;
  const lost = limits.filter(({ holds }) => holds === false);
  const verdict =
    lost.length === 0
      ? 'all required limits still hold'
      : `${counted(lost.length, 'required limit fails', 'required limits fail')}, so the review ends with no`;
  const summary = revision.markdown
    .replace(/^## .*\n/, '')
    .split('<details>')[0]
    .replace(/^\s*`[^\n]*→[^\n]*\n/, '');
  return `<p>A colleague proposes coils that are one slot shorter, to quiet the fifth and seventh harmonics. In the text that is one line:</p>
${scroller('The changed line', `<pre><code>- ${escaped(revision.before)}\n+ ${escaped(revision.after)}</code></pre>`, 'code')}
<p>Does the proposal hold? Slotwright compares the two windings by what they are: bars, joints, shapes, numbers, limits. Here ${verdict}.</p>
<p class="look">Look at the limits first, then at “better” and “worse”.</p>
${comparisonHtml(summary)}
${picture({ file: 'comparison.svg', alt: `${main.report.title}, before and after`, caption: 'Old and new winding over each other: thin gray lines stay, dashed ones go, wide dark ones come.', kind: 'wide' })}
<p>${link('comparison.html', 'The whole comparison')} lists every bar and joint that changed; on a pull request it is a comment.</p>`;
}

/** What the comment at the head of the file says: what this example teaches. */
const lesson = (text) =>
  text
    .split(/\n(?!#)/)[0]
    .replaceAll(/^#\s?/gm, '')
    .replaceAll('\n', ' ')
    .trim();

function examplesSection({ examples }) {
  const broken = examples.filter(isBrokenOnPurpose);
  const sound = examples.filter((example) => !broken.includes(example));
  const cards = [...sound, ...broken].map(({ name, text, report, drawn }) => {
    const { slots, poles, phases, layers } = report.winding ?? {};
    const size =
      slots === undefined
        ? 'No winding could be made of it.'
        : `${slots} slots, ${poles} poles, ${phases} phases, ${counted(layers, 'layer')}.`;
    const drawing = drawn
      ? `<a href="${escaped(name)}.svg"><img src="${escaped(name)}.svg" alt="Developed layout of ${escaped(report.title)}" loading="lazy"></a>`
      : '';
    return `<li><h3>${link(`${name}.html`, escaped(report.title))}</h3>
${drawing}
<p>${size} ${escaped(lesson(text))}</p></li>`;
  });
  return `<p>Each teaches one thing; the heading opens the report.</p>\n<ul class="cards">${cards.join('\n')}</ul>`;
}

const cautionsSection = ({ main }) =>
  `<div class="caution">${reportHtml(sectionOf(main.markdown, 'Cautions') ?? '')}</div>`;

function filesSection({ files }) {
  const rows = [...files]
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .map(
      ({ name, what, command }) =>
        `<tr><th scope="row">${link(name, escaped(name))}</th><td>${escaped(what)}</td><td>${command === null ? '' : code(command)}</td></tr>`,
    );
  const head =
    '<tr><th scope="col">file</th><th scope="col">what it is</th><th scope="col">made by</th></tr>';
  const whole = `<table><thead>${head}</thead><tbody>\n${rows.join('\n')}\n</tbody></table>`;
  return `<p>They lie beside this page, with the command that makes each.</p>\n<details><summary>${counted(files.length, 'file')}</summary>${scroller('All files', whole)}</details>`;
}
