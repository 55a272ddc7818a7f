import { chordSize, type Filament, nodeSize, partSize } from '../../../core/space/inductance/filaments.ts';

/** A filament turned about the axis by an angle (radians), and mirrored in the plane z = `mirror` (m) where that is given. */
export function moved(from: Filament, turn: number, mirror: number | null): Filament {
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)];
  /** Vectors begin at these places of every `size` numbers: places first, then directions. */
  const each = (numbers: Float64Array, size: number, vectors: readonly number[]) => {
    const found = numbers.slice();
    for (let first = 0; first < numbers.length; first += size)
      for (const [index, vector] of vectors.entries()) {
        const at = first + vector;
        const [x, y, z] = [numbers[at]!, numbers[at + 1]!, numbers[at + 2]!];
        found[at] = x * cosine - y * sine;
        found[at + 1] = x * sine + y * cosine;
        if (mirror !== null) found[at + 2] = (index === 0 ? 2 * mirror : 0) - z;
      }
    return found;
  };
  return {
    ...from,
    parts: each(from.parts, partSize, [0]),
    chords: each(from.chords, chordSize, [0, 3]),
    nodes: each(from.nodes, nodeSize, [0, 3]),
  };
}
