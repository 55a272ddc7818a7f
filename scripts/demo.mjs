// Runs the main job on the examples: checks all, writes reports and drawings to out/, prints a summary.
import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { runStep as build } from './build.mjs';
import { demoSummary, unexpectedErrors } from './demoSummary.mjs';
import { capture, HouseError, root } from './shell.mjs';

const program = 'dist/cli/slotwright.js';

/** What slotwright writes; exit code 1 only says that it found errors in the winding. */
async function slotwright(...args) {
  const { code, output, complaints } = await capture('node', [program, ...args]);
  if (code > 1)
    throw new HouseError(`slotwright ${args.join(' ')} failed (exit code ${code}):\n${complaints}`);
  return output;
}

/** Writes the outputs of one example and resolves to what the summary tells of it. */
async function work(name) {
  const source = `examples/${name}.winding`;
  const markdown = await slotwright('report', source, '--format', 'markdown');
  const json = await slotwright('report', source, '--format', 'json');
  writeFileSync(join(root, `out/${name}.md`), markdown);
  writeFileSync(join(root, `out/${name}.json`), json);
  const drawing = `out/${name}.svg`;
  rmSync(join(root, drawing), { force: true });
  await slotwright('draw', source, '--view', 'layout', '--output', drawing);
  return { source, report: JSON.parse(json), drawn: existsSync(join(root, drawing)) };
}

/** Does the whole demonstration; the findings of the deliberately broken example are part of it. */
export async function runStep() {
  await build(['cli']);
  mkdirSync(join(root, 'out'), { recursive: true });
  const entries = readdirSync(join(root, 'examples'));
  const names = entries
    .filter((name) => name.endsWith('.winding'))
    .map((name) => name.slice(0, -'.winding'.length));
  if (names.length === 0) throw new HouseError('There are no examples in examples/.');
  const examples = [];
  for (const name of names.sort()) examples.push(await work(name));
  const checked = JSON.parse(await slotwright('check', 'examples', '--format', 'json'));
  console.log(`\n${demoSummary(examples, checked)}`);
  const unexpected = unexpectedErrors(examples);
  if (unexpected.length > 0)
    throw new HouseError(`Errors where none were expected: ${unexpected.join(', ')}`);
}
