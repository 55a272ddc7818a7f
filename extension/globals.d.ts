// What the extension uses of the globals that both extension hosts have; no other global is to be used.

declare function setTimeout(work: () => void, milliseconds: number): unknown;

declare const performance: { now(): number };

declare class TextEncoder {
  encode(text: string): Uint8Array;
}

declare class TextDecoder {
  constructor(label?: string, options?: { readonly fatal: boolean });
  decode(bytes: Uint8Array): string;
}
