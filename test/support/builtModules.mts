import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, isAbsolute, join, relative } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build, version } from 'esbuild';
import type { Plugin } from 'vitest/config';
import { importedFile } from './standIns.mts';

const project = fileURLToPath(new URL('../../', import.meta.url));
const folder = join(project, 'out/tested');

/** A path as the project writes it, with slashes on every system. */
const slashed = (path: string): string => path.replaceAll('\\', '/');

/** The folders whose modules are built: all that unit tests are made of. */
const rooms = ['core', 'extension', 'cli', 'test'];

/** Whether a module, from the project's folder, is built; tests of a real editor run by themselves. */
const isBuilt = (module: string): boolean =>
  rooms.includes(module.split('/')[0]!) && !module.startsWith('test/editor/') && /(?<!\.d)\.ts$/.test(module);

/** The modules that are built, from the project's folder. */
function builtModules(): readonly string[] {
  return rooms.flatMap((room) =>
    readdirSync(join(project, room), { recursive: true, encoding: 'utf8' })
      .map((name) => slashed(join(room, name)))
      .filter(isBuilt),
  );
}

/** A module of tests with the place of its source, where it asks for its own, for what is built of it lies elsewhere. */
function withOwnPlace(text: string, path: string): string {
  return text
    .replaceAll('import.meta.dirname', () => JSON.stringify(dirname(path)))
    .replaceAll('import.meta.url', () => JSON.stringify(pathToFileURL(path).href));
}

/** Where a module stands once it is built. */
const builtFile = (module: string): string => slashed(join(folder, module.replace(/\.ts$/, '.mjs')));

/** Writes a file whole, and only where it changes: two runs may do so at the same time. */
function write(file: string, contents: string): void {
  if (existsSync(file) && readFileSync(file, 'utf8') === contents) return;
  mkdirSync(dirname(file), { recursive: true });
  const whole = `${file}.${process.pid}`;
  writeFileSync(whole, contents);
  renameSync(whole, file);
}

/** What was built last: how, and the contents that each module was built of. */
interface Built {
  readonly how: string;
  readonly of: Readonly<Record<string, string>>;
}

const record = join(folder, 'built.json');

/** What was built last, where that was done in the same way; nothing where that is not known. */
function builtBefore(how: string): Built['of'] {
  if (!existsSync(record)) return {};
  const before: Built = JSON.parse(readFileSync(record, 'utf8'));
  return before.how === how ? before.of : {};
}

/** Stands for the contents of files. */
function hashOf(files: readonly string[]): string {
  const hash = createHash('sha256');
  for (const file of files) hash.update(readFileSync(join(project, file))).update('\0');
  return hash.digest('hex');
}

/** The files that decide, beside a module itself, what is built of it. */
const deciding = [
  'test/support/builtModules.mts',
  'test/support/standIns.mts',
  ...['', 'core/', 'extension/'].map((room) => `${room}tsconfig.json`),
];

/** Builds each module to one of its own, so that a test may import any of them; those that changed since. */
async function buildModules(): Promise<void> {
  const how = `${version} ${hashOf(deciding)}`;
  const before = builtBefore(how);
  const of = Object.fromEntries(builtModules().map((module) => [module, hashOf([module])]));
  const changed = Object.keys(of).filter(
    (module) => of[module] !== before[module] || !existsSync(builtFile(module)),
  );
  if (changed.length === 0) return;
  const { outputFiles, metafile } = await build({
    absWorkingDir: project,
    entryPoints: changed,
    metafile: true,
    bundle: true,
    format: 'esm',
    target: 'node20',
    sourcemap: 'inline',
    outbase: project,
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    packages: 'external',
    write: false,
    logLevel: 'error',
    plugins: [
      {
        name: 'modules-apart',
        setup({ onResolve, onLoad }) {
          onLoad({ filter: /[\\/]test[\\/].*\.ts$/ }, ({ path }) => ({
            contents: withOwnPlace(readFileSync(path, 'utf8'), path),
            loader: 'ts',
          }));
          onResolve({ filter: /^(\.|vscode$)/ }, ({ path, importer, kind }) => {
            const from = slashed(relative(project, importer));
            const module = kind === 'entry-point' ? null : importedFile(path, from);
            if (module === null || module.endsWith('.json')) return null;
            const file = isBuilt(module) ? builtFile(module) : join(project, module);
            const to = slashed(relative(dirname(builtFile(from)), file));
            return { path: to.startsWith('.') ? to : `./${to}`, external: true };
          });
        },
      },
    ],
  });
  for (const { path, text } of outputFiles) write(path, text);
  // What holds another file, as data, is built each time.
  for (const { entryPoint, inputs } of Object.values(metafile.outputs))
    if (entryPoint !== undefined && Object.keys(inputs).length !== 1) delete of[entryPoint];
  write(record, JSON.stringify({ how, of } satisfies Built));
}

/** The module of the project that is asked for, by its path or by another of its modules; null for any other. */
function askedModule(source: string, importer: string | undefined): string | null {
  if (isAbsolute(source)) return inProject(source);
  const from = importer === undefined ? null : inProject(importer.split('?')[0]!);
  return from === null ? null : importedFile(source, from);
}

/** A path from the project's folder; null for one elsewhere. */
function inProject(path: string): string | null {
  const from = slashed(relative(project, path));
  return from.startsWith('..') || isAbsolute(from) ? null : from;
}

/**
 * Gives tests, and all that they import of the project, as modules that are built before the first test and read by
 * Node itself, which runs them faster than what is transformed for each worker; and stand-ins for some of them where
 * they are asked for. While tests are watched, or their coverage is measured, modules are those of the sources.
 */
export function testedModules(): Plugin {
  let built = false;
  return {
    name: 'tested-modules',
    enforce: 'pre',
    async configureVitest({ vitest: { config } }) {
      // esbuild, also where tests call it, and the compiler are programs of Go, which run so briefly that a third of
      // their work would be to collect garbage.
      process.env.GOGC ??= '400';
      built = !config.watch && !config.coverage.enabled;
      if (built) await buildModules();
    },
    resolveId(source, importer) {
      const module = askedModule(source, importer);
      if (module === null || !isBuilt(module)) return null;
      return built ? builtFile(module) : slashed(join(project, module));
    },
  };
}
