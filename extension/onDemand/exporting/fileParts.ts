/** The writers of PDF and DXF files. */
export type FileFormats = typeof import('../../../core/picture/fileFormats.ts');

/** What files of drawings are written with, read from its own files when it is first needed. */
export interface FileParts {
  readonly fileFormats: () => Promise<FileFormats>;
  /** The TrueType font that PDF files embed. */
  readonly font: () => Promise<Uint8Array>;
}
