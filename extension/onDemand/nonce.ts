/** Both extension hosts have it, but their common library types do not name it. */
declare const crypto: { getRandomValues(bytes: Uint8Array): Uint8Array };

/** 128 random bits from the cryptographic source, as 32 hexadecimal digits. */
export function createNonce(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
