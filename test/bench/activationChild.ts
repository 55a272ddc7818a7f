import Module, { createRequire } from 'node:module';
import * as stub from '../extension/vscodeStub.ts';

// Run on its own: prints the milliseconds that an extension host spends on the bundle named first, with the
// winding text named second already open.
const [bundle = '', text = ''] = process.argv.slice(2);

type Load = (request: string, ...rest: unknown[]) => unknown;
const loader = Module as unknown as { _load: Load };
const load = loader._load;
loader._load = (request, ...rest) => (request === 'vscode' ? stub : load(request, ...rest));

stub.openStubDocument('bench.winding', text);
const start = performance.now();
const { activate } = createRequire(bundle)(bundle) as { activate: (context: unknown) => void };
const loaded = performance.now();
activate({ subscriptions: [], extensionUri: stub.Uri.parse('memory:/extension') });
const activated = performance.now();
// The text is studied in a turn of its own, which sets its findings.
setTimeout(() => {
  if (text !== '' && stub.editorState.diagnostics.size === 0)
    throw new Error('The open text was not studied');
  const times = {
    loaded: loaded - start,
    activated: activated - start,
    studied: performance.now() - activated,
  };
  process.stdout.write(JSON.stringify(times));
  process.exit();
}, 0);
