import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** The project's folder, with a slash at its end. */
export const projectFolder = fileURLToPath(new URL('../../', import.meta.url));

/** Names and texts of the examples, in the order of their names. */
export const examples: readonly { readonly name: string; readonly text: string }[] = readdirSync(
  `${projectFolder}examples`,
)
  .filter((name) => name.endsWith('.winding'))
  .sort()
  .map((name) => ({ name, text: readFileSync(`${projectFolder}examples/${name}`, 'utf8') }));

export const soundExamples = examples.filter(({ name }) => !name.startsWith('broken-'));
