// Servers that run on this machine: their ports, and when they answer.
import { rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { HouseError } from './shell.mjs';

/** Whether nobody listens at this port yet. */
function portIsFree(port) {
  return new Promise((resolve) => {
    const probe = createServer();
    probe.once('error', () => resolve(false));
    probe.listen(port, 'localhost', () => probe.close(() => resolve(true)));
  });
}

/** A free port of the system's choice: hardly ever one that another program is about to take. */
export function anyPort() {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, 'localhost', () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}

/** The first free port from the given one on. */
export async function freePort(first) {
  for (let port = first; port < Math.min(first + 100, 65536); port++) if (await portIsFree(port)) return port;
  throw new HouseError(`No free port from ${first} to ${first + 99}.`);
}

/**
 * Waits until a server answers. Resolves to its address, what stops it and removes the folder that it had for itself,
 * and when it has stopped.
 */
export async function serving(child, address, folder) {
  const stopped = new Promise((resolve) => child.once('close', resolve));
  const stop = async () => {
    child.kill();
    await stopped;
    await rm(folder, { recursive: true, force: true });
  };
  try {
    await answering(address, child);
  } catch (error) {
    await stop();
    throw error;
  }
  return { address, stop, stopped };
}

/** Waits until the server answers, or says why it never will. */
async function answering(address, child) {
  let output = '';
  const note = (part) => {
    output = (output + part).slice(-4000);
  };
  child.stdout.on('data', note);
  child.stderr.on('data', note);
  for (let attempt = 0; attempt < 1200; attempt++) {
    if (child.exitCode !== null) throw new HouseError(`The editor's server stopped:\n${output}`);
    const answered = await fetch(address).then(
      (response) => response.ok,
      () => false,
    );
    if (answered) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new HouseError(`The editor's server did not answer at ${address}:\n${output}`);
}
