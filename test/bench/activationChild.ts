import { readdirSync, readFileSync } from 'node:fs';
import Module, { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import * as stub from '../extension/vscodeStub.ts';

// Run on its own: prints the milliseconds that an extension host spends on the bundle named first, with the
// winding text named second already open.
const [bundle = '', text = ''] = process.argv.slice(2);

type Load = (request: string, ...rest: unknown[]) => unknown;
const loader = Module as unknown as { _load: Load };
const load = loader._load;
loader._load = (request, ...rest) => (request === 'vscode' ? stub : load(request, ...rest));

async function main(): Promise<void> {
  const folder = dirname(bundle);
  for (const name of readdirSync(folder))
    stub.editorState.files.set(`memory:/extension/dist/extension/${name}`, readFileSync(join(folder, name)));
  stub.openStubDocument('bench.winding', text);
  const start = performance.now();
  const { activate } = createRequire(bundle)(bundle) as { activate: (context: unknown) => Promise<void> };
  const loaded = performance.now();
  await activate({ subscriptions: [], extensionUri: stub.Uri.parse('memory:/extension') });
  const activated = performance.now();
  // The engine is read in a turn of its own, and the text studied then, which sets its findings.
  while (stub.editorState.diagnostics.size === 0) await new Promise((resolve) => setTimeout(resolve, 0));
  const times = {
    loaded: loaded - start,
    activated: activated - start,
    studied: performance.now() - activated,
  };
  process.stdout.write(JSON.stringify(times));
  process.exit();
}

void main();
