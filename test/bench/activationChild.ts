import Module, { createRequire } from 'node:module';
import * as stub from '../extension/vscodeStub.ts';

// Run on its own: prints the milliseconds that an extension host spends on the bundle named first, with the
// winding text named second already open.
const [bundle = '', text = ''] = process.argv.slice(2);

type Load = (request: string, ...rest: unknown[]) => unknown;
const loader = Module as unknown as { _load: Load };
const load = loader._load;
loader._load = (request, ...rest) => (request === 'vscode' ? stub : load(request, ...rest));

async function main(): Promise<void> {
  stub.openStubDocument('bench.winding', text);
  const start = performance.now();
  const { activate } = createRequire(bundle)(bundle) as { activate: (context: unknown) => Promise<void> };
  const loaded = performance.now();
  await activate({ subscriptions: [], extensionUri: stub.Uri.parse('memory:/extension') });
  const activated = performance.now();
  // The text is studied in a turn of its own, which sets its findings.
  await new Promise((resolve) => setTimeout(resolve, 0));
  if (text !== '' && stub.editorState.diagnostics.size === 0)
    throw new Error('The open text was not studied');
  const times = {
    loaded: loaded - start,
    activated: activated - start,
    studied: performance.now() - activated,
  };
  process.stdout.write(JSON.stringify(times));
  process.exit();
}

void main();
