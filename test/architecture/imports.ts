import { readdirSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';

/** The folders of the core in the order in which data flows: each may use those before it, none after it. */
export const coreOrder = [
  'figures',
  'language',
  'picture',
  'winding',
  'analysis',
  'sizes',
  'space',
  'copper',
  'balance',
  'routing',
  'operation',
  'facts',
  'findings',
  'drawnPaths',
  'tables',
  'report',
  'views',
  'sheets',
  'review',
  'variants',
  'study.ts',
];

/** What the core takes from elsewhere; each is pure and runs in every host. `sarif` is types only. */
const allowedPackages = ['zod', 'zod/mini', 'd3-array', 'papaparse', 'sarif'];

/** Large packages, each only for the files that write its format: they are bundled apart and loaded on demand. */
const formatPackages: ReadonlyMap<string, string> = new Map([
  ['pdfkit', 'picture/pdf/'],
  ['@tarikjabiri/dxf', 'picture/dxf/'],
]);

/** Path from the core's folder, with forward slashes, to source text. */
export type Sources = ReadonlyMap<string, string>;

/** Every source file of the core. */
export function readSources(folder: string): Sources {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' });
  const paths = names.map((name) => name.replaceAll('\\', '/')).filter((name) => name.endsWith('.ts'));
  return new Map(paths.sort().map((path) => [path, readFileSync(join(folder, path), 'utf8')]));
}

const known = new Map<string, readonly string[]>();

/** What a file imports, by any form of import or export ... from, without what only stands in comments; read once. */
export function importsOf(source: string): readonly string[] {
  const found = known.get(source) ?? readImports(source);
  known.set(source, found);
  return found;
}

function readImports(source: string): string[] {
  const code = source.replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '');
  const forms =
    /(?:^\s*(?:import|export)\b[^'"`;]*?\bfrom\s*|^\s*import\s*|\b(?:import|require)\s*\(\s*)(['"`])([^'"`\n]+)\1/gm;
  return [...code.matchAll(forms)].map((match) => match[2] ?? '');
}

/** Why the core's rules forbid it, one sentence a breach; empty when all is well. */
export function breaches(sources: Sources): string[] {
  const found: string[] = [];
  for (const [path, source] of sources) {
    if (/import\s*\{[^}]*\bz\b[^}]*\}\s*from\s*['"]zod/.test(source))
      found.push(`${path} imports { z } from zod: import * as z keeps the bundles small`);
    for (const specifier of importsOf(source)) {
      const reason = reasonAgainst(path, specifier);
      if (reason !== null) found.push(`${path} imports ${specifier}: ${reason}`);
    }
  }
  return [...found, ...cycles(sources).map((cycle) => `import cycle: ${cycle.join(' -> ')}`)];
}

function reasonAgainst(path: string, specifier: string): string | null {
  if (!specifier.startsWith('.')) return reasonAgainstPackage(path, specifier);
  const target = posix.join(posix.dirname(path), specifier);
  if (target.startsWith('..')) return 'outside the core';
  const [from, to] = [placeOf(path), placeOf(target)];
  if (from < 0 || to < 0) return 'a folder that the order of the core does not name';
  return to > from ? 'data flows the other way' : null;
}

function reasonAgainstPackage(path: string, name: string): string | null {
  const writers = formatPackages.get(name);
  if (writers !== undefined) return path.startsWith(writers) ? null : `only ${writers} may use it`;
  return allowedPackages.includes(name) ? null : 'the core uses no such package';
}

function placeOf(path: string): number {
  return coreOrder.indexOf(path.split('/')[0] ?? '');
}

/** Every import cycle among the files, each found once, from its first file back to it. */
export function cycles(sources: Sources): string[][] {
  const found: string[][] = [];
  const done = new Set<string>();
  const visit = (path: string, trail: readonly string[]) => {
    const start = trail.indexOf(path);
    if (start >= 0) found.push([...trail.slice(start), path]);
    if (start >= 0 || done.has(path)) return;
    for (const specifier of importsOf(sources.get(path) ?? ''))
      if (specifier.startsWith('.')) visit(posix.join(posix.dirname(path), specifier), [...trail, path]);
    done.add(path);
  };
  for (const path of sources.keys()) visit(path, []);
  return found;
}
