import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vitest/config';

const here = fileURLToPath(new URL('.', import.meta.url));
const project = fileURLToPath(new URL('../../../', import.meta.url));

/** Modules that have a stand-in, and where those who get it stand. Tests get what they import themselves. */
const standIns = [
  { module: 'core/routing/route.ts', standIn: 'route.ts', importers: /^(core\/facts|extension)\// },
  { module: 'core/facts/ends.ts', standIn: 'ends.ts', importers: /^core\/facts\// },
  { module: 'core/study.ts', standIn: '../study.ts', importers: /^cli\// },
] as const;

/**
 * Lets the tests of a worker share what takes long and follows from its input alone: connections, measured ends, and
 * for the command line whole studies. Each is computed when it is first asked for, and handed out again for an
 * equal question.
 */
export const sharedResults: Plugin = {
  name: 'shared-results',
  enforce: 'pre',
  async resolveId(source, importer, options) {
    const found = standIns.find(({ module }) => source.endsWith(`/${module.split('/').at(-1)}`));
    if (!found || !importer) return null;
    const from = importer.split('?')[0]!;
    if (!from.startsWith(project)) return null;
    const resolved = await this.resolve(source, importer, { ...options, skipSelf: true });
    const match = standIns.find(
      ({ module, importers }) =>
        resolved?.id === `${project}${module}` && importers.test(from.slice(project.length)),
    );
    return match ? `${here}${match.standIn}` : null;
  },
};
