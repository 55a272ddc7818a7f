// Does the main job on the examples: checks, computes, draws, hands over and compares, file by file.
import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { HouseError, root } from '../shell.mjs';
import { shorterSpan } from './revision.mjs';
import { createOutbox, inParallel, slotwright } from './slotwright.mjs';
import { views as viewWords } from './texts.mjs';

/** The example that is followed through the whole job. */
const mainExample = 'harbor-ferry-pod-drive';

/** The views drawn of it beside the layout that every example gets. */
const views = Object.keys(viewWords).filter((name) => name !== 'layout');

const tables = {
  slots: 'which phase lies in which slot and layer',
  bars: 'every bar, with its shape and length',
  joints: 'every joint between two bars',
  leads: 'where cables and star point are connected',
  factors: 'winding factors of every order',
};

function exampleNames() {
  const names = readdirSync(join(root, 'examples'))
    .filter((name) => name.endsWith('.winding'))
    .map((name) => name.slice(0, -'.winding'.length))
    .sort();
  if (!names.includes(mainExample)) throw new HouseError(`examples/${mainExample}.winding is missing.`);
  return names;
}

/** Writes the outputs of one example and resolves to what the pages and the summary tell of it. */
async function workExample(name, outbox) {
  const source = `examples/${name}.winding`;
  const markdown = await outbox.print(`${name}.md`, `report of ${name}, as Markdown`, ['report', source]);
  const json = await outbox.print(`${name}.json`, 'the same for programs', [
    'report',
    source,
    '--format',
    'json',
  ]);
  const layout = ['draw', source, '--view', 'layout'];
  const drawn = await outbox.write(`${name}.svg`, `developed layout of ${name}`, layout);
  const text = readFileSync(join(root, source), 'utf8');
  return { name, source, text, markdown, report: JSON.parse(json), drawn };
}

/** Everything that the main example gets beside report and layout. */
function mainWorks(outbox) {
  const source = `examples/${mainExample}.winding`;
  const file = (rest) => `${mainExample}-${rest}`;
  return [
    ...views.map(
      (view) => () => outbox.write(file(`${view}.svg`), `view "${view}"`, ['draw', source, '--view', view]),
    ),
    () =>
      outbox.write(file('handover.pdf'), 'the handover sheets, to print', [
        'draw',
        source,
        '--view',
        'sheet',
      ]),
    () =>
      outbox.write(file('handover.svg'), 'the same sheets as a picture', ['draw', source, '--view', 'sheet']),
    () =>
      outbox.write(file('section.dxf'), 'the section for CAD programs', [
        'draw',
        source,
        '--view',
        'section',
      ]),
    ...Object.entries(tables).map(
      ([table, what]) =>
        () =>
          outbox.write(file(`${table}.csv`), what, ['schedule', source, '--table', table]),
    ),
  ];
}

/** The comparison of the main example with a changed copy of it. */
async function workRevision(text, outbox) {
  const revision = shorterSpan(text);
  const name = `${mainExample}-revision.winding`;
  outbox.put(
    name,
    `the main example with "${revision.after}" instead of "${revision.before}"`,
    revision.text,
  );
  const sides = [`examples/${mainExample}.winding`, outbox.path(name)];
  const printed = (ending, what, format) =>
    outbox.print(`comparison.${ending}`, what, ['compare', ...sides, '--format', format]);
  const [markdown, json] = await inParallel([
    () => printed('md', 'what the revision changes, as Markdown', 'markdown'),
    () => printed('json', 'the same for programs', 'json'),
    () => printed('svg', 'the two windings, one laid over the other', 'svg'),
  ]);
  return { ...revision, file: name, markdown, comparison: JSON.parse(json) };
}

/**
 * Does the whole job and writes every file of it into the folder, except the pages. Resolves to what the pages
 * and the summary need.
 */
export async function workExamples(folder) {
  mkdirSync(folder, { recursive: true });
  const outbox = createOutbox(folder);
  const names = exampleNames();
  const works = [...names.map((name) => () => workExample(name, outbox)), ...mainWorks(outbox)];
  const examples = (await inParallel(works)).slice(0, names.length);
  const main = examples.find(({ name }) => name === mainExample);
  const revision = await workRevision(main.text, outbox);
  const checked = JSON.parse(await slotwright('check', 'examples', '--format', 'json'));
  const schedules = Object.entries(tables).map(([table, what]) => {
    const file = `${mainExample}-${table}.csv`;
    return { table, what, file, text: readFileSync(join(folder, file), 'utf8') };
  });
  return { examples, main, views, revision, schedules, checked, files: outbox.files };
}
