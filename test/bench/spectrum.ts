import FFT from 'fft.js';
import { factorSpectrum } from '../../core/analysis/factors/factors.ts';
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

/** The same bars in an order that repeats nowhere, always the same. */
export function withoutSymmetry(winding: Winding): Winding {
  const cells = winding.table.cells.slice();
  let random = 7;
  for (let last = cells.length - 1; last > 0; last--) {
    random = (random * 48271) % 2147483647;
    const other = random % (last + 1);
    [cells[last], cells[other]] = [cells[other]!, cells[last]!];
  }
  return { ...winding, table: { ...winding.table, cells } };
}
