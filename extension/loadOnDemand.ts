import { Uri, workspace } from 'vscode';
import type { FileFormats, FileParts } from './onDemand/exporting/fileParts.ts';
import type { TableReader } from './onDemand/importTable.ts';
import { type Language, spokenNow } from './wording.ts';

/** What a keystroke needs: the study of a text, its findings, the formatter. */
export type Engine = typeof import('./engine/entry.ts');

/** What a keystroke does not need: the other views, tables, exports, comparison, completion, hovers. */
export type OnDemand = typeof import('./onDemand/entry.ts');

/** Parts of the extension that are read from their own files when they are first needed. */
export interface Parts extends FileParts {
  /** No promise where it is there already. */
  readonly engine: () => Engine | Promise<Engine>;
  readonly onDemand: () => Promise<OnDemand>;
  readonly tableReader: () => Promise<TableReader>;
}

/** What the engine and the part loaded on demand share; see scripts/build.mjs. */
const sharedFile = 'shared.js';

/** Both extension hosts give it to an extension's code; what is loaded here gets the same. */
declare const require: (name: string) => unknown;

/**
 * Loads parts through the workspace's file system and runs them as the hosts run an extension, so that
 * the desktop and the web host do the same. A part that could not be read is tried again the next time.
 */
export function createParts(extensionUri: Uri): Parts {
  const read = (...path: string[]) => workspace.fs.readFile(Uri.joinPath(extensionUri, 'dist', ...path));
  const shared = once(async () => evaluate<object>(sharedFile, await read('extension', sharedFile), require));
  /** A bundle that is built together with others: what they share is read once, into a file of its own. */
  const part = async <Part>(name: string): Promise<Part> => {
    const [bytes, common] = await Promise.all([read('extension', name), shared()]);
    return evaluate<Part>(name, bytes, (asked) => (asked === `./${sharedFile}` ? common : require(asked)));
  };
  const engine = once(async () => {
    const loaded = await part<Engine>('engine.js');
    // What is loaded has words of its own, which the other bundles share.
    loaded.speak(...spokenNow());
    return loaded;
  });
  return {
    engine,
    // With the small file of the engine, which says what is spoken.
    onDemand: once(async () => (await Promise.all([part<OnDemand>('onDemand.js'), engine()]))[0]),
    tableReader: once(async () =>
      evaluate<TableReader>('tableReader.js', await read('extension', 'tableReader.js'), require),
    ),
    fileFormats: once(async () =>
      evaluate<FileFormats>('fileFormats.js', await read('fileFormats', 'fileFormats.js'), require),
    ),
    font: once(() => Promise.resolve(read('fileFormats', 'DejaVuSansCondensed.ttf'))),
  };
}

/** Reads the extension's words in German. */
export async function readGerman(extensionUri: Uri): Promise<Language> {
  const bytes = await workspace.fs.readFile(Uri.joinPath(extensionUri, 'dist', 'extension', 'german.js'));
  return evaluate<typeof import('./german/main.ts')>('german.js', bytes, require).german;
}

/**
 * Runs a CommonJS bundle, which may require the editor and what is built together with it; by its name stack traces
 * and profiles tell where they are.
 */
function evaluate<Exports>(name: string, bytes: Uint8Array, given: typeof require): Exports {
  const module: { exports: unknown } = { exports: {} };
  const code = `${new TextDecoder().decode(bytes)}\n//# sourceURL=slotwright/${name}`;
  const run = new Function('module', 'exports', 'require', code);
  run(module, module.exports, given);
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
