import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import type { Plugin } from 'vitest/config';
import { importedFile, standInFiles } from './standIns.mts';

const project = fileURLToPath(new URL('../../', import.meta.url));
const folder = join(project, 'out/tested');

/** A path as the project writes it, with slashes on every system. */
const slashed = (path: string): string => path.replaceAll('\\', '/');

/** The folders whose modules are built. */
const rooms = ['core', 'extension'] as const;

/** The modules that are built, and the stand-ins for some of them, from the project's folder. */
function builtModules(): readonly string[] {
  const modules = rooms.flatMap((room) =>
    readdirSync(join(project, room), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts') && !name.endsWith('.d.ts'))
      .map((name) => slashed(join(room, name))),
  );
  return [...modules, ...standInFiles];
}

/** Whether a module, from the project's folder, is one of these. */
const isBuilt = (module: string): boolean =>
  rooms.some((room) => module.startsWith(`${room}/`)) || standInFiles.includes(module);

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

/** Builds each module to one of its own, so that a test may import any of them. */
async function buildModules(): Promise<void> {
  const { outputFiles } = await build({
    absWorkingDir: project,
    entryPoints: [...builtModules()],
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
        setup({ onResolve }) {
          onResolve({ filter: /^(\.|vscode$)/ }, ({ path, importer, kind }) => {
            const from = slashed(relative(project, importer));
            const module = kind === 'entry-point' ? null : importedFile(path, from);
            if (module === null) return null;
            const to = slashed(relative(dirname(builtFile(from)), builtFile(module)));
            return { path: to.startsWith('.') ? to : `./${to}`, external: true };
          });
        },
      },
    ],
  });
  for (const { path, text } of outputFiles) write(path, text);
}

/**
 * Gives tests the engine and the extension as modules that are built before the first test and read by Node itself,
 * which runs them faster than what is transformed for each worker; and stand-ins for some of them where they are asked
 * for. While tests are watched, or their coverage is measured, modules are those of the sources.
 */
export function testedModules(): Plugin {
  let built = false;
  return {
    name: 'tested-modules',
    enforce: 'pre',
    async configureVitest({ vitest: { config } }) {
      built = !config.watch && !config.coverage.enabled;
      if (built) await buildModules();
    },
    resolveId(source, importer) {
      const from = importer ? slashed(relative(project, importer.split('?')[0]!)) : '..';
      if (from.startsWith('..')) return null;
      const module = importedFile(source, from);
      if (module === null || !isBuilt(module)) return null;
      return built ? builtFile(module) : slashed(join(project, module));
    },
  };
}
