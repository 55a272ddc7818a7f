import { root } from './shell.mjs';

const folder = 'dist/fileFormats';

/** The font that PDF files embed, beside the bundle that writes them. */
export const fontFile = `${folder}/DejaVuSansCondensed.ttf`;

/** Packages within pdfkit that drawings never come to, by what they are for; they take long to read. */
const unused = {
  '@noble/ciphers/aes': 'encryption',
  'brotli/decompress.js': 'WOFF2 fonts',
  linebreak: 'breaking of lines',
};

/** Tables of characters, each unpacked when it is first asked: few scripts need one. */
const lateTable = `import Table from 'unicode-trie';
export default class {
  constructor(packed) {
    this.packed = packed;
  }
  get(character) {
    this.table ??= new Table(this.packed);
    return this.table.get(character);
  }
}`;

/** Leaves out what drawings never come to, and puts off what only some do, so that reading the bundle is short. */
const quickToRead = {
  name: 'quick to read',
  setup: ({ onLoad, onResolve }) => {
    onResolve({ filter: /./ }, ({ path }) => (path in unused ? { path, namespace: 'unused' } : undefined));
    onLoad({ filter: /./, namespace: 'unused' }, ({ path }) => ({
      contents: `module.exports = () => { throw new Error('Drawings are written without ${unused[path]}'); };
module.exports.cbc = module.exports.ecb = module.exports;`,
    }));
    onResolve({ filter: /^unicode-trie$/ }, ({ namespace, path }) =>
      namespace === 'late' ? undefined : { path, namespace: 'late' },
    );
    onLoad({ filter: /./, namespace: 'late' }, () => ({ contents: lateTable, resolveDir: root }));
  },
};

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
  plugins: [quickToRead],
  absWorkingDir: root,
};
