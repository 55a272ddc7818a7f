import { posix } from 'node:path';
import { cycles, importsOf, type Sources } from './imports.ts';

/** What one surface may take from elsewhere; paths are from the project's folder. */
interface Fence {
  /** Where its files are. */
  readonly folder: string;
  /** Folders below it that have a fence of their own. */
  readonly without: readonly string[];
  readonly packages: readonly string[];
  /** Node's own modules, and the files that may use them; `all` for a program of Node. */
  readonly node: 'all' | readonly string[];
  /** Folders and files it may import from beside its own; types may come from anywhere in the core. */
  readonly from: readonly string[];
}

/**
 * The fences of the surfaces. The start of the extension takes nothing of the engine, what every keystroke needs
 * (`extension/engine/`) takes pictures, reports and comparisons only on demand; the page (`extension/webview/`) gets what others computed and draws it.
 */
export const fences: readonly Fence[] = [
  {
    // The bars in space live, a bundle of its own.
    folder: 'extension/webview/space/',
    without: [],
    packages: ['three'],
    node: [],
    from: [
      'core/views/space/camera.ts',
      'core/winding/model.ts',
      'extension/webview/',
      'extension/protocol/subject.ts',
    ],
  },
  {
    folder: 'extension/webview/',
    without: ['extension/webview/space/'],
    packages: ['zod/mini'],
    node: [],
    from: [
      'core/picture/',
      'core/language/layerLetters.ts',
      'core/language/numbers.ts',
      'core/winding/model.ts',
      // Where the eye is, without what draws.
      'extension/webview/space/eye.ts',
      'extension/webview/space/liveSpace.ts',
      'extension/protocol/',
    ],
  },
  {
    // What both ends of the panel know: it runs on the page, too.
    folder: 'extension/protocol/',
    without: [],
    packages: ['zod/mini'],
    node: [],
    from: ['core/picture/'],
  },
  {
    folder: 'extension/onDemand/',
    without: [],
    packages: ['vscode', 'zod/mini'],
    node: [],
    from: ['core/', 'extension/'],
  },
  {
    folder: 'extension/engine/',
    without: [],
    packages: ['vscode', 'zod/mini'],
    node: [],
    from: [
      'core/figures/',
      'core/language/',
      'core/winding/',
      'core/analysis/',
      'core/sizes/',
      'core/space/',
      'core/copper/',
      'core/balance/',
      'core/routing/',
      'core/operation/',
      'core/facts/',
      'core/findings/',
      'extension/edits.ts',
      'extension/findingCode.ts',
      'extension/settings.ts',
      'extension/windingDocument.ts',
      'extension/wording.ts',
    ],
  },
  {
    // The words of another language, a bundle of its own.
    folder: 'extension/german/',
    without: [],
    packages: [],
    node: [],
    from: [
      'core/figures/filledIn.ts',
      'core/language/',
      'core/winding/model.ts',
      'core/findings/space/freeingLengths.ts',
    ],
  },
  {
    // The start.
    folder: 'extension/',
    without: ['webview/', 'onDemand/', 'protocol/', 'engine/', 'german/'].map((name) => `extension/${name}`),
    packages: ['vscode'],
    node: [],
    from: ['core/language/text/lines.ts', 'extension/protocol/'],
  },
  {
    folder: 'cli/',
    without: [],
    packages: ['commander'],
    node: 'all',
    from: ['core/', 'package.json'],
  },
];

const isNode = (name: string) =>
  name.startsWith('node:') || ['fs', 'path', 'os', 'crypto', 'child_process', 'url', 'util'].includes(name);

/** A file without imports of types alone, and without what it loads later. */
function valuesOnly(source: string): string {
  const types = /^\s*(?:import|export)\s+type\b[^'"`;]*?\bfrom\s*(['"])[^'"]+\1;?/gm;
  const loadedLater = /\bimport\s*\(\s*(['"])[^'"]+\1\s*\)/g;
  return source.replace(types, '').replace(loadedLater, '');
}

/** Breaches of the fences among files by their path from the project's folder, one sentence each; types close circles, too. */
export function surfaceBreaches(sources: Sources): readonly string[] {
  const found: string[] = [];
  for (const [path, source] of sources) {
    const fence = fences.find(
      ({ folder, without }) => path.startsWith(folder) && !without.some((inner) => path.startsWith(inner)),
    );
    if (!fence) continue;
    for (const name of importsOf(source)) {
      const reason = name.startsWith('.') ? null : reasonAgainstPackage(path, name, fence);
      if (reason !== null) found.push(`${path} imports ${name}: ${reason}`);
    }
    for (const name of importsOf(valuesOnly(source))) {
      if (!name.startsWith('.')) continue;
      const target = posix.join(posix.dirname(path), name);
      const own = target.startsWith(fence.folder) && !fence.without.some((inner) => target.startsWith(inner));
      if (own || fence.from.some((allowed) => target.startsWith(allowed))) continue;
      found.push(`${path} imports ${name}: outside what ${fence.folder} may load`);
    }
  }
  return [...found, ...cycles(sources).map((cycle) => `import cycle: ${cycle.join(' -> ')}`)];
}

function reasonAgainstPackage(path: string, name: string, fence: Fence): string | null {
  if (isNode(name))
    return fence.node === 'all' || fence.node.includes(path) ? null : 'Node is not there in every host';
  return fence.packages.includes(name) ? null : 'this surface uses no such package';
}
