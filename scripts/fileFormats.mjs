import { root } from './shell.mjs';

const folder = 'dist/fileFormats';

/** The font that PDF files embed, beside the bundle that writes them. */
export const fontFile = `${folder}/DejaVuSansCondensed.ttf`;

/**
 * Options of esbuild for the writers of PDF and DXF files: one bundle for every host, which asks for
 * nothing but the globals that browsers and Node share, so that all hosts write the same bytes.
 */
export const fileFormatsBundle = {
  entryPoints: ['core/picture/fileFormats.ts'],
  outfile: `${folder}/fileFormats.js`,
  bundle: true,
  format: 'cjs',
  platform: 'browser',
  target: 'es2022',
  charset: 'utf8',
  minify: true,
  legalComments: 'none',
  logLevel: 'warning',
  // pdfkit makes the address of a color profile from it, which drawings never use.
  define: { 'import.meta.url': '"file:///"' },
  absWorkingDir: root,
};
