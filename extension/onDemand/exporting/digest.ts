/** Both extension hosts have it, but their common library types do not name it. */
declare const crypto: {
  readonly subtle?: { digest(name: 'SHA-256', bytes: Uint8Array): Promise<ArrayBuffer> };
};

/** SHA-256 of the bytes as 64 hexadecimal digits. Throws Error where the editor's page was not loaded securely. */
export async function sha256(bytes: Uint8Array): Promise<string> {
  if (crypto.subtle === undefined)
    throw new Error('SHA-256 is not to be had here: the editor has to be loaded over HTTPS');
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
