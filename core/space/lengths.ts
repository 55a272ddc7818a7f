import { roundedArea } from '../sizes/section.ts';
import type { EndSide } from '../winding/model.ts';
import { placeAt } from './curve.ts';
import type { Section } from './section.ts';
import type { Space } from './space.ts';

/** A separate connecting piece; lengths in m. */
export interface PieceLength {
  /** Its number. */
  readonly joint: number;
  /** Index of its path. */
  readonly path: number;
  /** From 1, the lowest. */
  readonly level: number;
  /** Along the center line. */
  readonly length: number;
  /** From riser to riser at the mean radius of its level part, and from radius to radius. */
  readonly across: number;
  /** Along the radius. */
  readonly step: number;
  /** Height of its level part above either tip, corners taken as sharp. */
  readonly risers: readonly [number, number];
  /** Copper area of its section, m2. */
  readonly area: number;
}

/** Developed lengths of a winding's bars, m. */
export interface BarLengths {
  /** Whole bars by place as in the slot table's `cells`, half of their crowns included; NaN for empty places. */
  readonly byPlace: Float64Array;
  readonly pieces: readonly PieceLength[];
  /** Copper of the rings, m3. */
  readonly ringVolume: number;
  /** Mean over the bars, pieces not counted. */
  readonly mean: number;
  /** Bars and connecting pieces. */
  readonly total: number;
  /** How far bars, pieces and rings stand out of the stack on each side, coating included. */
  readonly overhang: Readonly<Record<EndSide, number>>;
}

/** Lengths of all bars and connecting pieces: sums over their pieces in space. */
export function barLengths(space: Space): BarLengths {
  const byPlace = new Float64Array(space.bars.length).fill(Number.NaN);
  let ofBars = 0;
  let bars = 0;
  space.bars.forEach((bar, place) => {
    if (!bar) return;
    const length = space.slotParts[bar.bar.layer]!.length + bar.connection.length + bar.far.length;
    byPlace[place] = length;
    ofBars += length;
    bars++;
  });
  const pieces = space.links.map((link): PieceLength => {
    const first = placeAt(link.pieces[0]!.curve, 0);
    const last = placeAt(link.pieces.at(-1)!.curve, 1);
    return {
      joint: link.joint,
      path: link.path,
      level: link.level,
      length: link.length,
      across: Math.abs(last.angle - first.angle) * ((first.radius + last.radius) / 2 + link.beside),
      step: Math.abs(last.radius - first.radius),
      risers: [link.height - first.height, link.height - last.height],
      area: areaOf(link.section),
    };
  });
  return {
    byPlace,
    pieces,
    ringVolume: space.rings.reduce((sum, { piece, section }) => sum + piece.length * areaOf(section), 0),
    mean: ofBars / bars,
    total: pieces.reduce((sum, piece) => sum + piece.length, ofBars),
    overhang: space.overhang,
  };
}

function areaOf({ width, height, corner }: Section): number {
  return roundedArea(width, height, corner);
}
