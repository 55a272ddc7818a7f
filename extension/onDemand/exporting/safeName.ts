/** Names that systems take for devices, whatever ending follows. */
const device = /^(?:con|prn|aux|nul|conin\$|conout\$|com[0-9¹²³]|lpt[0-9¹²³])(?=\.|$)/i;

/**
 * The beginning of a file's name that no system takes for a folder, a device or another file system: separators and
 * what cannot be seen become dashes, and it neither begins nor ends with a dot or blank. `winding` where nothing is
 * left.
 */
export function safeStem(name: string): string {
  const plain = name
    .replace(/[\\/:*?"<>|\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu, '-')
    .replace(/^[. ]+|[. ]+$/g, '');
  return device.test(plain) ? plain.replace(/^[^.]*/, '$&-winding') : plain || 'winding';
}

/** Whether a name is that of a file in its folder, whatever the system: no way to another one. */
export function isPlainName(name: string): boolean {
  return !/^\.{0,2}$|[\\/\0]|^[a-z]:/i.test(name);
}
