import { textWidth } from '../../picture/fontMetrics.ts';
import { type MeasuredWords, textRow, textSize } from '../../picture/make.ts';
import type { Bar, EndSide, Winding } from '../../winding/model.ts';

/** Where things lie in the developed layout, in millimeters; x from the border before slot 1. */
export interface LayoutScale {
  readonly slots: number;
  /** Width of one slot pitch. */
  readonly pitch: number;
  /** Distance of neighboring layers within a slot. */
  readonly layerPitch: number;
  /** Place of each layer from its slot's left border. */
  readonly offsets: readonly number[];
  /** The whole development. */
  readonly width: number;
  /** How far each layer's bars move to the right from the connection side to the far side. */
  readonly lean: readonly number[];
  /**
   * Cut edges lie this far before slot 1 and slot Q + 1: were they at the border itself, rising and
   * falling lines would pass them in the same points.
   */
  readonly cutInset: number;
  /** How far leaning bars reach beyond the cut edges. */
  readonly overshoot: number;
  /** Height of the stack. */
  readonly stack: number;
  /** Height of the strip at mid-stack that holds slot numbers, layer letters and bar labels. */
  readonly strip: number;
  /** Rows of bar labels in the strip; layer l stands in row l mod labelRows. */
  readonly labelRows: number;
  /** How far from mid-stack marks on bars stand, so that bars which cross do not cross at their marks. */
  readonly markDistance: number;
  /** What the bars of a phase are called in either sense, with widths. */
  readonly labels: readonly { readonly plus: MeasuredWords; readonly minus: MeasuredWords }[];
}

const smallestLayerPitch = 2.2;
const smallestWidth = 150;
const largestLayerPitch = 4;

/** Sizes that a drawing asks for instead of those that would be chosen, in millimeters. */
export interface WantedScale {
  /** Slot pitch; never below the smallest that holds the labels. */
  readonly pitch?: number | undefined;
  /** Height of the stack; never below what the strip and the marks on the bars need. */
  readonly stack?: number | undefined;
}

/** The least height of bars above and below the strip together. */
const smallestBars = 20;

/** The least height of the stack at which strip and bars are legible, in millimeters. */
export function leastStack({ strip }: Pick<LayoutScale, 'strip'>): number {
  return strip + smallestBars;
}

/** Chooses the scale so that every label and number fits beside its neighbors. */
export function layoutScale(winding: Winding, wanted: WantedScale = {}): LayoutScale {
  const { slots, layers } = winding;
  const labels = winding.phases.names.map((name) => ({
    plus: measured(`+${name}`),
    minus: measured(`\u2212${name}`),
  }));
  const labelWidth = Math.max(0, ...labels.map(({ plus, minus }) => Math.max(plus.width, minus.width))) + 0.5;
  const labelRows = Math.min(layers, Math.ceil(labelWidth / 2.4));
  let layerPitch = Math.max(smallestLayerPitch, labelWidth / labelRows);
  // From the last label of a row to the first of the next slot.
  const reach = Math.floor((layers - 1) / labelRows) * labelRows * layerPitch;
  const smallestPitch = Math.max(
    (layers - 1) * layerPitch + Math.max(2 * layerPitch, 4.4),
    reach + labelWidth,
    textWidth(String(slots), textSize) + 1,
    wanted.pitch ?? smallestWidth / slots,
  );
  layerPitch = Math.max(layerPitch, Math.min(largestLayerPitch, (0.7 * smallestPitch) / layers));
  const leanPitches = Array.from(
    { length: layers },
    (_, layer) => ((winding.lean[layer] ?? 0) * slots) / (2 * Math.PI),
  );
  const pitch = choosePitch(smallestPitch, layerPitch, leanPitches);
  const width = slots * pitch;
  const lean = leanPitches.map((one) => one * pitch);
  const largestLean = Math.max(0, ...lean.map(Math.abs));
  const strip = (2 + labelRows) * textRow + 1;
  const offsets = layerOffsets(layers, pitch, layerPitch);
  const stack =
    wanted.stack === undefined
      ? Math.max(strip + 36, Math.min(0.11 * width, 110), Math.min(0.9 * largestLean, 300))
      : Math.max(leastStack({ strip }), wanted.stack);
  return {
    slots,
    pitch,
    layerPitch,
    offsets,
    width,
    lean,
    cutInset: Math.min(0.6, layerPitch / 4),
    overshoot: largestLean / 2,
    stack,
    strip,
    labelRows,
    markDistance: chooseMarkDistance(lean, offsets, pitch, strip / 2, stack),
    labels,
  };
}

function layerOffsets(layers: number, pitch: number, layerPitch: number): readonly number[] {
  return Array.from({ length: layers }, (_, layer) => pitch / 2 + (layer - (layers - 1) / 2) * layerPitch);
}

/**
 * Where layers lean apart, ends of bars of different layers can meet by chance of the scale: widens the
 * slot pitch by up to a half until they stand clear of each other, or as clear as that makes them.
 */
function choosePitch(smallest: number, layerPitch: number, lean: readonly number[]): number {
  if (lean.every((one) => one === lean[0])) return smallest;
  let best = smallest;
  let widest = -1;
  for (let step = 0; step <= 10 && widest < 0.45 * layerPitch; step++) {
    const pitch = smallest * (1 + step / 20);
    const offsets = layerOffsets(lean.length, pitch, layerPitch);
    const gap = Math.min(
      ...[-0.5, 0.5].map((half) =>
        nearest(
          lean.map((one, layer) => offsets[layer]! + half * one * pitch),
          pitch,
        ),
      ),
    );
    if (gap > widest + 1e-9) [best, widest] = [pitch, gap];
  }
  return best;
}

/** Of some distances near the middle of half a bar, the one at which bars are farthest from each other. */
function chooseMarkDistance(
  lean: readonly number[],
  offsets: readonly number[],
  pitch: number,
  inner: number,
  stack: number,
): number {
  const middle = (inner + stack / 2) / 2;
  if (lean.every((one) => one === lean[0])) return middle;
  const step = (stack / 2 - inner) / 24;
  let best = middle;
  let widest = -1;
  for (const shift of [0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6]) {
    const distance = middle + shift * step;
    const gap = nearest(
      lean.map((one, layer) => offsets[layer]! + (one * distance) / stack),
      pitch,
    );
    if (gap > widest + 1e-9) [best, widest] = [distance, gap];
  }
  return best;
}

/** The least distance of places that repeat every `pitch`. */
function nearest(places: readonly number[], pitch: number): number {
  const sorted = places.map((place) => place - pitch * Math.floor(place / pitch)).sort((a, b) => a - b);
  return sorted.reduce(
    (least, place, index) => Math.min(least, index === 0 ? least : place - sorted[index - 1]!),
    sorted[0]! + pitch - sorted.at(-1)!,
  );
}

/** Place of a bar at mid-stack. */
function middleOfBar(scale: LayoutScale, bar: Bar): number {
  return (bar.slot - 1) * scale.pitch + scale.offsets[bar.layer]!;
}

/** Place of a bar's end on one side. */
export function endOfBar(scale: LayoutScale, bar: Bar, side: EndSide): number {
  const half = scale.lean[bar.layer]! / 2;
  return middleOfBar(scale, bar) + (side === 'far' ? half : -half);
}

function measured(words: string): MeasuredWords {
  return { text: words, width: textWidth(words, textSize) };
}
