import { posix } from 'node:path';

/** Modules that have a stand-in, and where those who get it stand. Tests get what they import themselves. */
const standIns = [
  {
    module: 'core/routing/route.ts',
    standIn: 'test/support/remembered/route.ts',
    importers: /^(core\/facts|extension)\//,
  },
  { module: 'core/facts/ends.ts', standIn: 'test/support/remembered/ends.ts', importers: /^core\/facts\// },
  { module: 'core/study.ts', standIn: 'test/support/study.ts', importers: /^cli\// },
] as const;

/** What stands for the editor's own module. */
const editor = 'test/extension/vscodeStub.ts';

/**
 * The file that an import leads to, the module itself or its stand-in, from the project's folder with slashes, as the
 * importer is given. Null for a package.
 */
export function importedFile(source: string, importer: string): string | null {
  if (source === 'vscode') return editor;
  if (!/^\.\.?\//.test(source)) return null;
  const module = posix.join(posix.dirname(importer), source);
  return standIns.find((each) => each.module === module && each.importers.test(importer))?.standIn ?? module;
}
