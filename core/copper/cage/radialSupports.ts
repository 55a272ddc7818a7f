/** A layer among others on its radius. Lengths in m, lean in mechanical radians over the stack. */
export interface LeaningLayer {
  /** Of the centers of its bars. */
  readonly radius: number;
  /** Of the coated bar along the radius. */
  readonly height: number;
  /** Signed. */
  readonly lean: number;
}

/** What is left between two layers that touch, m: sizes are written in hundredths of a millimeter. */
const touching = 1e-6;

/** Whether bars of two neighboring layers lie on each other and do not run alike. */
function layersTouch(inner: LeaningLayer, outer: LeaningLayer): boolean {
  const between = outer.radius - inner.radius - (inner.height + outer.height) / 2;
  return inner.lean !== outer.lean && between <= touching;
}

/**
 * Stretches between the places that hold the bars of each layer radially, as shares of their length: from
 * ring to ring, and where bars of a neighboring layer that touches them cross them. Bars of equal slots
 * meet at mid-stack; the others cross at equal distances from there.
 */
export function radialSpans(layers: readonly LeaningLayer[], slots: number): readonly (readonly number[])[] {
  const places = layers.map(() => new Set([-0.5, 0.5]));
  for (let outer = 1; outer < layers.length; outer++) {
    const [first, second] = [layers[outer - 1]!, layers[outer]!];
    if (!layersTouch(first, second)) continue;
    const crossings = (Math.abs(first.lean - second.lean) * slots) / (2 * Math.PI);
    for (let each = 0; each / crossings < 0.5 - 1e-9; each++) {
      for (const place of [each / crossings, -each / crossings]) {
        places[outer - 1]!.add(place + 0);
        places[outer]!.add(place + 0);
      }
    }
  }
  return places.map((held) => {
    const sorted = [...held].sort((a, b) => a - b);
    return sorted.slice(1).map((place, index) => place - sorted[index]!);
  });
}
