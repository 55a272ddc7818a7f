import { createRequire } from 'node:module';

/** What tests take from mathjs, from its one file: to read its thousand modules costs more than all that is computed. */
export const { complex, fft, lusolve } = createRequire(import.meta.url)(
  'mathjs/lib/browser/math.js',
) as typeof import('mathjs');
