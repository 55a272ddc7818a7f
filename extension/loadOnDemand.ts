import { Uri, workspace } from 'vscode';
import type { FileFormats, FileParts } from './onDemand/exporting/fileParts.ts';
import { type Language, spokenNow } from './wording.ts';

/** What is not needed for a keystroke: the other views, tables, exports, comparison, completion, hovers. */
export type OnDemand = typeof import('./onDemand/entry.ts');

/** Parts of the extension that are read from their own files when they are first needed. */
export interface Parts extends FileParts {
  readonly onDemand: () => Promise<OnDemand>;
}

/** Both extension hosts give it to an extension's code; what is loaded here gets the same. */
declare const require: (name: string) => unknown;

/**
 * Loads parts through the workspace's file system and runs them as the hosts run an extension, so that
 * the desktop and the web host do the same. A part that could not be read is tried again the next time.
 */
export function createParts(extensionUri: Uri): Parts {
  const read = (...path: string[]) => workspace.fs.readFile(Uri.joinPath(extensionUri, 'dist', ...path));
  return {
    onDemand: once(async () => {
      const part = evaluate<OnDemand>(await read('extension', 'onDemand.js'));
      // A bundle of its own has words of its own.
      part.speak(...spokenNow());
      return part;
    }),
    fileFormats: once(async () => evaluate<FileFormats>(await read('fileFormats', 'fileFormats.js'))),
    font: once(() => Promise.resolve(read('fileFormats', 'DejaVuSansCondensed.ttf'))),
  };
}

/** Reads the extension's words in German. */
export async function readGerman(extensionUri: Uri): Promise<Language> {
  const bytes = await workspace.fs.readFile(Uri.joinPath(extensionUri, 'dist', 'extension', 'german.js'));
  return evaluate<typeof import('./german/main.ts')>(bytes).german;
}

/** Runs a CommonJS bundle, which may require nothing but the editor. */
function evaluate<Exports>(bytes: Uint8Array): Exports {
  const module: { exports: unknown } = { exports: {} };
  const run = new Function('module', 'exports', 'require', new TextDecoder().decode(bytes));
  run(module, module.exports, require);
  return module.exports as Exports;
}

/** Loads once, and again after a failure. */
function once<Loaded>(load: () => Promise<Loaded>): () => Promise<Loaded> {
  let loading: Promise<Loaded> | null = null;
  return () => {
    loading ??= load().catch((error: unknown) => {
      loading = null;
      throw error;
    });
    return loading;
  };
}
