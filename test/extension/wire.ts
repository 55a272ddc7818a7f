/** Lists of numbers that travel as bytes. */
const kinds = { Float32Array, Int8Array, Uint8Array, Uint16Array, Uint32Array } as const;

/** A message as it travels between extension and page: JSON, with typed arrays as their bytes. */
export function toWire(message: unknown): string {
  return JSON.stringify(message, (_, value: unknown) => {
    if (!ArrayBuffer.isView(value)) return value;
    const bytes = Buffer.from(value.buffer, value.byteOffset, value.byteLength);
    return { typedArray: value.constructor.name, bytes: bytes.toString('base64') };
  });
}

/** The message that arrives. */
export function fromWire(json: string): unknown {
  return JSON.parse(json, (_, value) => {
    const make = kinds[value?.typedArray as keyof typeof kinds];
    if (make === undefined) return value;
    const bytes = Uint8Array.from(Buffer.from(value.bytes, 'base64'));
    return new make(bytes.buffer);
  });
}

/** Leaves a message's lists of numbers without their memory, as after a transfer. */
export function takeAway(message: unknown): void {
  const buffers = new Set<ArrayBuffer>();
  JSON.stringify(message, (_, value: unknown) => {
    if (!ArrayBuffer.isView(value)) return value;
    buffers.add(value.buffer as ArrayBuffer);
    return null;
  });
  // The editor counts the pieces of a message in one byte.
  if (buffers.size > 255) throw new Error(`${buffers.size} pieces of memory in one message`);
  structuredClone(null, { transfer: [...buffers] });
}
