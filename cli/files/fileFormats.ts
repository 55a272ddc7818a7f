import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** The writers of PDF and DXF files, and the font that PDF files embed. */
export interface FileFormats {
  readonly writers: typeof import('../../core/picture/fileFormats.ts');
  readonly font: Uint8Array;
}

/** Loads the writers from their own bundle beside the program's; only what writes such files needs them. */
export function loadFileFormats(): FileFormats {
  const folder = join(__dirname, '../fileFormats');
  return {
    writers: require(join(folder, 'fileFormats.js')),
    font: readFileSync(join(folder, 'DejaVuSansCondensed.ttf')),
  };
}
