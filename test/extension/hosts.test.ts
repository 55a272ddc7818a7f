import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { runInNewContext } from 'node:vm';
import * as esbuild from 'esbuild';
import { afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { soundText } from './activated.ts';
import { builtParts } from './builtParts.ts';
import * as stub from './vscodeStub.ts';

const root = join(import.meta.dirname, '../..');

interface Bundle {
  readonly activate: (context: unknown) => Promise<void>;
}

/** The bundle of an entry, as the build makes it. */
async function bundle(entry: string): Promise<string> {
  const { outputFiles } = await esbuild.build({
    absWorkingDir: root,
    entryPoints: [entry],
    bundle: true,
    write: false,
    format: 'cjs',
    platform: 'browser',
    external: ['vscode'],
  });
  return outputFiles[0]?.text ?? '';
}

/** Runs a bundle with the given globals; what it requires is noted, and only `vscode` is given to it. */
function load(
  code: string,
  globals: Readonly<Record<string, unknown>>,
): { bundle: Bundle; required: string[] } {
  const required: string[] = [];
  const module = { exports: {} };
  const require = (name: string) => {
    required.push(name);
    return name === 'vscode' ? stub : createRequire(import.meta.url)(name);
  };
  runInNewContext(code, { ...globals, module, exports: module.exports, require });
  return { bundle: module.exports as Bundle, required };
}

/** All that both hosts give to an extension beside the language itself. */
const common = {
  crypto,
  URL,
  TextEncoder,
  TextDecoder,
  console,
  setTimeout,
  clearTimeout,
  performance: { now: () => 0 },
};

/** One bundle runs in both hosts, and reads the same files. */
let code: string | null = null;
let parts: Awaited<ReturnType<typeof builtParts>>['files'] | null = null;

function installParts(): void {
  for (const [path, text] of parts!)
    stub.editorState.files.set(`memory:/extension/${path}`, new TextEncoder().encode(text));
}

beforeEach(stub.resetStub);
afterEach(stub.resetStub);

describe.each([
  { name: 'desktop', globals: { ...common, process, Buffer } },
  { name: 'web', globals: common },
] as const)('in the $name host', ({ globals }) => {
  let loaded: ReturnType<typeof load>;
  beforeAll(async () => {
    code ??= await bundle('extension/host.ts');
    parts ??= (await builtParts()).files;
    loaded = load(code, globals);
  });

  test('the extension starts and registers everything', async () => {
    const subscriptions: { readonly dispose: () => unknown }[] = [];
    installParts();
    await loaded.bundle.activate({ subscriptions, extensionUri: stub.Uri.parse('memory:/extension') });
    // What a line above a limit runs is no command for readers.
    const own = [...contributedCommands(), 'slotwright.meetLimit'].sort();
    expect([...stub.editorState.commands.keys()].sort()).toEqual(own);
    expect([...stub.editorState.serializers.keys()].sort()).toEqual([
      'slotwright.comparison',
      'slotwright.layout',
    ]);
    expect(stub.editorState.formatters).toHaveLength(1);
    const document = stub.openStubDocument('pump.winding', soundText);
    await expect.poll(() => stub.editorState.diagnostics.has('memory:/pump.winding')).toBe(true);
    // What is loaded on demand gets the studies of the engine, and shares its modules.
    const hints = await stub.editorState.provided
      .get('CodeLens')
      .provideCodeLenses(document, stub.uncanceled);
    expect(hints.length).toBeGreaterThan(0);
    expect(subscriptions.length).toBeGreaterThan(5);
    for (const subscription of subscriptions) subscription.dispose();
  });

  test('it requires nothing but the editor', () => {
    expect(new Set(loaded.required)).toEqual(new Set(['vscode']));
  });
});

function contributedCommands(): string[] {
  const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  return manifest.contributes.commands.map(({ command }: { readonly command: string }) => command).sort();
}
