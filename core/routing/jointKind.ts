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
  const kind = kindOfReason(jointReason(bends, side, from, to, span), false);
  return kind === 'regular' || isBentSpan(winding, span) ? kind : 'jumper';
}
