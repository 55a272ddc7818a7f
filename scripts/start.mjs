// Opens a real VS Code with the extension and the examples, for people to try in their browser.
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { runStep as build } from './build.mjs';
import { startEditor } from './editorServer.mjs';
import { HouseError, root } from './shell.mjs';

/** Builds, serves and prints the address; ends with Ctrl+C. `--port N` chooses where to look for a port first. */
export async function runStep(args) {
  const port = portOf(args);
  await build();
  const { address, stop, stopped } = await startEditor({ folder: join(root, 'examples'), port });
  console.log(`
VS Code with Slotwright and the examples:   ${address}

Open a .winding file from the list on the left and click the winding symbol above the text at the right
(or run the command "Slotwright: Show Layout Panel"). Edits stay in that browser page; the files in
examples/ are not changed. Stop with Ctrl+C.

If the panel stays empty, the browser blocks third-party cookies, which the editor's panels need:
allow them for ${address} or use another browser.
`);
  for (const signal of ['SIGINT', 'SIGTERM']) process.once(signal, stop);
  await stopped;
  await stop();
}

function portOf(args) {
  const { values } = parseArgs({ args, options: { port: { type: 'string', default: '3000' } } });
  const port = Number(values.port);
  if (!Number.isInteger(port) || port < 1 || port > 65535)
    throw new HouseError(`--port takes a number from 1 to 65535, not "${values.port}".`);
  return port;
}
