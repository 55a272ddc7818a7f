// Measures the budgets: bundles test/bench and runs it, without the tools that would slow it.
import * as esbuild from 'esbuild';
import { runStep as build } from './build.mjs';
import { runBundled } from './bundledTool.mjs';
import { findInstalled } from './chromium.mjs';
import { root, run } from './shell.mjs';

const shared = { absWorkingDir: root, bundle: true, mainFields: ['module', 'main'] };
const node = { ...shared, format: 'cjs', platform: 'node', target: 'node20', external: ['playwright-core'] };

const bundles = [
  {
    ...node,
    alias: { vscode: './test/extension/vscodeStub.ts' },
    entryPoints: ['test/bench/main.ts'],
    outfile: 'out/bench.cjs',
  },
  { ...node, entryPoints: ['test/bench/activationChild.ts'], outfile: 'out/benchActivation.cjs' },
  { ...shared, format: 'iife', entryPoints: ['test/bench/panelPage.ts'], outfile: 'out/benchPage.js' },
];

/** The engine's share of a keystroke, for the worker that the loop in a real editor looks at. */
const engineKeys = {
  ...shared,
  format: 'iife',
  platform: 'browser',
  minify: true,
  entryPoints: ['test/bench/engineKeys.ts'],
  outfile: 'out/benchEngineKeys.js',
  footer: { js: '//# sourceURL=benchEngineKeys.js' },
};

const growth = { ...node, entryPoints: ['test/bench/growth.ts'], outfile: 'out/benchGrowth.cjs' };

/**
 * Builds everything, and runs the measurements; they fail where a ratio, a size or a count is over its budget. With
 * `growth` it measures instead how work grows with slots and layers, for docs/growth.md; with `editor` only what a key
 * costs in a real editor.
 */
export async function runStep([what] = []) {
  if (what === 'growth') {
    await esbuild.build(growth);
    return run('node', ['out/benchGrowth.cjs']);
  }
  await build();
  if (what === 'editor') return inEditor();
  for (const bundle of bundles) await esbuild.build(bundle);
  const browser = process.env.SLOTWRIGHT_CHROMIUM || ((await findInstalled()) ?? '');
  await run('node', ['out/bench.cjs'], { SLOTWRIGHT_CHROMIUM: browser });
  await inEditor();
}

async function inEditor() {
  await esbuild.build(engineKeys);
  await runBundled('test/bench/editorLoop.ts', 'out/benchEditor.mjs', [], ['playwright-core']);
}
