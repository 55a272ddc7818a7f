import type { ConnectionFacts } from '../../facts/connection.ts';
import type { Facts } from '../../facts/facts.ts';
import type { Range } from '../../language/finding.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import type { WrittenPath } from '../../language/specification/statements.ts';
import type { Bends } from '../../winding/joints/bends.ts';
import { leansRight, type WindingJoint } from '../../winding/joints/joints.ts';
import type { Bar, EndSide } from '../../winding/model.ts';

/**
 * The hop that replaces a position reached against the lean, where the way round the other side of the
 * bore leans right: a position says no way, which is ambiguous where a joint spans about half a turn.
 */
export function otherWay(
  joints: readonly WindingJoint[],
  range: Range,
  { specification, winding }: Facts,
  { joints: connections }: ConnectionFacts,
): string | null {
  if (!specification.connect?.paths.some(({ value }) => isPosition(value.steps, range))) return null;
  const { bends } = connections();
  const { slots } = winding;
  const hops = new Set<string>();
  for (const { side, from, to, span } of joints) {
    const other = span > 0 ? span - slots : span + slots;
    if (Math.abs(other) > (2 * slots) / 3 || !jointLeans(bends, side, from, to, other)) return null;
    hops.add(`${other > 0 ? '+' : ''}${other}${layerLetter(to.layer)}`);
  }
  const [hop] = hops;
  return hops.size === 1 ? hop! : null;
}

/** Whether the step at a place of the text is an absolute position. */
function isPosition(steps: WrittenPath['steps'], range: Range): boolean {
  return steps.some((step) =>
    step.kind === 'group'
      ? isPosition(step.items, range)
      : step.kind === 'position' && step.range.start === range.start,
  );
}

/** Whether both legs of a joint bend the way their layers lean. */
function jointLeans(bends: Bends, side: EndSide, from: Bar, to: Bar, span: number): boolean {
  return leansRight(bends, side, from.layer, span) && leansRight(bends, side, to.layer, -span);
}
