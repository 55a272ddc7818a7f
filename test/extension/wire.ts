/** Lists of numbers that travel as bytes. */
const kinds = { Float32Array, Int8Array, Uint8Array, Uint16Array, Uint32Array } as const;

type Parts = Record<string, unknown>;

/** A message as it travels between extension and page: JSON, with typed arrays as their bytes. */
export function toWire(message: unknown): string {
  return JSON.stringify(packed(message));
}

function packed(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (ArrayBuffer.isView(value)) {
    const bytes = Buffer.from(value.buffer, value.byteOffset, value.byteLength);
    return { typedArray: value.constructor.name, bytes: bytes.toString('base64') };
  }
  if (Array.isArray(value)) return value.map(packed);
  const copy: Parts = {};
  for (const key of Object.keys(value)) copy[key] = packed((value as Parts)[key]);
  return copy;
}

/** The message that arrives. */
export function fromWire(json: string): unknown {
  return unpacked(JSON.parse(json));
}

function unpacked(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  const { typedArray, bytes } = value as { typedArray?: keyof typeof kinds; bytes?: string };
  const make = typedArray === undefined ? undefined : kinds[typedArray];
  if (make !== undefined) return new make(Uint8Array.from(Buffer.from(bytes!, 'base64')).buffer);
  const parts = value as Parts;
  for (const key of Object.keys(parts)) {
    const part = parts[key];
    if (typeof part === 'object') parts[key] = unpacked(part);
  }
  return value;
}

/** Leaves a message's lists of numbers without their memory, as after a transfer. */
export function takeAway(message: unknown): void {
  const buffers = new Set<ArrayBuffer>();
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    if (ArrayBuffer.isView(value)) buffers.add(value.buffer as ArrayBuffer);
    else for (const part of Object.values(value)) visit(part);
  };
  visit(message);
  // The editor counts the pieces of a message in one byte.
  if (buffers.size > 255) throw new Error(`${buffers.size} pieces of memory in one message`);
  structuredClone(null, { transfer: [...buffers] });
}
