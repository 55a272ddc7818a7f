import { machineValue } from '../analysis/machineInputs.ts';
import { allOf, derive, deriveFigure, type Figure, known, knownIf, missing } from '../figures/figure.ts';
import type { Specification } from '../language/specification/specification.ts';
import { barCoating, barEndLength, barWidth } from '../sizes/barInputs.ts';
import { isPiece, lowerBar, trueSpan, upperBar } from '../winding/joints/joints.ts';
import type { Bar, EndSide, Joint, Path, Winding } from '../winding/model.ts';
import { layerLetter } from '../winding/model.ts';
import {
  activeLength,
  bentEndLength,
  type EndBends,
  endBends,
  slopeHeight,
  slopeLength,
} from './endGeometry.ts';

/** What the ends of all bars are made from. */
export interface EndShape {
  readonly radii: readonly number[];
  /** One a layer. */
  readonly bends: readonly EndBends[];
  /** Straight part where a bar leaves the stack, and that where two bars are joined, m. */
  readonly endStraight: number;
  readonly jointStraight: number;
  /** How far a connecting piece lies above one on the level below it: coated width and clearance, m. */
  readonly levelRise: number;
}

/** A separate connecting piece, of the section of a layer's bars. Lengths in m. */
export interface ConnectingPiece {
  readonly joint: number;
  readonly layer: number;
  /** From a bar's straight end up to the level on which the piece runs. */
  readonly riser: number;
  readonly length: number;
}

/** Developed lengths, m. */
export interface BarLengths {
  /** Whole bars by place as in the slot table's `cells`; NaN for empty places. */
  readonly byPlace: Float64Array;
  readonly pieces: readonly ConnectingPiece[];
  /** Mean over the bars, pieces not counted. */
  readonly mean: number;
  /** Bars and connecting pieces. */
  readonly total: number;
  /** How far the tallest bar end or connecting piece stands out of the stack on each side. */
  readonly overhang: Readonly<Record<EndSide, number>>;
}

/** Length of each layer's bars within the stack, m; only leaning bars need their radius. */
export function activeLengths(
  specification: Specification,
  winding: Winding,
  radii: Figure<readonly number[]>,
): Figure<readonly number[]> {
  const skew = (specification.layout?.skew.length ?? 0) > 0 ? [] : ['layout skew: 0 (default)'];
  const stack = machineValue(specification, 'stack');
  const straight = winding.lean.every((lean) => lean === 0);
  return deriveFigure({ stack, radii: straight ? known(winding.lean) : radii }, (given) =>
    known(
      winding.lean.map((lean, layer) => activeLength(given.stack, lean, given.radii[layer]!)),
      ...skew,
    ),
  );
}

/** The shape of the bar ends, or the statement that would let the bends pass each other. */
export function endShape(
  specification: Specification,
  winding: Winding,
  radii: Figure<readonly number[]>,
): Figure<EndShape> {
  const layers = Array.from({ length: winding.layers }, (_, layer) => layer);
  return deriveFigure(
    {
      radii,
      widths: allOf(layers.map((layer) => barWidth(specification, layer))),
      coating: barCoating(specification),
      clearance: barEndLength(specification, 'endClearance'),
      endStraight: barEndLength(specification, 'endStraight'),
      jointStraight: barEndLength(specification, 'jointStraight'),
    },
    (given) => {
      const bendRadius = specification.bar?.bendRadius?.value ?? null;
      const bends = layers.map((layer) =>
        knownIf(
          endBends({
            radius: given.radii[layer]!,
            slots: winding.slots,
            coatedWidth: given.widths[layer]! + 2 * given.coating,
            clearance: given.clearance,
            bendRadius,
          }),
          `bar end-clearance with which the bends of layer ${layerLetter(layer)} can pass each other`,
        ),
      );
      return derive({ bends: allOf(bends) }, (formed) => ({
        radii: given.radii,
        bends: formed.bends,
        endStraight: given.endStraight,
        jointStraight: given.jointStraight,
        levelRise: Math.max(...given.widths) + 2 * given.coating + given.clearance,
      }));
    },
  );
}

/** What is missing where the corners of a bend meet. */
export const roomForCorners = 'bar bend-radius small enough for the slopes of the bar ends';

const notCounted = 'leads and star connections are counted up to the straight ends of their bars only';
const pieceRisers =
  'connecting pieces: section of their bars, arc at the mean radius, two risers as high as the tallest slope on their side, and for each further level coated width and clearance more';

/** Paths with their joints, and how they are made. */
export interface JoinedBars {
  readonly paths: readonly Path[];
  readonly joints: readonly Joint[];
  /** Level on which each connecting piece runs, from 1, by joint number; 1 for those left out. */
  readonly levels: ReadonlyMap<number, number>;
  /** Far-side joints are crowns, bent from one piece with both its legs. */
  readonly hairpins: boolean;
}

/**
 * Lengths of all bars and connecting pieces from the actual joints. Missing where some bar lies in no
 * path. Regular joints, crowns and twisted ends are bent from the bars; jumpers are separate pieces. A
 * crown has no straight part to be joined at.
 */
export function barLengths(
  winding: Winding,
  { paths, joints, levels, hairpins }: JoinedBars,
  shape: EndShape,
  active: readonly number[],
): Figure<BarLengths> {
  const { slots, cells } = winding.table;
  const straights = shape.endStraight + shape.jointStraight;
  const place = (bar: Bar) => bar.layer * slots + bar.slot - 1;
  const byPlace = new Float64Array(cells.length).fill(Number.NaN);
  for (const path of paths) {
    for (const bar of path.bars) byPlace[place(bar)] = active[bar.layer]! + 2 * straights;
  }
  for (let at = 0; at < cells.length; at++) {
    if (cells[at] !== 0 && Number.isNaN(byPlace[at]!)) return missing('connect paths through every bar');
  }
  const overhang = { connection: straights, far: hairpins ? shape.endStraight : straights };
  const slopes = { connection: 0, far: 0 };
  const apart: Joint[] = [];
  for (const joint of joints) {
    if (isPiece(joint)) {
      apart.push(joint);
      continue;
    }
    const { side, from, to } = joint;
    const span = trueSpan(winding, side, from, to, joint.span);
    const first = shape.bends[from.layer]!;
    const second = shape.bends[to.layer]!;
    if (first.corners > slopeLength(first, span) || second.corners > slopeLength(second, span)) {
      return missing(roomForCorners);
    }
    const saved = hairpins && side === 'far' ? shape.jointStraight : 0;
    byPlace[place(from)]! += bentEndLength(first, span, -saved);
    byPlace[place(to)]! += bentEndLength(second, span, -saved);
    const slope = Math.max(slopeHeight(first, span), slopeHeight(second, span));
    slopes[side] = Math.max(slopes[side], slope);
    overhang[side] = Math.max(overhang[side], straights - saved + slope);
  }
  const pieces = apart.map((joint) => {
    const above = (levels.get(joint.number) ?? 1) - 1;
    const riser = slopes[joint.side] + above * shape.levelRise;
    overhang[joint.side] = Math.max(overhang[joint.side], straights + riser);
    return connectingPiece(winding, joint, shape.radii, riser);
  });
  let ofBars = 0;
  let bars = 0;
  for (const length of byPlace) {
    if (Number.isNaN(length)) continue;
    ofBars += length;
    bars++;
  }
  return known(
    {
      byPlace,
      pieces,
      mean: ofBars / bars,
      total: pieces.reduce((sum, piece) => sum + piece.length, ofBars),
      overhang,
    },
    notCounted,
    ...(pieces.length > 0 ? [pieceRisers] : []),
  );
}

function connectingPiece(
  winding: Winding,
  joint: Joint,
  radii: readonly number[],
  riser: number,
): ConnectingPiece {
  const inner = radii[lowerBar(joint).layer]!;
  const outer = radii[upperBar(joint).layer]!;
  const span = Math.abs(trueSpan(winding, joint.side, joint.from, joint.to, joint.span));
  const arc = ((span * 2 * Math.PI) / winding.slots) * ((inner + outer) / 2);
  return {
    joint: joint.number,
    layer: joint.from.layer,
    riser,
    length: arc + 2 * riser + Math.abs(outer - inner),
  };
}
