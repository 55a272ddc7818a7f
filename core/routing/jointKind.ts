import type { Bends } from '../winding/joints/bends.ts';
import { jointReason, kindOfReason, type WindingJoint } from '../winding/joints/joints.ts';
import type { Bar, EndSide, Winding } from '../winding/model.ts';

/** Whether a span is short enough to be bent: at most one pole pair. What reaches farther is a piece. */
export function isBentSpan(
  { slots, polePairs }: Pick<Winding, 'slots' | 'polePairs'>,
  span: number,
): boolean {
  return Math.abs(span) * polePairs <= slots;
}

/** How the router has a joint made: regular joints as they are, others bent over at most one pole pair. */
export function routedKind(
  winding: Pick<Winding, 'slots' | 'polePairs'>,
  bends: Bends,
  {
    side,
    from,
    to,
    span,
  }: { readonly side: EndSide; readonly from: Bar; readonly to: Bar; readonly span: number },
): WindingJoint['kind'] {
  const kind = kindOfReason(jointReason(bends, side, from, to, span));
  return kind === 'regular' || isBentSpan(winding, span) ? kind : 'jumper';
}

// Parts of a shape's key: far more layers and slots than a winding can have, and together less than 2^53.
const mostLayers = 1024;
const mostOffsets = 2 ** 21;

/** Key of a joint's shape: side, lower and upper layer, offset seen from the lower layer. */
export function shapeOf(side: EndSide, from: number, to: number, span: number): number {
  const offset = from === to ? Math.abs(span) : from < to ? span : -span;
  const layers = Math.min(from, to) * mostLayers + Math.max(from, to);
  const place = (side === 'far' ? mostLayers * mostLayers : 0) + layers;
  return place * mostOffsets + offset + mostOffsets / 2;
}
