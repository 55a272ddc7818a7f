import FFT from 'fft.js';
import { factorSpectrum } from '../../core/analysis/factors.ts';
import type { Winding } from '../../core/winding/model.ts';

/** The two sides of a comparison: run each often and compare their medians. */
export interface SpectrumRace {
  /** All orders' factors of one phase, from the slot table. */
  readonly own: () => number;
  /** fft.js' real transform of as many series, one a layer, at the next power of two. */
  readonly library: () => number;
}

/** Sets up the comparison for a winding. Both sides return a number so that no work is left out. */
export function spectrumRace(winding: Winding): SpectrumRace {
  const length = 2 ** Math.ceil(Math.log2(winding.slots));
  const library = new FFT(length);
  const series = Array.from({ length: winding.layers }, (_, layer) =>
    Array.from({ length }, (_, slot) =>
      slot < winding.slots ? Math.sign(winding.table.cells[layer * winding.slots + slot]!) : 0,
    ),
  );
  const out = library.createComplexArray() as number[];
  return {
    own: () => factorSpectrum(winding).unskewed[1]!,
    library: () => {
      let sum = 0;
      for (const one of series) {
        library.realTransform(out, one);
        sum += out[2]!;
      }
      return sum;
    },
  };
}
