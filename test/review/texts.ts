import { layerLetter } from '../../core/language/layerLetters.ts';
import { cellAt, phaseOfCell, type Winding } from '../../core/winding/model.ts';

/** A ferry's stator with every path written, 48 slots, 2 layers. No layout block: the paths say all. */
export const writtenFerry = `winding "Harbor ferry pod drive, stator B"

machine {
  slots   48
  poles   8
  phases  3
  gap     inner
  bore    162 mm
  stack   96 mm
  speed   3600 rpm
  flux    4.1 mWb
  current 210 A
  winding-temperature 120 degC
}

slot { width 4.6 mm  depth 15.2 mm  opening 1.2 mm  liner 0.25 mm }

bar { width 3.6 mm  height 6.0 mm  corner 0.5 mm  coating 0.09 mm }

connect {
  star
  path U 1 from U1 1a (+6b +6a)*3 +6b
                   +7a (+6b +6a)*3 +6b to N
  path U 2 from U1 2b (-6a -6b)*3 -6a
                   -7b (-6a -6b)*3 -6a to N
  repeat U as V shift 4
  repeat U as W shift 8
}

require {
  winding-factor harmonic 1 >= 0.93
  differential-leakage      <= 3.5 %
}
`;

/** A generated lay-out of the same machine, its paths found by the router. */
export const generatedFerry = `${writtenFerry.slice(0, writtenFerry.indexOf('connect {'))}layout {
  layers 4
  span   6
}

connect {
  star
  route paths 2
}

require {
  winding-factor harmonic 1 >= 0.93
  differential-leakage      <= 3.5 %
}
`;

/** The rows of a winding as statements, moved on by some slots. */
export function rowsOf(winding: Winding, moved = 0): string {
  return Array.from({ length: winding.layers }, (_, layer) => {
    const places = Array.from({ length: winding.slots }, (_, i) => {
      const slot = ((((i - moved) % winding.slots) + winding.slots) % winding.slots) + 1;
      const cell = cellAt(winding.table, slot, layer);
      return cell === 0 ? '.' : `${cell > 0 ? '+' : '-'}${winding.phases.names[phaseOfCell(cell)]}`;
    });
    return `  layer ${layerLetter(layer)} ${places.join(' ')}`;
  }).join('\n');
}
