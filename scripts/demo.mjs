// Runs the main job on the examples, writes all of it to out/ with an overview to look at, prints a summary.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { runStep as build } from './build.mjs';
import { demoPages } from './demo/pages.mjs';
import { demoSummary, unexpectedErrors } from './demo/summary.mjs';
import { workExamples } from './demo/work.mjs';
import { HouseError, root } from './shell.mjs';

/** Makes everything in a folder, with the built command line; resolves to what it worked out. */
export async function makeDemo(folder) {
  const work = await workExamples(folder);
  for (const { name, text } of demoPages(work)) writeFileSync(join(folder, name), text);
  return work;
}

/** Does the whole demonstration; the findings of the deliberately broken examples are part of it. */
export async function runStep() {
  await build(['cli', 'fileFormats']);
  console.log('\nChecking, computing and drawing the examples ...');
  const { examples, checked } = await makeDemo(join(root, 'out'));
  console.log(`\n${demoSummary(examples, checked)}`);
  console.log(`\nOpen this in a browser:  ${pathToFileURL(join(root, 'out/index.html'))}`);
  const unexpected = unexpectedErrors(examples);
  if (unexpected.length > 0)
    throw new HouseError(`Errors where none were expected: ${unexpected.join(', ')}`);
}
